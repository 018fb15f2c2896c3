package phone

import (
	"io"

	"headhours/timing/study"
)

// DefaultPort is where phones find the page unless told otherwise.
const DefaultPort = 8737

// Options say what to serve and to whom.
type Options struct {
	Dir    string                      // the study folder
	Study  func() (study.Study, error) // reads the study as it is now
	LAN    bool                        // on local networks too, not this computer alone
	Port   int                         // 0: any that is free
	NewKey bool                        // phones that had the old one are shut out
	Out    io.Writer                   // for the address and its code
	Err    io.Writer                   // for what goes wrong later
	Colour bool                        // Out is a terminal with colours
}
