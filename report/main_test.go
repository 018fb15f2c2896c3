package report

import (
	"runtime/debug"
	"testing"
)

// Whole answers come and go, of which few are alive.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
