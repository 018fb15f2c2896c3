package stepfit

import (
	"runtime/debug"
	"testing"
)

// Thousands of fits come and go, of which hardly any are alive.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
