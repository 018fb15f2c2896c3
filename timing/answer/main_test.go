package answer

import (
	"os"
	"runtime/debug"
	"testing"
)

// Thousands of small studies come and go, of which a few megabytes are alive: the collector
// would otherwise take as long as all they are tested for.
func TestMain(m *testing.M) {
	debug.SetGCPercent(800)
	m.Run()
}

// draws is how many invented studies something is tried on: five times as many where
// LONG_TESTS is set.
func draws(n uint64) uint64 {
	if os.Getenv("LONG_TESTS") != "" {
		return 5 * n
	}
	return n
}
