package timing

import (
	"fmt"
	"strings"
)

// Place is a spot in a file. Line and Column count from 1; a zero Line means
// the file as a whole, a zero Column the line as a whole.
type Place struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

// String is the place as compilers write it, file:line:column.
func (p Place) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Problem is something wrong, or worth a warning, at a place in a file. Its
// text says what was found and what would be right.
type Problem struct {
	Place Place  `json:"place"`
	Text  string `json:"text"`
}

// Error is the problem on one line, place first.
func (p Problem) Error() string { return p.Place.String() + ": " + p.Text }

// MostProblems is how many problems are listed; the rest are counted.
const MostProblems = 1000

// Problems are all that is wrong with what was read; as an error they are
// listed a line each, the first MostProblems of them.
type Problems []Problem

// Error lists the problems, a line each.
func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i == MostProblems {
			fmt.Fprintf(&b, "and %d more problems", len(ps)-i)
			break
		}
		b.WriteString(p.Error())
		if i < len(ps)-1 {
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// Err is the problems as an error, nil where there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}
