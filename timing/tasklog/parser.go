package tasklog

import (
	"bytes"
	"slices"
	"unicode/utf8"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// parser reads the rows of chunks: the cells of each by the decoders of their columns, in
// place, and what recurs from row to row once. A row of which one is wrong or in doubt,
// or of which more is to be kept than a batch holds, is told of by the reader.
type parser struct {
	*csvReader
	from       *condense.Origin // all rows are
	parts      []part
	separators uint64 // in all bytes
	parsed     *parsed

	date        string       // the last that was met
	dayMet      condense.Day // that is
	grow        int          // the index of the last that was met
	ids         uint32       // of phrases
	content     content      // of the run in hand
	where, what group
	chunk       uint32 // its number
	maxRows     int    // rows that one had, or may have had

	names  [nameKinds]map[string]int32 // by what they are in the study
	byText [nameKinds]map[string]int32 // by what stands in cells
	lists  [nameKinds][]string
	table  *condense.NameTable // of them
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

func newParser(header *csvReader, from *condense.Origin) *parser {
	r := newCSVReader(from.File, header.dialect, header.separator)
	r.at, r.width, r.units, r.headings, r.counts = header.at, header.width, header.units, header.headings, header.counts
	p := &parser{csvReader: r, from: from, separators: lowest * uint64(r.separator)}
	r.keepReading = p.takeReading
	var fields []column
	for at := range r.width {
		is := column(slices.Index(r.at[:], at))
		if slices.Contains(r.counts, at) {
			is = countColumn
		}
		fields = append(fields, is)
	}
	p.parts = partsOf(fields, r.separator)
	for i := range p.parts {
		p.parts[i].read(&r.decoder)
		if p.parts[i].groups&tellsWhere != 0 {
			p.where.runs = append(p.where.runs, &p.parts[i])
		}
		if p.parts[i].groups&tellsWhat != 0 {
			p.what.runs = append(p.what.runs, &p.parts[i])
		}
	}
	p.forget()
	return p
}

// parse reads a chunk.
func (p *parser) parse(c chunk, into *parsed) {
	p.parsed = into
	p.maxRows = max(p.maxRows, len(c.data)/usualRow)
	p.begin()
	if c.unread {
		p.line, p.spots = 1, []spot{{0, 1}}
		p.tooLong()
	} else {
		p.rows(c)
	}
	b := &into.batch
	p.maxRows = max(p.maxRows, len(b.Rows))
	b.Names, b.Table = p.lists, p.table
	into.problems, into.repeated, into.warnings = p.problems, p.repeated, p.log.Warnings
	into.found.Unordered = p.unordered
}

// usualRow is how many bytes a row has, more or less, in a log with the usual columns.
const usualRow = 40

// begin makes everything that is of one chunk new.
func (p *parser) begin() {
	b := &p.parsed.batch
	b.From, b.Rows, b.Voids = p.from, slices.Grow(b.Rows[:0], p.maxRows), nil
	b.Where, b.What = b.Where[:0], b.What[:0]
	p.where.settled, p.what.settled = false, false
	p.chunk++
	p.parsed.lines, p.parsed.found = 0, Found{}
	p.problems, p.log.Warnings = nil, nil
	p.faults, p.repeated, p.oftenAt, p.unordered = 0, nil, nil, false
	for kind := range p.lists {
		if len(p.lists[kind]) > maxNames {
			p.forget()
			break
		}
	}
}

// forget begins anew with names, and with all that was met.
func (p *parser) forget() {
	p.decoder.forget()
	p.table = new(condense.NameTable)
	for kind := range p.names {
		if p.names[kind] == nil {
			p.names[kind], p.byText[kind] = map[string]int32{}, map[string]int32{}
		}
		clear(p.names[kind]) // its memory serves again
		clear(p.byText[kind])
		p.names[kind][""], p.byText[kind][""] = 0, 0
		// batches may have the other list still; as many come again
		p.lists[kind] = append(make([]string, 0, len(p.lists[kind])+1), "")
	}
	p.grow = 0
	for i := range p.parts {
		p.parts[i].forget()
	}
	p.where.memo, p.what.memo = nil, nil
}

// rows reads the rows of a chunk.
func (p *parser) rows(c chunk) {
	data := c.data[:len(c.data)+padding]
	isText := utf8.Valid(c.data) && bytes.IndexByte(c.data, 0) < 0
	for at := 0; at < len(c.data); {
		if size := blankLine(data[at:]); size > 0 {
			p.parsed.lines++
			at += size
			continue
		}
		above := p.parsed.lines
		if isText {
			if end := p.row(data, at); end > 0 {
				at = end
				continue
			}
			p.parsed.lines = above
			p.where.settled, p.what.settled = false, false
		}
		row := c.row(c.data[at:], p.separator)
		p.line = above + 1
		p.read(c.ended(row, c.data[at:]))
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

// takeReading takes in a reading that was told of.
func (p *parser) takeReading(r *study.Reading) {
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

// index is that of a name among those of its kind.
func (p *parser) index(name string, kind int) int32 {
	at, ok := p.names[kind][name]
	if !ok {
		at = int32(len(p.lists[kind]))
		p.names[kind][name] = at
		p.lists[kind] = append(p.lists[kind], name)
	}
	return at
}
