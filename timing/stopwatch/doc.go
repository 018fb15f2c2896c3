// Package stopwatch times work as it is done. A face, on a terminal or a phone,
// turns each press into an Event; a Journal keeps the events, one line of JSON
// each, and only ever grows; Fold says what they come to, a State with its
// readings and interruptions. A Stopwatch is the three together.
//
// A session is one spell of work at one recorder and has a journal of its own,
// named after it. Its events carry a number each, by which they are put in
// order, and an identifier, by which each counts once: they may arrive late, out
// of order and more than once. Nothing is ever changed in a journal; undo, void
// and amend are events like any other.
//
// Every moment of a session is work on one reading, an interruption or neither.
// Time is what the recorder's monotonic clock says as long as that clock ran on,
// and what the wall clock says from one run of it to the next. Where the two
// differ by more than a second a warning says so.
//
// A lot carries the visit of the reading before it on: it is a lap, with no
// setup of its own. Two jobs done in one go are a step of their own, such as
// "thin and top up": no time is ever split between steps.
package stopwatch
