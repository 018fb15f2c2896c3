package stopwatch

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"headhours/timing"
)

// mostJournal is how many MiB of a journal are read.
const mostJournal = 256

// Extension is what the name of a journal ends in, behind that of its session.
const Extension = ".jsonl"

// Contents is what a journal holds.
type Contents struct {
	Events   []Event // each once, in the order of their lines
	Warnings timing.Problems
	whole    int    // bytes up to the end of the last whole line
	lines    int    // whole lines
	torn     []byte // what stands behind them
	unended  bool   // the last whole line lacks its line end
}

// Read reads a journal; file is the name that places carry, and its last part
// without Extension the session that all events must be of: a copy under another
// name would count twice. Blank lines are skipped. An event counts once: a
// second with its ID is left out.
//
// A last line without its end that is no event was torn when the recorder died:
// it was never acknowledged, and is left out with a warning. Any other line that
// is no event is a problem. The error is timing.Problems, all of them, and then
// there are no events; or it is the error of r itself.
func Read(r io.Reader, file string) (Contents, error) {
	data, err := timing.ReadAtMost(r, mostJournal)
	if err != nil {
		return Contents{}, err
	}
	l := lines{file: file, first: map[string][]byte{}}
	for rest := bytes.TrimPrefix(data, []byte("\ufeff")); len(rest) > 0; {
		text, after, ended := bytes.Cut(rest, []byte("\n"))
		l.take(text, ended)
		rest = after
	}
	if len(l.problems) > 0 {
		return Contents{Warnings: l.Warnings}, l.problems
	}
	l.whole = len(data) - len(l.torn)
	return l.Contents, nil
}

// lines takes a journal in, line by line.
type lines struct {
	Contents
	file     string
	first    map[string][]byte // the line that each ID stands on first
	strange  bool              // another session's event was told of
	problems timing.Problems
}

func (l *lines) take(text []byte, ended bool) {
	l.lines++
	l.unended = !ended
	if len(bytes.TrimSpace(text)) == 0 {
		return
	}
	e, err := Decode(text)
	switch {
	case err != nil && !ended && len(text) <= MostLine:
		l.warn("torn when the recorder died, and left out: %s", clip(text))
		l.torn, l.unended = text, false
		l.lines--
	case err != nil:
		l.problem("%s, in %s: put the line back as it was, or empty it to do without", err, clip(text))
	case e.Session != l.session():
		if !l.strange {
			l.problem("holds an event of session %q: its journal is named %s", e.Session, e.Session+Extension)
		}
		l.strange = true
	default:
		l.add(e, text)
	}
}

func (l *lines) session() string { return strings.TrimSuffix(filepath.Base(l.file), Extension) }

func (l *lines) add(e Event, text []byte) {
	if first, again := l.first[e.ID]; again {
		if !bytes.Equal(first, text) {
			l.warn("event %q stands here once more, and otherwise: the first counts", e.ID)
		}
		return
	}
	e.Line = l.lines
	l.first[e.ID] = text
	l.Events = append(l.Events, e)
}

func (l *lines) place() timing.Place { return timing.Place{File: l.file, Line: l.lines} }

func (l *lines) problem(format string, args ...any) {
	l.problems = l.problems.And(timing.Problem{Place: l.place(), Text: fmt.Sprintf(format, args...)})
}

func (l *lines) warn(format string, args ...any) {
	l.Warnings = l.Warnings.And(timing.Problem{Place: l.place(), Text: fmt.Sprintf(format, args...)})
}

// clip is the start of a line in quotes, enough to know it by.
func clip(text []byte) string { return timing.Quote(string(text[:min(len(text), MostLine)])) }
