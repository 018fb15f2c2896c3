package cues

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// expected takes the marks ∑ out of a text and gives the problems that belong on
// their lines.
func expected(marked string, texts []string) (text string, want study.Problems) {
	for i, l := range strings.Split(marked, "\n") {
		for range strings.Count(l, "∑") {
			want = append(want, study.Problem{Place: study.Place{File: "monday", Line: i + 1}, Text: texts[len(want)]})
		}
	}
	return strings.ReplaceAll(marked, "∑", ""), want
}

func TestProblems(t *testing.T) {
	const (
		head     = "WEBVTT\n\n00:00.000 --> 00:04.000\n"
		noCue    = " belongs to no cue: a cue is a timing line such as "
		vttNoCue = noCue + "00:11.000 --> 00:13.000 and the lines below it, up to a blank one; a comment begins with NOTE"
		srtNoCue = noCue + "00:00:11,000 --> 00:00:13,000 and the lines below it, up to a blank one"
		vttLine  = " is not a timing line: want one such as 00:11.000 --> 00:13.000 or 01:00:11.000 --> 01:00:13.000"
		srtLine  = " is not a timing line: want one such as 00:00:11,000 --> 00:00:13,000; a WebVTT file begins with the line WEBVTT"
		noText   = "the cue has no text: want the step on its first line, then lines such as count: 24"
		backward = "the cue runs backwards: its end must be later than its start"
		noCount  = " lacks a count: say how many units it covered, count: 24 below the step or x24 behind it in a mark"
		noTime   = " does not begin with a time m:ss or h:mm:ss: want a mark such as 0:12 sow x24"
		overlap  = " ends: one worker does one thing at a time, name the workers if there are two"
		isNumber = " is not a number: digits with at most one decimal point"
		isDate   = " is not a date: YYYY-MM-DD, a day of the calendar"
	)
	opts := Options{Steps: []string{"sow", "thin", "cut and bag"}, Workflows: []string{"by hand"}, Workflow: "by hand"}
	for _, c := range []struct {
		name, text string // a mark ∑ stands in each line that has a problem
		texts      []string
	}{
		// blocks
		{"broken timing line", "WEBVTT\n\n∑00:05.00 --> 00:06.000\nsow\ncount: 1\n\n00:07.000 --> 00:08.000\nsow\ncount: 1\n", []string{`"00:05.00 --> 00:06.000"` + vttLine}},
		{"two broken timing lines in a block", "WEBVTT\n\n∑1 --> 2\n∑3 --> 4\n", []string{`"1 --> 2"` + vttLine, `"3 --> 4"` + vttLine}},
		{"broken arrow", "WEBVTT\n\n∑00:05.000 -> 00:06.000\nsow\ncount: 1\n", []string{`"00:05.000 -> 00:06.000"` + vttNoCue}},
		{"a comma in WebVTT", "WEBVTT\n\nid\n∑00:05,000 --> 00:06,000\nsow\ncount: 1\n", []string{`"00:05,000 --> 00:06,000"` + vttLine}},
		{"a year of film too many", "WEBVTT\n\n∑00:05.000 --> 99999999999999999999:00:06.000\nsow\ncount: 1\n", []string{`"00:05.000 --> 99999999999999999999:00:06.000"` + vttLine}},
		{"a million hours", "WEBVTT\n\n∑00:05.000 --> 1000001:00:00.000\nsow\ncount: 1\n", []string{`"00:05.000 --> 1000001:00:00.000"` + vttLine}},
		{"text after a blank line", "WEBVTT\n\n∑00:00.000 --> 00:04.000\nsow\n\n∑count: 24\n", []string{`"sow"` + noCount, `"count: 24"` + vttNoCue}},
		{"words that look like a comment", "WEBVTT\n\n∑NOTES\n\n∑STYLES\n", []string{`"NOTES"` + vttNoCue, `"STYLES"` + vttNoCue}},
		{"two lines above a timing line", "WEBVTT\n\n∑one\ntwo\n00:00.000 --> 00:04.000\nsow\ncount: 1\n", []string{`"one"` + vttNoCue}},
		{"open tag", head + "sow\n∑note: pH < 6\ncount: 24\n", []string{"a < begins a tag that no > ends: write &lt; for the sign itself"}},
		{"SubRip timing", "1\n∑00:00:05.000 --> 00:00:06.000\nsow\ncount: 1\n\n∑0:00:05,000 --> 00:00:06,000\nsow\ncount: 1\n\n∑00:60:05,000 --> 00:61:06,000\nsow\n", []string{
			`"00:00:05.000 --> 00:00:06.000"` + srtLine, `"0:00:05,000 --> 00:00:06,000"` + srtLine, `"00:60:05,000 --> 00:61:06,000"` + srtLine}},
		{"SubRip text alone", "∑sow\ncount: 1\n\n00:00:05,000 --> 00:00:06,000\nsow\ncount: 1\n\n∑3", []string{`"sow"` + srtNoCue, `"3"` + srtNoCue}},
		{"SubRip without a blank line", "1\n00:00:05,000 --> 00:00:06,000\nsow\ncount: 1\n2\n∑00:00:06,000 --> 00:00:07,000\nsow\ncount: 1\n", []string{"a timing line in the text of a cue: put a blank line between cues"}},
		{"a cue without text", "WEBVTT\n\n∑00:05.000 --> 00:06.000\n\n00:07.000 --> 00:08.000\nsow\ncount: 1\n", []string{noText}},
		{"a tag alone", "WEBVTT\n\n∑00:05.000 --> 00:06.000\n<c></c>\n", []string{noText}},

		// times
		{"backwards", "WEBVTT\n\n∑00:04.000 --> 00:01.000\nsow\ncount: 1\n\n∑00:05.000 --> 00:05.000\nsow\ncount: 1\n", []string{backward, backward}},
		{"overlap", head + "sow\ncount: 1\n\n∑00:03.999 --> 00:05.000\nsow\ncount: 1\n\n∑00:01.000 --> 00:02.000\nsow\ncount: 1\n\n00:05.000 --> 00:06.000\nsow\ncount: 1\n",
			[]string{"begins before the cue on line 3" + overlap, "begins before the cue on line 3" + overlap}},
		{"overlap of one named worker, under a long cue", head + "sow\ncount: 1\nworker: w1\n\n00:01.000 --> 00:09.000\nsow\ncount: 1\nworker: w2\n\n∑00:08.000 --> 00:10.000\nsow\ncount: 1\nworker: w2\n\n∑00:09.999 --> 00:11.000\nsow\ncount: 1\nworker: w2\n",
			[]string{"begins before the cue on line 8" + overlap, "begins before the cue on line 13" + overlap}},
		{"overlap of parts", head + "sow\ncount: 1\nreading: a\nworker: w1\n\n∑00:01.000 --> 00:05.000\nsow\nreading: a\n", []string{"begins before the cue on line 3" + overlap}},
		{"overlap with a cue that runs backwards", head + "sow\ncount: 1\n\n∑00:03.000 --> 00:02.000\nsow\ncount: 1\n", []string{backward}},

		// what a cue says
		{"no count", "WEBVTT\n\n∑00:00.000 --> 00:04.000\nsow\nsetups: 1\n", []string{`"sow"` + noCount}},
		{"counts", head + "sow\n∑count: 0\n\n00:04.000 --> 00:05.000\nsow\n∑count: 1o\n\n00:05.000 --> 00:06.000\nsow\n∑count: 0.0\nsetups: 0\n\n00:06.000 --> 00:07.000\nsow\n∑count:\n\n00:07.000 --> 00:08.000\nsow\n∑count: 1,5\n\n00:08.000 --> 00:09.000\nsow\n∑count: -1\n\n00:09.000 --> 00:10.000\nsow\n∑count: ١\n", []string{
			`count "0" is not above 0: only a cue with setups above 0 may do without`, `count "1o"` + isNumber,
			`count "0.0" is not above 0: only a cue with setups above 0 may do without`, `count ""` + isNumber, `count "1,5"` + isNumber, `count "-1" is below 0: want it without a sign`, `count "١"` + isNumber}},
		{"numbers", head + "sow\ncount: 1\n∑setups: one\n∑people: 0\n\n00:05.000 --> 00:06.000\nsow\ncount: 1\n∑people: 1e3\n", []string{`setups "one"` + isNumber, `people "0" is not above 0`, `people "1e3"` + isNumber}},
		{"too large", head + "sow\n∑count: 1" + strings.Repeat("0", 309) + "\n", []string{`count "1` + strings.Repeat("0", 59) + `…" is too large: fewer than 309 digits`}},
		{"too much", "WEBVTT\n\n∑00:00.000 --> 00:04.000\nsow\ncount: 1\npeople: 1" + strings.Repeat("0", 308) + "\n", []string{"time × speed × people is no time that can be: 4 s × 1 × 1e+308"}},
		{"dates", head + "sow\ncount: 1\n∑date: 2.3.2026\n\n00:05.000 --> 00:06.000\nsow\ncount: 1\n∑date: 2026-02-30\n\n00:06.000 --> 00:07.000\nsow\ncount: 1\n∑date: 0001-01-01\n",
			[]string{`date "2.3.2026"` + isDate, `date "2026-02-30"` + isDate, `date "0001-01-01"` + isDate}},
		{"names", head + "∑sew\ncount: 1\n∑workflow: by hnd\n\n00:05.000 --> 00:06.000\n∑water\ncount: 1\n",
			[]string{`no step is named "sew": did you mean "sow"`, `no workflow is named "by hnd": did you mean "by hand"`, `no step is named "water": there is "sow", "thin", "cut and bag"`}},
		{"keys", head + "sow\ncount: 1\n∑18\n∑counts: 18\n∑colour: red\n∑Count: 2\n", []string{`"18" is no key: value, such as count: 24`, `unknown key "counts": is "count" meant?`,
			`unknown key "colour": known are count, setups, worker, people, grow, workflow, date, note, void, reading`, "count stands twice in the cue: keep one of the two"}},
		{"parts that differ", head + "sow\ncount: 10\nreading: a\nworker: w1\n\n00:04.000 --> 00:05.000\n∑thin\nreading: a\n∑count: 14\n∑worker: w2\n", []string{
			`step "thin" is not that of line 4, "sow": the parts of reading "a" are of one step`,
			`count "14" is not that of line 5, "10": say it once for all parts of reading "a"`,
			`worker "w2" is not that of line 7, "w1": say it once for all parts of reading "a"`}},
		{"a part with a problem of its own still says its count", head + "sow\ncount: 10\n∑colour: red\nreading: a\n\n00:04.000 --> 00:05.000\nsow\nreading: a\n",
			[]string{`unknown key "colour": known are count, setups, worker, people, grow, workflow, date, note, void, reading`}},
		{"parts without a count", "WEBVTT\n\n∑00:00.000 --> 00:04.000\nsow\nreading: a\n\n00:04.000 --> 00:05.000\nsow\nreading: a\n", []string{`"sow"` + noCount}},

		// marks
		{"no time", "0:00 sow x1\n∑12 thin x1\n∑1:75 thin x1\n∑1:2:03 thin x1\n∑3m7s stop\n∑9999999999:00:00 stop\n", []string{
			`"12 thin x1"` + noTime, `"1:75 thin x1"` + noTime, `"1:2:03 thin x1"` + noTime, `"3m7s stop"` + noTime, `"9999999999:00:00 stop"` + noTime}},
		{"no step", "∑0:00\n∑0:01 x24\n∑0:02 ×3\n", []string{
			`"0:00" names no step: want a mark such as 0:12 sow x24, or 0:12 stop to end the one before`,
			`"0:01 x24" names no step: want a mark such as 0:12 sow x24, or 0:12 stop to end the one before`,
			`"0:02 ×3" names no step: want a mark such as 0:12 sow x24, or 0:12 stop to end the one before`}},
		{"marks without a count", "∑0:00 sow\n∑∑0:01 thin x\n∑∑0:02 sow x2 x\n0:03 stop\n", []string{`"sow"` + noCount,
			`no step is named "thin x": did you mean "thin"`, `"thin x"` + noCount,
			`no step is named "sow x2 x": there is "sow", "thin", "cut and bag"`, `"sow x2 x"` + noCount}},
		{"counts of marks", "∑0:00 sow x1o\n∑0:01 sow x-1\n∑0:02 sow x0\n∑0:03 stop x4\n", []string{`count "1o"` + isNumber, `count "-1" is below 0: want it without a sign`,
			`count "0" is not above 0: only a cue with setups above 0 may do without`, `"0:03 stop x4" ends a step: its count belongs on the mark that begins it`}},
		{"order of marks", "0:10 sow x1\n∑0:09.5 thin x1\n∑0:09.5 sow x1\n0:12 -\n∑0:11 sow x1\n0:13 stop\n", []string{
			`"0:09.5 thin x1" runs backwards: the mark on line 1 is later`, `"0:09.5 sow x1" leaves no time for "thin" on line 2`, `"0:11 sow x1" runs backwards: the mark on line 4 is later`}},
		{"ends of nothing", "∑0:10 stop\n0:11 sow x1\n0:12 -\n∑0:13 -\n", []string{`"0:10 stop" ends nothing: no step has begun`, `"0:13 -" ends nothing: no step has begun`}},
		{"no end", "0:11 sow x1\n∑0:12 thin x1\n# and so on\n", []string{`nothing ends the last mark, "0:12 thin x1": end the file with one such as 6:02 stop`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, want := expected(c.text, c.texts)
			require.Len(t, want, len(c.texts))
			readings, err := Read(strings.NewReader(text), "monday", opts)
			assert.Nil(t, readings)
			assert.Equal(t, want, err)
		})
	}
}

func TestProblemsOfTheFile(t *testing.T) {
	for text, want := range map[string]string{
		"":                     "monday: no cues: want WebVTT, SubRip, or marks such as 0:12 sow x24",
		"# nothing yet\n\n":    "monday: no cues: want WebVTT, SubRip, or marks such as 0:12 sow x24",
		"WEBVTT\n\nNOTE x\n":   "monday: no cues: want WebVTT, SubRip, or marks such as 0:12 sow x24",
		"\n0:00 s\xe4en x1\n":  "monday:2: is not UTF-8 text: save the file as UTF-8",
		"\xff\xfe0\x00:\x000":  "monday:1: is not UTF-8 text: save the file as UTF-8",
		"0\x00:\x000\x000\x00": "monday:1: is not UTF-8 text: save the file as UTF-8",
	} {
		_, err := Read(strings.NewReader(text), "monday", Options{})
		assert.EqualError(t, err, want)
	}
}
