package cues

import (
	"math"
	"strings"
	"time"

	"headhours/timing/late"
	"headhours/timing/notation"
	"headhours/timing/words"
)

// markCount is the count at the end of a mark: x24, x 24, ×24.
var markCount = late.Regexp(`(?:(?:^| )[xX]|×) *([-+.,\d]\S*)$`)

// mark is a moment of the film: a step begins, or one ends.
type mark struct {
	line int
	at   time.Duration
	step string // "" where the mark only ends
	text string
}

// marks reads the cues of a file of marks.
func (r *reader) marks(lines []line) []cue {
	var found []cue
	var last mark
	cut := false // a line that could not be read may have been a mark
	for _, l := range lines {
		text := clean(l.text)
		if text == "" || text[0] == '#' {
			continue
		}
		m, count, ok := r.mark(line{l.n, text})
		if ok && !cut {
			r.checkOrder(last, m)
			if last.step != "" {
				found[len(found)-1].end = m.at
			}
		}
		if ok && m.step != "" {
			found = append(found, cue{line: l.n, start: m.at, step: lineText{l.n, m.step}, values: count})
		}
		last, cut = m, !ok
	}
	if last.step != "" {
		r.problem(last.line, "nothing ends the last mark, %s: end the file with one such as 6:02 stop", words.Quote(last.text))
	}
	return found
}

// mark reads one line; false where it is a problem.
func (r *reader) mark(l line) (m mark, count map[string]lineText, ok bool) {
	clock, name, _ := strings.Cut(l.text, " ")
	seconds, _, err := notation.Duration(clock, false)
	if err != nil || !strings.Contains(clock, ":") || seconds > maxTime.Seconds() {
		r.problem(l.n, "%s does not begin with a time m:ss or h:mm:ss: want a mark such as 0:12 sow x24", words.Quote(l.text))
		return mark{}, nil, false
	}
	m = mark{line: l.n, at: time.Duration(math.Round(seconds * 1e9)), text: l.text}
	count = map[string]lineText{}
	if at := markCount().FindStringSubmatchIndex(name); at != nil {
		count["count"] = lineText{l.n, name[at[2]:at[3]]}
		name = name[:at[0]]
	}
	name = strings.TrimSpace(name)
	ends := name == "-" || strings.EqualFold(name, "stop")
	switch {
	case name == "":
		r.problem(l.n, "%s names no step: want a mark such as 0:12 sow x24, or 0:12 stop to end the one before", words.Quote(l.text))
		return mark{}, nil, false
	case ends && len(count) > 0:
		r.problem(l.n, "%s ends a step: its count belongs on the mark that begins it", words.Quote(l.text))
	case !ends:
		m.step = name
	}
	return m, count, true
}

// checkOrder holds a mark against the one before it, which is zero for the first.
func (r *reader) checkOrder(last, m mark) {
	switch {
	case last.step == "" && m.step == "":
		r.problem(m.line, "%s ends nothing: no step has begun", words.Quote(m.text))
	case m.at < last.at:
		r.problem(m.line, "%s runs backwards: the mark on line %d is later", words.Quote(m.text), last.line)
	case m.at == last.at && last.step != "":
		r.problem(m.line, "%s leaves no time for %s on line %d", words.Quote(m.text), words.Quote(last.step), last.line)
	}
}
