// Package condense takes readings in, batch by batch and each once, and brings them down to
// what answers need of them: sums by step, way, grow and worker, the first readings of each
// step and those far from what they say, and how often each visit of a grow was begun.
//
// A Gathering is filled and ends in a Condensed, which is not changed any more: models of
// every kind are fitted to it, and readings that come later make another (With). Memory is
// bounded, however long the logs.
package condense
