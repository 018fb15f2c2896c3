package cues

import (
	"html"
	"strings"

	"headhours/timing/words"
)

// isWebVTT says whether a first line is the header of a WebVTT file.
func isWebVTT(first string) bool {
	rest, found := strings.CutPrefix(first, "WEBVTT")
	return found && (rest == "" || rest[0] == ' ' || rest[0] == '\t')
}

// webvtt reads the cues of a WebVTT file (section 6.1, the WebVTT parser
// algorithm). Header text, comments, style sheets and regions are passed over;
// all else that is no cue is a problem.
func (r *reader) webvtt(lines []line) []block {
	rest := lines[1:]
	for len(rest) > 0 && rest[0].text != "" && !hasArrow(rest[0]) { // header text
		rest = rest[1:]
	}
	var found []block
	for len(rest) > 0 {
		if rest[0].text == "" {
			rest = rest[1:]
			continue
		}
		part, arrow := cutBlock(rest)
		rest = rest[len(part):]
		switch {
		case arrow < 0 && !isComment(part):
			r.outside(part[0], "00:11.000 --> 00:13.000", "; a comment begins with NOTE")
		case arrow >= 0:
			found = r.webvttCue(found, part[arrow:])
		}
	}
	return found
}

// cutBlock is the lines of the block that some lines begin with, and where in it the timing line
// stands, -1 without any. A timing line is the first with an arrow, with at most
// one line, the identifier, above it; a later arrow begins the next block.
func cutBlock(lines []line) (part []line, arrow int) {
	arrow = -1
	for i, l := range lines {
		switch {
		case l.text == "", hasArrow(l) && (i > 1 || arrow >= 0):
			return lines[:i], arrow
		case hasArrow(l):
			arrow = i
		}
	}
	return lines, arrow
}

// isComment says whether a block without a timing line is one that a WebVTT file
// may have beside its cues.
func isComment(part []line) bool {
	first := part[0].text
	word := strings.TrimRight(first, " \t\f")
	return word == "STYLE" || word == "REGION" || first == "NOTE" ||
		strings.HasPrefix(first, "NOTE ") || strings.HasPrefix(first, "NOTE\t")
}

// webvttCue adds the cue of a timing line and the text below it.
func (r *reader) webvttCue(found []block, lines []line) []block {
	start, end, ok := timingLine(webvttTiming(), lines[0].text)
	if !ok {
		r.problem(lines[0].n, "%s is not a timing line: want one such as 00:11.000 --> 00:13.000 or 01:00:11.000 --> 01:00:13.000", words.Quote(lines[0].text))
		return found
	}
	text, unclosed := plain(lines[1:])
	if unclosed > 0 {
		r.problem(unclosed, "a < begins a tag that no > ends: write &lt; for the sign itself")
		return found
	}
	return append(found, block{lines[0].n, start, end, text})
}

// plain is the text of a cue without its tags, its character references decoded
// (section 6.4, the WebVTT cue text tokenizer: whatever follows a < up to the
// next > is a tag). unclosed is the number of the line with a < that has none.
func plain(lines []line) (text []line, unclosed int) {
	var read strings.Builder // of the line in hand, which a tag may carry on into the next
	from := 0
	for _, l := range lines {
		if from == 0 {
			from = l.n
		}
		for rest := l.text; rest != ""; {
			if unclosed > 0 {
				_, after, ended := strings.Cut(rest, ">")
				if rest = after; ended {
					unclosed = 0
				}
				continue
			}
			run, after, tagged := strings.Cut(rest, "<")
			read.WriteString(html.UnescapeString(run))
			if rest = after; tagged {
				unclosed = l.n
			}
		}
		if unclosed == 0 {
			text = append(text, line{from, read.String()})
			read.Reset()
			from = 0
		}
	}
	return text, unclosed
}
