// Package report lays answers out for people: sentences first, then tables,
// then notes, as text, Markdown or CSV; and for programs, as JSON. It computes
// no statistic: every figure comes with the answer.
package report

import "slices"

// Doc is an answer laid out for reading.
type Doc struct {
	Title  string
	Answer []string // in plain words, a paragraph each, which may have several lines
	Tables []Table
	Notes  []string
}

// Without is the answer without the tables of some titles.
func (d Doc) Without(titles ...string) Doc {
	d.Tables = slices.DeleteFunc(slices.Clone(d.Tables), func(t Table) bool { return slices.Contains(titles, t.Title) })
	return d
}

// Audience says whom a table is for.
type Audience int

// The audiences.
const (
	Everyone Audience = iota
	People            // left out of CSV
	Programs          // in CSV only
)

// Table is a table of an answer.
type Table struct {
	Title   string
	For     Audience
	Columns []Column
	Rows    [][]Cell // as many cells as columns
}

// Column is a column of a table.
type Column struct {
	Head  string // for people
	Key   string // for programs: the key in JSON; "" where it is none of theirs
	Right bool   // numbers stand to the right
	Full  bool   // left out where room is short (text of 80 columns)
}

// Cell is what stands in a column: as people read it, rounded, and as programs
// do, in full.
type Cell struct {
	Text  string
	Value any // string, int, float64, bool, timing.Maybe or a list of strings
}
