package timing

import (
	"fmt"
	"strings"
	"unicode"
)

// Place is a spot in a file. Line and Column count from 1; a zero Line means
// the file, or its sheet, as a whole, a zero Column the line as a whole.
type Place struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Sheet  string `json:"sheet,omitempty"` // of a workbook; "" in other files
}

// String is the place as compilers write it, file:line:column, or as spreadsheets
// do, file:sheet!cell.
func (p Place) String() string {
	if p.Sheet != "" {
		return p.File + ":" + p.inSheet()
	}
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

func (p Place) inSheet() string {
	sheet := p.Sheet
	if strings.IndexFunc(sheet, notInName) >= 0 {
		sheet = "'" + strings.ReplaceAll(sheet, "'", "''") + "'"
	}
	switch {
	case p.Line == 0:
		return sheet
	case p.Column == 0:
		return fmt.Sprintf("%s!%d:%d", sheet, p.Line, p.Line)
	}
	return fmt.Sprintf("%s!%s%d", sheet, columnLetters(p.Column), p.Line)
}

// notInName says for which letters a sheet's name stands in quotes.
func notInName(r rune) bool { return r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) }

// columnLetters is a column as spreadsheets name it: A, … Z, AA, AB, …
func columnLetters(n int) string {
	letters := ""
	for ; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters
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
