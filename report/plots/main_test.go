package plots

import (
	"runtime/debug"
	"testing"
)

// Hundreds of figures come and go, of which hardly any are alive.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
