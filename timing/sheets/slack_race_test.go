//go:build race

package sheets

// slack is how many times as much memory the race detector takes.
const slack = 10
