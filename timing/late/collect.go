package late

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync/atomic"
)

// waits says that the first collection is waited for.
var waits atomic.Bool

// Collect has memory collected for the first time when there is eight times as much of it
// as otherwise, which most commands never need; from then on when it is half as much again as was
// in use, since the first may come when that is the most. It does nothing where the environment says
// when (GOGC).
func Collect() {
	if os.Getenv("GOGC") != "" {
		return
	}
	waits.Store(true)
	debug.SetGCPercent(800)
	runtime.AddCleanup(new(*int), func(int) { Collected() }, 0)
}

// Collected sees to what Collect says of the second collection, once there was a first. What leaves no
// core idle for long calls it now and then: no cleanup is run until one is.
func Collected() {
	if waits.Load() && cycles() > 0 && waits.CompareAndSwap(true, false) {
		debug.SetGCPercent(50)
	}
}

// cycles is how often memory was collected.
func cycles() uint64 {
	sample := []metrics.Sample{{Name: "/gc/cycles/total:gc-cycles"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}
