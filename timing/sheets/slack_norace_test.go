//go:build !race

package sheets

// slack is how many times as much memory the race detector takes, which is not on.
const slack = 1
