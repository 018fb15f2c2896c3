package tasklog

import (
	"sync/atomic"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// parser reads the rows of chunks: the cells of each by the decoders of their columns, in
// place, and what recurs from row to row once. A row of which one is wrong or in doubt,
// or of which more is to be kept than a batch holds, is told of by the reader.
type parser struct {
	*csvReader
	from       *condense.Origin // all rows are
	fields     []column
	apart      [columns]bool // those whose cells recur, if at all, by themselves
	parts      []part
	dated      bool   // there is a column of dates
	separators uint64 // in all bytes
	parsed     *parsed
	quotes     int // of the rows that were read of a chunk that has some

	grow             int // the index of the last that was met
	phrases          phrases
	where, what, how group
	stretch          stretch
	pace             int          // how many rows are read side by side next
	timed            bool         // there is a column of times
	clocked          bool         // there are columns of both clocks
	odd              uint64       // of the cells of the chunk that were skipped, see odd
	full             *atomic.Bool // no more warnings are listed
	untold           bool         // so it is of those of the chunk
	doubts           int          // of the chunk that are not told of
	isText, isNone   bool         // what follows of the chunk is known to be text, or to be none: its rows are read one by one
	lacks            bool         // no one column has all counts, or all times
	chunk            uint32       // its number
	rows             int          // of the last
	maxRows          int          // rows that one had, or may have had

	names  [nameKinds]nameList         // as they are in the study
	byText [nameKinds]map[string]int32 // by what stands in cells
	met    [nameKinds]metName          // the last of them
	table  *condense.NameTable         // of them
	known  *condense.KnownParts        // of all batches
	whats  []condense.What             // of all batches since some chunk
	hows   []condense.How              // likewise
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

// metName is what stood in a cell, and its index.
type metName struct {
	text  string
	index int32
}

// forget begins anew with names, and with all that was met.
func (p *parser) forget() {
	p.decoder.forget()
	p.table = new(condense.NameTable)
	for kind := range p.names {
		p.names[kind].forget()
		if p.byText[kind] == nil {
			p.byText[kind] = map[string]int32{}
		}
		clear(p.byText[kind]) // its memory serves again
		p.byText[kind][""] = 0
	}
	p.grow, p.whats, p.hows = 0, nil, nil
	p.met = [nameKinds]metName{}
	p.forgetPhrases()
}

// forgetPhrases forgets all that was met, but the names.
func (p *parser) forgetPhrases() {
	p.phrases.forget()
	for i := range p.parts {
		p.parts[i].forget()
	}
	p.where.forget()
	p.what.forget()
	p.how.forget()
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
