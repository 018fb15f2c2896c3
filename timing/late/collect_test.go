package late

import (
	"runtime"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The first collection is late, and once there was one it is seen to what follows, whether or not cleanups
// have had a core.
func TestCollect(t *testing.T) {
	t.Setenv("GOGC", "")
	percent := debug.SetGCPercent(100)
	defer debug.SetGCPercent(percent)
	Collect()
	assert.Equal(t, 800, debug.SetGCPercent(800))
	runtime.GC()
	Collected()
	assert.Equal(t, 50, debug.SetGCPercent(70))
	runtime.GC()
	Collected()
	assert.Equal(t, 70, debug.SetGCPercent(70), "once")

	t.Setenv("GOGC", "90")
	Collect()
	runtime.GC()
	Collected()
	assert.Equal(t, 70, debug.SetGCPercent(70), "the environment says when")
}
