// Headhours says what growing leafy greens by hand takes, in hours and money
// per head, from stopwatch readings of each step.
package main

import (
	"os"

	"headhours/timing/late"
)

func main() {
	late.Collect()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
