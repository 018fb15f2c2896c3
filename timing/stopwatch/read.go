package stopwatch

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// Extension is what the name of a journal ends in, behind that of its session.
const Extension = ".jsonl"

// Contents is what a journal holds.
type Contents struct {
	Events   []Event // each once, in the order of their lines
	Warnings study.Problems
	Failed   study.Problems // of the warnings, those of lines that are damaged and not used
	whole    int            // bytes up to the end of the last whole line
	lines    int            // whole lines
	torn     []byte         // what stands behind them
	unended  bool           // the last whole line lacks its line end
}

// readContents reads a journal; file is the name that places carry, and its last part
// without Extension the session that all events must be of: a copy under another
// name would count twice. Blank lines are skipped. An event counts once: a
// second with its ID is left out.
//
// A last line without its end that is no event was torn when the recorder died:
// it was never acknowledged, and is left out with a warning. Of a journal whose lines
// carry checksums, a line that is no event or whose checksum does not fit is left out
// likewise, and is among Failed. Any other line that is no event is a problem. The error
// is study.Problems, all of them, and then there are no events; or it is the error of r
// itself, or study.TooLarge. No more than a line is held that is no event.
func readContents(r io.Reader, file string) (Contents, error) {
	const maxBytes = maxJournal << 20
	in := bufio.NewReaderSize(io.LimitReader(r, maxBytes+1), maxLine+2)
	l, size := lines{file: file, first: map[string][]byte{}}, 0
	for {
		text, n, err := nextLine(in)
		if err != nil && err != io.EOF {
			return Contents{}, err
		}
		if size == 0 {
			text = bytes.TrimPrefix(text, []byte("\ufeff"))
		}
		size += n
		if size > maxBytes {
			return Contents{}, study.TooLarge(maxJournal)
		}
		if n > 0 {
			l.take(bytes.Clone(bytes.TrimSuffix(text, []byte("\n"))), err == nil)
		}
		if err == io.EOF {
			break
		}
	}
	l.settle()
	if len(l.problems) > 0 {
		return Contents{Warnings: l.Warnings}, l.problems
	}
	l.whole = size - len(l.torn)
	return l.Contents, nil
}

// nextLine is the next line with its end, good until the next call, and how many bytes it
// has in all: of one that is too long, only the start is given.
func nextLine(in *bufio.Reader) (text []byte, n int, err error) {
	text, err = in.ReadSlice('\n')
	n = len(text)
	if err != bufio.ErrBufferFull {
		return text, n, err
	}
	text = bytes.Clone(text)
	for err == bufio.ErrBufferFull {
		var more []byte
		more, err = in.ReadSlice('\n')
		n += len(more)
	}
	return text, n, err
}

// lines takes a journal in, line by line.
type lines struct {
	Contents
	file     string
	first    map[string][]byte // the line that each ID stands on first
	strange  bool              // another session's event was told of
	checked  bool              // lines carry checksums
	halved   bool              // the last line was damaged and lacked its checksum: more of it may follow
	problems study.Problems
}

func (l *lines) take(text []byte, ended bool) {
	one := parted(text)
	if one == nil {
		l.takeOne(text, ended)
		return
	}
	l.takeOne(one, true)
	if rest := text[len(one)+1:]; len(bytes.TrimSpace(rest)) > 0 {
		l.takeOne(rest, ended)
	} else { // a byte too many, and no line that it ended
		l.unended = !ended
	}
}

func (l *lines) takeOne(text []byte, ended bool) {
	if l.halved && !bytes.HasPrefix(text, []byte(`{"session":`)) {
		l.halved = false // the rest of a line in which another byte became a line end
		return
	}
	l.lines++
	l.unended, l.halved = !ended, false
	if len(bytes.TrimSpace(text)) == 0 {
		return
	}
	e, err := decode(text)
	_, has, _ := withoutChecksum(text)
	l.checked = l.checked || has || bytes.Contains(text, []byte(checksumKey))
	switch {
	case err != nil && !ended && len(text) <= maxLine && !errors.Is(err, errChecksum):
		l.warn("torn when the recorder died, and left out: %s", clip(text))
		l.torn, l.unended = text, false
		l.lines--
	case err != nil:
		l.halved = l.checked && ended && !has
		l.fail("%s, in %s: put the line back as it was, or empty it to do without", err, clip(text))
	case e.Session != l.session():
		if !l.strange {
			l.problem("holds an event of session %q: its journal is named %s", e.Session, e.Session+Extension)
		}
		l.strange = true
	default:
		l.add(e, text)
	}
}

// fail notes a line that is damaged: what that comes to shows when all have been read.
func (l *lines) fail(format string, args ...any) {
	l.Failed = l.Failed.And(study.Problem{Place: l.place(), Text: fmt.Sprintf(format, args...)})
}

// settle says what damaged lines come to. Where lines carry checksums, those that stand
// are as they were written, and count.
func (l *lines) settle() {
	if !l.checked {
		l.problems, l.Failed = l.problems.And(l.Failed...), nil
		l.problems.Sort()
		return
	}
	for i := range l.Failed {
		l.Failed[i].Text = "not used: " + l.Failed[i].Text
	}
	l.Warnings = l.Warnings.And(l.Failed...)
	l.Warnings.Sort()
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

func (l *lines) place() study.Place { return study.Place{File: l.file, Line: l.lines} }

func (l *lines) problem(format string, args ...any) {
	l.problems = l.problems.And(study.Problem{Place: l.place(), Text: fmt.Sprintf(format, args...)})
}

func (l *lines) warn(format string, args ...any) {
	l.Warnings = l.Warnings.And(study.Problem{Place: l.place(), Text: fmt.Sprintf(format, args...)})
}

// clip is the start of a line in quotes, enough to know it by.
func clip(text []byte) string { return words.Quote(string(text[:min(len(text), maxLine)])) }

// maxJournal is how many MiB a journal may have: far more than a season of work.
const maxJournal = 64
