package answer

import (
	"runtime/debug"
	"testing"
)

// Thousands of small studies come and go, of which a few megabytes are alive: the collector
// would otherwise take as long as all they are tested for.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
