package terminal

import (
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/answer"
)

// Logs are what a study's task logs come to, which are read in the background; see
// sums.Keeper.
type Logs interface {
	Latest(wait time.Duration) sums.Snapshot
	DoneIn(grow string, wait time.Duration) (done []answer.Done, ready bool)
}

// maxWait is how long is waited for logs that are being read: at the start, and where
// something other than a press rests on them. No press waits.
const maxWait = 300 * time.Millisecond

// noLogs is a study without any.
type noLogs struct{}

func (noLogs) Latest(time.Duration) sums.Snapshot { return sums.Snapshot{Ready: true} }

func (noLogs) DoneIn(string, time.Duration) ([]answer.Done, bool) { return nil, true }
