// Package cues turns the cues of a film into readings: a stretch of film from
// where a step starts to where it ends, with the step, its count and what else
// there is to say written beside it.
//
// Three kinds of file are read, told apart by what is in them. One that begins
// with the line WEBVTT is WebVTT (W3C, WebVTT: The Web Video Text Tracks
// Format), read by the steps of its sections 6.1 and 6.3. Else a file with an
// arrow --> is SubRip, for which there is no standard: blocks between blank
// lines, each a number (which may be missing), HH:MM:SS,mmm --> HH:MM:SS,mmm
// and text. Anything else is marks, a line each:
//
//	0:12    sow x24
//	3:40.5  thin x18
//	6:02    stop
//
// A mark m:ss or h:mm:ss ends the one before and begins a step with a count; one
// named - or stop only ends.
//
// The text of a cue is the step on its first line, then lines key: value.
//
//	00:11.000 --> 00:48.500
//	sow
//	count: 24
//	worker: w1
//
// Cues with one reading: label are parts of one reading, such as a step that
// was broken off and taken up again.
//
// What players pass over in silence, a broken timing line or text that belongs
// to no cue, is a problem here: it would be a reading lost. A file with a
// problem gives no readings.
package cues
