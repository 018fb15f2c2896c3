package tasklog

import (
	"sync/atomic"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// parser reads the rows of chunks side by side, each column by its decoder, where they stand. A row in which
// a decoder found what is wrong or in doubt, or that lacks something, is told of by the reader, with the same
// decoders.
type parser struct {
	*csvReader
	from      *condense.Origin // all rows are
	fields    []column
	skipNotes bool // they do not recur
	columns   []columnInRows
	recurring []*recurring        // of these
	recurs    [columns]*recurring // by what they are; nil where the log lacks one
	journals  *journalsColumn     // likewise
	dated     bool                // there is a column of dates
	parsed    *parsed
	quotes    int // of the rows that were read of a chunk that has some

	where, what, how group
	inHand           []byte // the cell that is decoded
	stretch          stretch
	pace             int          // how many rows are read side by side next
	timed            bool         // there is a column of times
	clocked          bool         // there are columns of both clocks
	full             *atomic.Bool // no more warnings are listed
	doubts           int          // of the chunk that are not told of
	isText, isNone   bool         // what follows of the chunk is known to be text, or to be none: its rows are read one by one
	lacks            bool         // no one column has all counts, or all times
	chunk            uint32       // its number
	rows             int          // of the last
	maxRows          int          // rows that one had, or may have had

	names  [nameKinds]nameList         // as they are in the study
	byText [nameKinds]map[string]int32 // by what stands in cells
	table  *condense.NameTable         // of them
	known  *condense.KnownParts        // of all batches
	whats  []condense.What             // of all batches since some chunk
	hows   []condense.How              // likewise
}

// columnInRows reads a column, or some that are skipped, in the rows of a stretch, up to one of which its cell is
// to be told of.
type columnInRows interface {
	read(s *stretch, data []byte)
	place() *field
}

// parsed is what a chunk comes to.
type parsed struct {
	batch    condense.Batch
	lines    int
	found    Found
	problems study.Problems // their lines counted from the chunk's first
	repeated []repeated     // likewise
	warnings study.Problems
	strays   bool // a quote stands where CSV has none
}

// isGood says that nothing of the chunk was wrong.
func (p *parsed) isGood() bool { return len(p.problems)+len(p.repeated) == 0 }

// forget begins anew with names, and with all that was met.
func (p *parser) forget() {
	p.forgetNames()
	p.table = new(condense.NameTable)
	for kind := range p.names {
		p.names[kind].forget()
		if p.byText[kind] == nil {
			p.byText[kind] = map[string]int32{}
		}
		clear(p.byText[kind]) // its memory serves again
	}
	p.whats, p.hows = nil, nil
	p.forgetCells()
}

// forgetCells forgets those that recur.
func (p *parser) forgetCells() {
	for _, c := range p.recurring {
		c.forget()
	}
	for _, g := range []*group{&p.where, &p.what, &p.how} {
		g.forget()
	}
}

// blankLine is the size of the line end that a text begins with, 0 where there is more in
// its first line.
func blankLine(text []byte) int {
	switch {
	case text[0] == '\n':
		return 1
	case text[0] == '\r' && text[1] == '\n':
		return 2
	}
	return 0
}
