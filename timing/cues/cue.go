package cues

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// cue is a stretch of film and what its text says.
type cue struct {
	line       int // of the timing line or mark
	start, end time.Duration
	step       lineText
	values     map[string]lineText // by key
}

// block is a cue of a WebVTT or SubRip file with its text, tags taken off.
type block struct {
	line       int // of the timing line
	start, end time.Duration
	text       []line
}

// lineText is a text of the file and the line it stands on.
type lineText struct {
	line int
	text string
}

// keys are what a cue may say below its step.
var keys = []string{"count", "setups", "worker", "people", "grow", "workflow", "date", "note", "void", "reading"}

// cues is what the text of blocks says. A cue that runs backwards is a problem,
// as is text that cannot be read; it is given all the same, since what it says
// may be needed by other parts of its reading.
func (r *reader) cues(blocks []block) []cue {
	var found []cue
	for _, b := range blocks {
		if b.end <= b.start {
			r.problem(b.line, "the cue runs backwards: its end must be later than its start")
		}
		c := cue{line: b.line, start: b.start, end: b.end, values: map[string]lineText{}}
		for _, l := range b.text {
			words := clean(l.text)
			switch {
			case words == "":
			case c.step.text == "":
				c.step = lineText{l.n, words}
			default:
				r.value(c.values, lineText{l.n, words})
			}
		}
		if c.step.text == "" {
			r.problem(b.line, "the cue has no text: want the step on its first line, then lines such as count: 24")
			continue
		}
		found = append(found, c)
	}
	return found
}

// value adds what a line key: value says.
func (r *reader) value(values map[string]lineText, l lineText) {
	key, value, found := strings.Cut(l.text, ":")
	key, value = strings.ToLower(clean(key)), clean(value)
	_, twice := values[key]
	switch {
	case !found:
		r.problem(l.line, "%s is no key: value, such as count: 24", words.Quote(l.text))
	case !slices.Contains(keys, key):
		advice := cmp.Or(study.IsMeant(key, keys), "known are "+strings.Join(keys, ", "))
		r.problem(l.line, "unknown key %s: %s", words.Quote(key), advice)
	case twice:
		r.problem(l.line, "%s stands twice in the cue: keep one of the two", key)
	default:
		values[key] = lineText{l.line, value}
	}
}

// orElse is what the cues say, or what stands for all that say nothing.
func orElse(v lineText, otherwise string) string {
	if v.text == "" {
		return otherwise
	}
	return v.text
}
