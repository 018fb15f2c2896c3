package cues

import (
	"slices"
	"strings"

	"headhours/timing/late"
	"headhours/timing/words"
)

var (
	numberLine = late.Regexp(`^[ \t]*\d+[ \t]*$`)
	// Players take these in SubRip too: common practice, no standard.
	formatting = late.Regexp(`(?i)</?(?:b|i|u|font)(?: [^<>]*)?>`)
)

// subrip reads the cues of a SubRip file.
func (r *reader) subrip(lines []line) []block {
	var found []block
	for len(lines) > 0 {
		length := slices.IndexFunc(lines, func(l line) bool { return strings.TrimSpace(l.text) == "" })
		if length == 0 {
			lines = lines[1:]
			continue
		}
		if length < 0 {
			length = len(lines)
		}
		found = r.subripCue(found, lines[:length])
		lines = lines[length:]
	}
	return found
}

// subripCue adds the cue of lines between blank ones.
func (r *reader) subripCue(found []block, lines []line) []block {
	const example = "00:00:11,000 --> 00:00:13,000"
	if len(lines) > 1 && numberLine().MatchString(lines[0].text) {
		lines = lines[1:]
	}
	first, text := lines[0], lines[1:]
	start, end, ok := timingLine(subripTiming(), first.text)
	switch again := slices.IndexFunc(text, hasArrow); {
	case !ok && hasArrow(first):
		r.problem(first.n, "%s is not a timing line: want one such as %s; a WebVTT file begins with the line WEBVTT", words.Quote(first.text), example)
		return found
	case !ok:
		r.outside(first, example, "")
		return found
	case again >= 0:
		r.problem(text[again].n, "a timing line in the text of a cue: put a blank line between cues")
		return found
	}
	cue := block{line: first.n, start: start, end: end}
	for _, l := range text {
		cue.text = append(cue.text, line{l.n, formatting().ReplaceAllString(l.text, "")})
	}
	return append(found, cue)
}

// outside tells of text that a player would pass over.
func (r *reader) outside(l line, example, more string) {
	r.problem(l.n, "%s belongs to no cue: a cue is a timing line such as %s and the lines below it, up to a blank one%s", words.Quote(l.text), example, more)
}
