package study

import (
	"fmt"
	"strings"
	"unicode"

	"headhours/timing/words"
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
// do, file:sheet!cell; names are as Show has them, a sheet's cut where it is very long.
func (p Place) String() string {
	file := words.Show(p.File)
	switch {
	case p.Sheet != "":
		return file + ":" + p.inSheet()
	case p.Line == 0:
		return file
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", file, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", file, p.Line, p.Column)
}

func (p Place) inSheet() string {
	sheet := words.Show(words.Short(p.Sheet))
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
