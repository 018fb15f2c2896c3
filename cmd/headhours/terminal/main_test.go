package terminal

import (
	"runtime/debug"
	"testing"
)

// Screens come and go, one at a time alive.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
