// Package report lays answers out for people: sentences first, then tables,
// then notes, as text, Markdown or CSV; and for programs, as JSON. It computes
// no statistic: every figure comes with the answer.
package report

import "slices"

// Doc is an answer laid out for reading, in sections.
type Doc struct {
	Title    string
	Sections []Section
	Notes    []string
}

// Section is a part of an answer that a reader may want by itself: it is chosen by its ID.
type Section struct {
	ID     string
	Answer []string // in plain words, a paragraph each, which may have several lines
	Table  *Table   // nil where words say it all
}

// Of is a table by itself.
func Of(t Table) Doc { return Doc{Sections: []Section{{Table: &t}}} }

// section is the one with an ID, begun where there is none yet.
func (d *Doc) section(id string) *Section {
	for i := range d.Sections {
		if d.Sections[i].ID == id {
			return &d.Sections[i]
		}
	}
	d.Sections = append(d.Sections, Section{ID: id})
	return &d.Sections[len(d.Sections)-1]
}

// say adds paragraphs to a section.
func (d *Doc) say(id string, paragraphs ...string) {
	s := d.section(id)
	s.Answer = append(s.Answer, paragraphs...)
}

// First says something before all else.
func (d *Doc) First(paragraphs []string) {
	d.Notes = slices.DeleteFunc(slices.Clone(d.Notes), func(note string) bool { return slices.Contains(paragraphs, note) })
	if len(paragraphs) > 0 {
		d.Sections = append([]Section{{ID: "first", Answer: paragraphs}}, d.Sections...)
	}
}

// show gives a section its table.
func (d *Doc) show(id string, t Table) { d.section(id).Table = &t }

// Section is the one with an ID; empty where there is none.
func (d Doc) Section(id string) Section {
	for _, s := range d.Sections {
		if s.ID == id {
			return s
		}
	}
	return Section{ID: id}
}

// Only is the answer with some sections alone, in its own order.
func (d Doc) Only(ids ...string) Doc {
	d.Sections = slices.DeleteFunc(slices.Clone(d.Sections), func(s Section) bool { return !slices.Contains(ids, s.ID) })
	return d
}

// Without is the answer without some sections.
func (d Doc) Without(ids ...string) Doc {
	d.Sections = slices.DeleteFunc(slices.Clone(d.Sections), func(s Section) bool { return slices.Contains(ids, s.ID) })
	return d
}

// Words are the paragraphs of all sections.
func (d Doc) Words() []string {
	var words []string
	for _, s := range d.Sections {
		words = append(words, s.Answer...)
	}
	return words
}

// TableIDs are the IDs of the sections whose tables a spreadsheet may have, in order.
func (d Doc) TableIDs() []string {
	var ids []string
	for _, s := range d.Sections {
		if s.Table != nil && s.Table.For != onlyPeople {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

// Tables are those of all sections.
func (d Doc) Tables() []Table {
	var tables []Table
	for _, s := range d.Sections {
		if s.Table != nil {
			tables = append(tables, *s.Table)
		}
	}
	return tables
}

// Audience says whom a table is for.
type Audience int

// The audiences.
const (
	everyone   Audience = iota
	onlyPeople          // left out of CSV
	Programs            // in CSV only
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
	Long  string // the same where there is room, with its unit; "" where Head says it
	Key   string // for programs: the key in JSON; "" where it is none of theirs
	Right bool   // numbers stand to the right
	Full  bool   // left out where room is short (text of 80 columns)
}

// Cell is what stands in a column: as people read it, rounded, and as programs
// do, in full.
type Cell struct {
	Text  string
	Value any // string, int, float64, bool, study.Maybe or a list of strings
}

// where is a cell that people read as "?" unless something is known of it.
func (c Cell) where(known bool) Cell {
	if !known {
		c.Text = "?"
	}
	return c
}
