package folder

import (
	"bytes"
	"sort"

	"headhours/timing/study"
)

// source is the text of a study file, and where its lines start.
type source struct {
	file  string
	text  []byte
	lines []int // offset of each line's first byte
}

func newSource(text []byte, file string) source {
	s := source{file, bytes.TrimPrefix(text, []byte("\ufeff")), []int{0}}
	for i, c := range s.text {
		if c == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	return s
}

// place is where an offset stands. Columns count bytes, as those of the task
// logs do.
func (s source) place(offset int) study.Place {
	line := sort.SearchInts(s.lines, offset+1) // as many lines start at or before it
	return study.Place{File: s.file, Line: line, Column: offset - s.lines[line-1] + 1}
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
