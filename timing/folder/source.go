package folder

import (
	"bytes"
	"sort"
	"unicode/utf8"

	"headhours/timing/study"
)

// source is the text of a study file, and where its lines start.
type source struct {
	file  string
	text  []byte
	lines []int // offset of each line's first byte
	inner []int // how many bytes before each block are not the first of a letter
}

// block is of how many bytes of a text inner tells at once.
const block = 1024

func newSource(text []byte, file string) source {
	s := source{file: file, text: bytes.TrimPrefix(text, []byte("\ufeff")), lines: []int{0}}
	inner := 0
	for i, c := range s.text {
		if i%block == 0 {
			s.inner = append(s.inner, inner)
		}
		if !utf8.RuneStart(c) {
			inner++
		}
		if c == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	s.inner = append(s.inner, inner)
	return s
}

// place is where an offset stands. Columns count letters, as an editor does.
func (s source) place(offset int) study.Place {
	line := sort.SearchInts(s.lines, offset+1) // as many lines start at or before it
	return study.Place{File: s.file, Line: line, Column: s.letters(offset) - s.letters(s.lines[line-1]) + 1}
}

// letters is how many letters begin before an offset.
func (s source) letters(offset int) int {
	n, from := s.inner[offset/block], offset/block*block
	for _, c := range s.text[from:min(offset, len(s.text))] {
		if !utf8.RuneStart(c) {
			n++
		}
	}
	return offset - n
}

// lineStart is the offset at which the line of an offset starts.
func (s source) lineStart(offset int) int { return s.lines[s.place(offset).Line-1] }

// isHeading says whether what stands at an offset is the name in a heading.
func (s source) isHeading(offset int) bool {
	return bytes.HasSuffix(bytes.TrimRight(s.text[:offset], " \t"), []byte("["))
}

// fault is what keeps a text from being TOML.
type fault struct {
	at   int // offset
	text string
}
