package tasklog

import (
	"bytes"
	"slices"
	"unicode/utf8"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// parser reads the rows of chunks. Plain rows, as nearly all are, it reads in place:
// without quotes, their numbers digits with or without decimals, their cells known
// from rows before. It leaves any other row to careful, which knows all that may
// stand in a log and tells what is wrong with it.
type parser struct {
	careful    *csvReader
	parts      []part
	comma      bool
	separators uint64   // in all bytes
	unit       float64  // seconds of a time's bare numbers
	counts     int      // how many columns may hold the count; 0 where it is one
	hasClocks  bool     // of the day, from which times can be told
	clocks     []uint32 // see clocked
	parsed     *parsed
	date       string       // the last that was met
	day        condense.Day // that is

	ids         uint32 // of phrases
	said        says   // of the run in hand
	where, what group
	chunk       uint32 // its number
	most        int    // rows that one had, or may have had

	names [nameKinds]map[string]int32 // by what stands in cells
	lists [nameKinds][]string
	last  [nameKinds]int32    // that was met
	table *condense.NameTable // of them
}

// parsed is what a chunk comes to.
type parsed struct {
	batch    condense.Batch
	lines    int
	found    Found
	problems study.Problems // their lines counted from the chunk's first
	repeated []repeated     // likewise
	warnings study.Problems
}

// isGood says that nothing of the chunk was wrong.
func (p *parsed) isGood() bool { return len(p.problems)+len(p.repeated) == 0 }

// What the names of a batch are of: see condense.StepNames and those after it.
const nameKinds = condense.WorkerNames + 1

func newParser(header *csvReader, file string) *parser {
	careful := newCSVReader(file, header.form, header.separator)
	careful.at, careful.fields, careful.units = header.at, header.fields, header.units
	careful.headings, careful.counts = header.headings, header.counts
	p := &parser{careful: careful, comma: careful.comma, separators: lowest * uint64(header.separator), unit: max(1, header.units[timeColumn].seconds), counts: len(header.counts)}
	p.hasClocks = header.at[startColumn] >= 0 && header.at[endColumn] >= 0
	careful.take = p.takeCareful
	var fields []column
	for field := range header.fields {
		is := column(slices.Index(header.at[:], field))
		if slices.Contains(header.counts, field) {
			is = countColumn
		}
		fields = append(fields, is)
	}
	p.parts = partsOf(fields, header.separator)
	for i := range p.parts {
		if p.parts[i].tells&tellsWhere != 0 {
			p.where.runs = append(p.where.runs, &p.parts[i])
		}
		if p.parts[i].tells&tellsWhat != 0 {
			p.what.runs = append(p.what.runs, &p.parts[i])
		}
	}
	p.forget()
	return p
}

// parse reads a chunk.
func (p *parser) parse(c chunk, into *parsed) {
	p.parsed = into
	p.most = max(p.most, len(c.data)/usualRow)
	p.begin()
	if c.unread {
		p.careful.line, p.careful.spots = 1, []spot{{0, 1}}
		p.careful.tooLong()
	} else {
		p.rows(c)
	}
	b := &into.batch
	p.most = max(p.most, len(b.Rows))
	b.Names, b.Table = p.lists, p.table
	into.problems, into.repeated, into.warnings = p.careful.problems, p.careful.repeated, p.careful.log.Warnings
	into.found.Unordered = p.careful.unordered
}

// usualRow is how many bytes a row has, more or less, in a log with the usual columns.
const usualRow = 40

// begin makes everything that is of one chunk new.
func (p *parser) begin() {
	b := &p.parsed.batch
	b.File, b.Column, b.Rows, b.Voids = p.careful.file, 1, slices.Grow(b.Rows[:0], p.most), nil
	b.Where, b.What = b.Where[:0], b.What[:0]
	p.clocks = p.clocks[:0]
	p.where.known, p.what.known = false, false
	p.chunk++
	p.parsed.lines, p.parsed.found = 0, Found{}
	p.careful.problems, p.careful.log.Warnings = nil, nil
	p.careful.faults, p.careful.repeated, p.careful.oftenAt, p.careful.unordered = 0, nil, nil, false
	for kind := range p.lists {
		if len(p.lists[kind]) > maxTexts {
			p.forget()
			break
		}
	}
}

// forget begins anew with names, and with all that was met.
func (p *parser) forget() {
	p.careful.texts = map[string]string{}
	p.table = new(condense.NameTable)
	for kind := range p.names {
		if p.names[kind] == nil {
			p.names[kind] = map[string]int32{}
		}
		clear(p.names[kind]) // its memory serves again
		p.names[kind][""] = 0
		p.lists[kind], p.last[kind] = []string{""}, 0 // batches may have the other list still
	}
	for i := range p.parts {
		if c := &p.parts[i]; c.does == told {
			c.steady, c.said, c.id, c.masks = false, &unlike, 0, &masksOf[0]
			c.met = new([slots]phrase)
		}
	}
	p.where.met, p.what.met = nil, nil
}

// maxTexts is how many names of a kind are remembered from chunk to chunk.
const maxTexts = 20_000

func (p *parser) rows(c chunk) {
	plain := utf8.Valid(c.data)
	data := c.data[:len(c.data)+padding]
	for at := 0; at < len(c.data); {
		if size := blankLine(data[at:]); size > 0 {
			p.parsed.lines++
			at += size
			continue
		}
		above := p.parsed.lines
		if plain {
			if end := p.plainRow(data, at); end > 0 {
				at = end
				continue
			}
			p.parsed.lines = above
		}
		rest := c.data[at:]
		row := c.row(rest, p.careful.separator)
		p.careful.line = above + 1
		p.careful.read(c.ended(row, rest))
		at += len(row)
		p.parsed.lines = above + bytes.Count(row, []byte{'\n'})
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

// index is that of a name.
func (p *parser) index(name string, kind int) int32 {
	at, met := p.names[kind][name]
	if !met {
		at = p.add(name, kind)
	}
	return at
}

// add adds a name that was not met before.
func (p *parser) add(name string, kind int) int32 {
	at := int32(len(p.lists[kind]))
	p.names[kind][name] = at
	p.lists[kind] = append(p.lists[kind], name)
	return at
}

// takeCareful takes in a reading that was read with care.
func (p *parser) takeCareful(r *study.Reading) {
	where, what := condense.Parts(r)
	where.Grow, where.Workflow = p.index(r.Grow, condense.GrowNames), p.index(r.Workflow, condense.WorkflowNames)
	what.Step, what.Worker = p.index(r.Step, condense.StepNames), p.index(r.Worker, condense.WorkerNames)
	if !r.Counts() {
		p.parsed.batch.Voids = append(p.parsed.batch.Voids, r.Void)
	}
	p.parsed.found.note(r)
	p.parsed.batch.Rows = append(p.parsed.batch.Rows, condense.Brief{
		Where: p.addWhere(where), What: p.addWhat(what), Row: uint32(r.Place.Line - 1), Count: r.Count, Seconds: r.Seconds,
	})
}
