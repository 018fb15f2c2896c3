package main

import (
	"fmt"
	"strings"
)

// cue is a WebVTT cue of sow from one second to another, with more lines.
func cue(from, to int, more string) string {
	stamp := func(s int) string { return fmt.Sprintf("%02d:%02d:%02d.000", s/3600, s/60%60, s%60) }
	return stamp(from) + " --> " + stamp(to) + "\nsow\n" + more + "\n\n"
}

func filmed(name, why, file, text string) hostile {
	return hostile{name: name, why: why, files: map[string]string{"study.toml": small, file: text}, args: []string{"film", file}}
}

// parts are cues of one reading, each with a note.
func parts(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(cue(2*i, 2*i+1, fmt.Sprintf("count: 1\nreading: a\nnote: note %d", i)))
	}
	return b.String()
}

func hostileCues() []hostile {
	const oneMinute = "timings/m.csv: readings 1, minutes of work 1.0"
	vtt := func(name, why, text string) hostile { return filmed(name, why, "m.vtt", text) }
	srt := func(name, why, text string) hostile { return filmed(name, why, "m.srt", text) }
	marks := func(name, why, text string) hostile { return filmed(name, why, "m.txt", text) }
	const head = "WEBVTT\n\n"
	many := func(n int) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(cue(2*i, 2*i+1, "count: 10"))
		}
		return b.String()
	}
	return []hostile{
		vtt("empty", "a file of no bytes", "").fails("m.vtt: no cues"),
		vtt("head alone", "a head and no cue", head).fails("m.vtt: no cues"),
		vtt("a workbook", "a workbook under the name of a cue file", string(xlsxOf(goodRows))).fails("m.vtt:1: is not UTF-8 text"),
		vtt("UTF-16", "cues in UTF-16", inUTF16("\ufeff"+head+cue(0, 60, "count: 10"))).fails("m.vtt:1: is not UTF-8 text"),
		vtt("NUL", "a NUL byte in a note", head+cue(0, 60, "count: 10\n∑note: a\x00b")).fails("is not UTF-8 text"),
		vtt("CRLF and a mark", "a byte-order mark and CRLF, as some programs save", strings.ReplaceAll("\ufeff"+head+cue(0, 60, "count: 10"), "\n", "\r\n")).gives(oneMinute),
		vtt("carriage returns", "lines that end in carriage returns alone, which the standard has", strings.ReplaceAll(head+cue(0, 60, "count: 10"), "\n", "\r")).gives(oneMinute),
		vtt("overlap", "two cues of one worker at once", head+cue(0, 60, "count: 10")+"∑"+cue(30, 90, "count: 10")).fails("begins before the cue on line 3 ends"),
		vtt("backwards", "a cue that ends before it begins", head+"∑"+cue(60, 0, "count: 10")).fails("runs backwards"),
		vtt("no time", "a cue that ends as it begins", head+"∑"+cue(60, 60, "count: 10")).fails("runs backwards"),
		vtt("below zero", "a time below zero", head+"∑-00:01.000 --> 00:02.000\nsow\ncount: 1\n").fails("is not a timing line"),
		vtt("hours beyond all", "hours beyond all numbers", head+"∑"+strings.Repeat("9", 40)+":00:00.000 --> "+strings.Repeat("9", 40)+":00:01.000\nsow\ncount: 1\n").fails("is not a timing line"),
		vtt("a film of a century", "a cue of 999,999 hours: times stay exact", head+"00:00.000 --> 999999:00:00.000\nsow\ncount: 1\n").gives("timings/m.csv: readings 1, minutes of work 59999940.0"),
		vtt("orders to a terminal", "a step that clears the screen and turns text about", head+"00:00.000 --> 00:01.000\n∑s\x1b[2Jow\u202e\ncount: 1\n").fails(`no step is named "s [2Jow\u202e"`),
		vtt("orders by reference", "the same by character references", head+"00:00.000 --> 00:01.000\n∑s&#27;[2Jow&#x202e;\ncount: 1\n").fails(`no step is named "s [2Jow\u202e"`),
		vtt("orders in a timing line", "a timing line that clears the screen", head+"∑\x1b[2J\u202e00:01 --> 00:02\nsow\n").fails(`"\x1b[2J\u202e00:01`),
		vtt("key of orders", "a key that turns text about", head+cue(0, 60, "count: 10\n∑\u202e: 1")).fails(`unknown key "\u202e"`),
		vtt("key twice", "a count that stands twice", head+cue(0, 60, "count: 10\n∑count: 20")).fails("count stands twice"),
		vtt("exponent", "a count with an exponent", head+cue(0, 60, "∑count: 1e9")).fails(`count "1e9" is not a number`),
		vtt("Arabic digits", "a count in Arabic digits", head+cue(0, 60, "∑count: ٣")).fails(`count "٣" is not a number`),
		vtt("400 digits", "a count beyond all numbers", head+cue(0, 60, "∑count: "+strings.Repeat("9", 400))).fails("is too large"),
		vtt("a day that is not", "30 February", head+cue(0, 60, "count: 10\n∑date: 2026-02-30")).fails(`date "2026-02-30" is not a date`),
		vtt("tags without end", "a hundred thousand tags that nothing ends", head+"00:00.000 --> 00:01.000\n∑"+strings.Repeat("<", 100_000)+"sow\ncount: 1\n").fails("a < begins a tag that no > ends"),
		vtt("twenty thousand cues", "a cue every two seconds for half a day, of 1 s each", head+many(20_000)).bounded(160, 8).gives("timings/m.csv: readings 20000, minutes of work 333.3"),
		vtt("step of 1 MB", "a step of 1 MB in an error", head+"00:00.000 --> 00:01.000\n∑"+strings.Repeat("x", 1<<20)+"\n").bounded(64, 8).fails("no step is named"),
		vtt("parts with notes", "the notes of 20,000 parts of a reading", head+parts(20_000)).bounded(160, 8).gives("timings/m.csv: readings 1, minutes of work 333.3"),
		vtt("more than a million lines", "a file of line ends", head+strings.Repeat("\n", 1_000_000)).bounded(64, 8).fails("m.vtt: is not read: holds more than 1000000 lines"),
		{name: "names of all steps", why: "300 steps of 500 letters, and 100 marks of none of them",
			files: map[string]string{"study.toml": small + numbered("[[step]]\nname = \""+strings.Repeat("z", 500)+"%d\"\n", 300), "m.txt": "∑0:00 q x1\n" + numbered("1%02d:00 q x1\n", 100) + "9999:00 stop\n"},
			args:  []string{"film", "m.txt"}, status: badData, says: []string{"no step is named", "and 293 more"}, output: 120},
		{name: "orders in its own name", why: "a file whose name clears the screen and turns text about", files: map[string]string{"study.toml": small, "m\x1b[2J\u202e.vtt": head + "00:00.000 --> 00:01.000\nq\ncount: 1\n"},
			args: []string{"film", "m\x1b[2J\u202e.vtt"}, status: badData, says: []string{`m\x1b[2J\u202e.vtt:4: `}},
		{name: "orders in the name of its log", why: "the same where nothing is wrong", files: map[string]string{"study.toml": small, "m\x07\u202e.vtt": head + cue(0, 60, "count: 10")},
			args: []string{"film", "m\x07\u202e.vtt"}, holds: []string{`timings/m \u202e.csv: readings 1, minutes of work 1.0`}},
		{name: "orders in the name of no file", why: "the same where there is none", files: map[string]string{"study.toml": small}, args: []string{"film", "m\x07\u202e.vtt"}, status: badData, says: []string{`m\a\u202e.vtt`}},
		srt("no numbers", "cues without their numbers", strings.ReplaceAll(cue(0, 60, "count: 10"), ".000", ",000")).gives(oneMinute),
		srt("points for commas", "SubRip with WebVTT's points", "1\n∑"+cue(0, 60, "count: 10")).fails("is not a timing line"),
		srt("no blank line", "a cue within a cue", "1\n00:00:00,000 --> 00:00:01,000\nsow\ncount: 1\n2\n∑00:00:02,000 --> 00:00:03,000\nsow\ncount: 1\n").fails("put a blank line between cues"),
		marks("backwards", "a mark before the one above it", "1:00 sow x10\n∑0:30 stop\n").fails("runs backwards"),
		marks("never ended", "a mark that nothing ends", "∑0:00 sow x10\n").fails("nothing ends the last mark"),
		marks("thirty thousand bad lines", "every line is wrong: the first thousand are listed, then how many more", "∑"+strings.Repeat("zzz\n", 30_000)).bounded(64, 100).fails("m.txt:1000: ", "and 29000 more"),
		marks("no count", "a mark without its count", "∑0:00 sow\n1:00 stop\n").fails(`"sow" lacks a count`),
		filmed("hidden log", "a name that would make a log that is not read", "..vtt", head+cue(0, 60, "count: 10")).fails("would give a hidden log"),
	}
}
