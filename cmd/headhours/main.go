// Headhours says what growing leafy greens by hand takes, in hours and money
// per head, from stopwatch readings of each step.
package main

import (
	"os"
	"runtime"
	"runtime/debug"
)

func main() {
	collectLate()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// collectLate has memory collected for the first time when there is eight times as much of it
// as otherwise, which most commands never need; from then on when it is half as much again as was
// in use, since the first may come when that is the most.
func collectLate() {
	if os.Getenv("GOGC") != "" {
		return
	}
	debug.SetGCPercent(800)
	runtime.AddCleanup(new(*int), func(percent int) { debug.SetGCPercent(percent) }, 50)
}
