// Package terminal is the stopwatch's face in a terminal: a full screen worked
// by single keys, and lines of commands for scripts and screen readers. Both do
// the same to the same desk.
//
// The screen is two pure parts about a Screen: Key takes a key and says what is
// to be done, View gives the lines to show. Only what stands between them and the
// world, the recorder and the program, reads clocks and writes files. What a press
// does is written to the journal and synced before it shows.
//
// A key or line has the time at which it was read, before anything else is done. What rests
// on task logs, which are read in the background, and on models comes after the answer.
package terminal
