package sheets

import (
	"runtime/debug"
	"testing"
)

// Long workbooks come and go, of which little is alive.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	m.Run()
}
