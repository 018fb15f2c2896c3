package cues

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"headhours/timing/study"
)

// Options say what the cue file leaves open.
type Options struct {
	Speed                  float64   // how many times too fast the film was shown; 0 is taken for 1
	Date                   time.Time // this and the next line are of cues that say nothing else
	Grow, Workflow, Worker string
	Steps, Workflows       []string // the names there are, matched letter by letter; nil lets any pass
}

// Bounds of a cue file, far beyond any film's.
const (
	maxCues  = 16 // MiB
	maxLines = 1_000_000
)

// Read reads one cue file; file is the name that places carry. The readings
// come in the order of the file, a reading in parts where its first part stands;
// their source is film, their time (end − start) × speed summed over the parts,
// and their place the line of their first timing line or mark.
//
// The error is study.Problems, in order of line, and then there are no readings; or it
// is that of r itself, or of a speed that is no number above 0.
func Read(r io.Reader, file string, opts Options) ([]study.Reading, error) {
	if opts.Speed == 0 {
		opts.Speed = 1
	}
	if !(opts.Speed > 0) || math.IsInf(opts.Speed, 0) {
		return nil, fmt.Errorf("speed %v: want a number above 0", opts.Speed)
	}
	data, err := study.ReadAtMost(r, maxCues)
	if large, ok := errors.AsType[study.TooLarge](err); ok {
		return nil, study.Problems{{Place: study.Place{File: file}, Text: large.Error()}}
	}
	if err != nil {
		return nil, err
	}
	opts.Grow, opts.Workflow, opts.Worker = clean(opts.Grow), clean(opts.Workflow), clean(opts.Worker)
	f := reader{file: file, opts: opts}
	readings := f.readings(data)
	if len(f.problems) > 0 {
		f.problems.Sort()
		return nil, f.problems
	}
	return readings, nil
}

// reader reads one cue file.
type reader struct {
	file     string
	opts     Options
	problems study.Problems
}

func (r *reader) readings(data []byte) []study.Reading {
	if bytes.Count(data, []byte("\n"))+bytes.Count(data, []byte("\r")) > maxLines {
		r.problem(0, "is not read: holds more than %d lines", maxLines)
		return nil
	}
	lines := split(data)
	if bad := slices.IndexFunc(lines, notText); bad >= 0 {
		r.problem(bad+1, "is not UTF-8 text: save the file as UTF-8")
		return nil
	}
	var groups []group
	switch {
	case isWebVTT(lines[0].text):
		groups = r.group(r.cues(r.webvtt(lines)))
		r.checkOverlaps(groups)
	case slices.ContainsFunc(lines, hasArrow):
		groups = r.group(r.cues(r.subrip(lines)))
		r.checkOverlaps(groups)
	default:
		groups = r.group(r.marks(lines)) // in order of time, or a problem already
	}
	if len(groups) == 0 && len(r.problems) == 0 {
		r.problem(0, "no cues: want WebVTT, SubRip, or marks such as 0:12 sow x24")
	}
	readings := make([]study.Reading, len(groups))
	for i, g := range groups {
		readings[i] = r.reading(g)
	}
	return readings
}

func (r *reader) problem(line int, format string, args ...any) {
	place := study.Place{File: r.file, Line: line}
	r.problems = r.problems.And(study.Problem{Place: place, Text: fmt.Sprintf(format, args...)})
}

// line is a line of the file, or what is left of it, with its number.
type line struct {
	n    int
	text string
}

// split cuts a file into its lines, of which there is always one; they end in
// LF, CRLF or CR, as WebVTT has it.
func split(data []byte) []line {
	text := string(bytes.TrimPrefix(data, []byte("\ufeff")))
	lines := make([]line, 0, 1+strings.Count(text, "\n")+strings.Count(text, "\r"))
	for n := 1; ; n++ {
		at := strings.IndexAny(text, "\r\n")
		if at < 0 {
			return append(lines, line{n, text})
		}
		lines = append(lines, line{n, text[:at]})
		if strings.HasPrefix(text[at:], "\r\n") {
			at++
		}
		text = text[at+1:]
	}
}

func notText(l line) bool { return strings.IndexByte(l.text, 0) >= 0 || !utf8.ValidString(l.text) }

func hasArrow(l line) bool { return strings.Contains(l.text, "-->") }

// clean is a text on one line without blanks around it: every blank and control
// character is a plain space, and what is not UTF-8 is U+FFFD.
func clean(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.IsControl(r) {
			return ' '
		}
		return r
	}, text))
}
