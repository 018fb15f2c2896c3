package page

import (
	"runtime/debug"
	"testing"
)

// Whole pages come and go, of which few are alive.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
