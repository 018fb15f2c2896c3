package tasklog

import (
	"bytes"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// parse reads a chunk.
func (p *parser) parse(c chunk, into *parsed) {
	p.parsed = into
	if p.maxRows == 0 {
		p.maxRows = rowsIn(len(c.data), c.data[:min(len(c.data), headSize)]) * 9 / 8
	}
	p.begin()
	if c.unread {
		p.line, p.spots = 1, []spot{{0, 1}}
		p.tooLong()
	} else if !p.parseRows(c, true) {
		p.begin()
		p.parseRows(c, false)
		into.strays = true
	}
	b := &into.batch
	p.rows = b.Rows.Len()
	p.maxRows = max(p.maxRows, p.rows)
	b.Table, b.Known, b.What, b.How = p.table, p.known, p.whats, p.hows
	for kind := range p.names {
		b.Names[kind] = p.names[kind].list
	}
	into.problems, into.repeated, into.warnings = p.problems, p.repeated, p.log.Warnings
	if p.doubts > 0 {
		into.warnings = into.warnings.And(study.Problem{More: p.doubts})
	}
	into.found.Unordered = p.unordered
}

// parseRows reads the rows of a chunk, in place where they can be; false where a quote was passed
// over in place that stands where CSV has none.
func (p *parser) parseRows(c chunk, inPlace bool) bool {
	data := c.data[:len(c.data)+padding]
	clear(data[len(c.data):]) // no cell that was met goes on behind them
	p.columns[len(p.columns)-1].place().stopAt(c.data)
	p.stretch.inQuotes = c.quotes > 0
	p.stretch.odd, p.isText, p.isNone = 0, false, false
	for at := 0; at < len(c.data); {
		if inPlace && !p.isNone {
			if at = p.plainRows(data, at, len(c.data)); at == len(c.data) {
				break
			}
		}
		if size := blankLine(data[at:]); size > 0 {
			p.parsed.lines++
			at += size
			continue
		}
		row, above := c.firstRow(c.data[at:], p.separator), p.parsed.lines
		if quotes := countQuotes(row); quotes > 0 {
			p.quotes += quotes
			p.parsed.strays = p.parsed.strays || !isTidy(row, p.separator)
		}
		p.line = above + 1
		p.read(c.ended(row, c.data[at:]))
		at += len(row)
		p.parsed.lines = above + bytes.Count(row, []byte{'\n'})
	}
	return p.quotes == c.quotes || !inPlace
}

// rowsIn is how many rows so many bytes have, more or less, if all are as those of a beginning are.
func rowsIn(size int, begin []byte) int {
	return size * (bytes.Count(begin, []byte{'\n'}) + 1) / (len(begin) + 1)
}

// begin makes everything that is of one chunk new.
func (p *parser) begin() {
	b := &p.parsed.batch
	b.From, b.Voids = p.from, nil
	b.Rows.SetLen(p.maxRows + maxStretch)
	b.Rows.SetLen(0)
	b.Where = b.Where[:0]
	p.dropNotes()
	p.chunk++
	p.parsed.lines, p.parsed.found, p.parsed.strays, p.quotes, p.stretch.several = 0, Found{}, false, 0, false
	p.problems, p.log.Warnings, p.doubts, p.stretch.untold = nil, nil, 0, p.full != nil && p.full.Load()
	p.faults, p.repeated, p.oftenAt, p.unordered = 0, nil, nil, false
	for kind := range p.names {
		if len(p.names[kind].list) > maxNames || len(p.byText[kind]) > maxNames {
			p.forget()
			break
		}
	}
	if len(p.whats) > maxWhats {
		p.whats = nil // batches may have the other list still
	}
	if len(p.hows) > maxWhats {
		p.hows = nil // likewise
	}
	p.where.since = p.chunk
	if len(p.whats) == 0 {
		p.what.since = p.chunk
	}
	if len(p.hows) == 0 {
		p.how.since = p.chunk
	}
}

// maxWhats is how many of what was done are remembered, and of how: each batch has all of them.
const maxWhats = 256

// takeReading takes in a reading that was told of.
func (p *parser) takeReading(r *study.Reading) {
	where, what := condense.Where{Grow: p.names[condense.GrowNames].of(r.Grow), Workflow: p.names[condense.WorkflowNames].of(r.Workflow)},
		condense.What{Step: p.names[condense.StepNames].of(r.Step), Worker: p.names[condense.WorkerNames].of(r.Worker), Voided: !r.Counts()}
	if !r.Counts() {
		p.parsed.batch.Voids = append(p.parsed.batch.Voids, r.Void)
	}
	p.parsed.found.note(r)
	p.parsed.batch.Rows.Add(condense.Brief{
		Where: p.addWhere(where), What: p.addWhat(what), How: p.addHow(condense.HowOf(r)), Row: uint32(r.Place.Line - 1),
		Day: condense.DayOf(r.Date), Count: r.Count, Seconds: r.Seconds,
	})
}

func newParser(header *csvReader, from *condense.Origin) *parser {
	r := newCSVReader(header.file, header.dialect, header.separator)
	r.at, r.width, r.units, r.headings, r.counts = header.at, header.width, header.units, header.headings, header.counts
	p := &parser{csvReader: r, from: from, known: new(condense.KnownParts)}
	r.keepReading, r.sumAbove = p.takeReading, p.taken
	for at := range r.width {
		is := column(slices.Index(r.at[:], at))
		if slices.Contains(r.counts, at) {
			is = countColumn
		}
		p.fields = append(p.fields, is)
	}
	p.layOut()
	p.forget()
	return p
}

// layOut has each column read as what it is.
func (p *parser) layOut() {
	p.columns, p.recurring, p.recurs = make([]columnInRows, 0, len(p.fields)), nil, [columns]*recurring{} // as many where each is kept out of the way
	p.where.columns, p.what.columns, p.how.columns = nil, nil, nil
	p.dated, p.pace = false, 1
	for figure := range p.stretch.figures { // those that no column has stay blank
		p.stretch.figures[figure] = slices.Repeat([]float64{blankFigure}, maxStretch)
	}
	var has [figuresOfRow]bool
	for i, is := range p.fields {
		f := fieldOf(is, p.separator, i == len(p.fields)-1)
		switch is {
		case countColumn, timeColumn, pausedColumn, startColumn, endColumn:
			says := figureOf[is]
			p.columns = append(p.columns, &figureColumn{
				field: f, figures: p.figures[is], says: says, further: has[says], lacks: says == ofCount || says == ofTime,
			})
			has[says] = true
		case dateColumn:
			p.columns, p.dated = append(p.columns, &datesColumn{field: f, dates: &p.days, last: noDateMet}), true
		case journalColumn:
			p.journals = &journalsColumn{field: f}
			p.columns = append(p.columns, p.journals)
		case growColumn, workflowColumn:
			p.recur(f, &p.where)
		case stepColumn, workerColumn, voidColumn:
			p.recur(f, &p.what)
		case sourceColumn, setupsColumn, peopleColumn, ratingColumn:
			p.recur(f, &p.how)
		default:
			if is == noteColumn && !p.skipNotes {
				p.recur(f, new(group))
				continue
			}
			p.skip(f)
		}
	}
	p.timed, p.clocked = has[ofTime], has[ofStart] && has[ofEnd]
	p.lacks = !has[ofTime] || !has[ofCount] || len(p.counts) > 1
}

// recur has a column read of which cells recur, and which tells of something with others.
func (p *parser) recur(f field, tells *group) {
	c := &recurring{field: f}
	p.columns, p.recurring, p.recurs[f.is] = append(p.columns, c), append(p.recurring, c), c
	tells.columns = append(tells.columns, c)
}

// skip has a column skipped, with those before it that are.
func (p *parser) skip(f field) {
	if n := len(p.columns); n > 0 {
		if before, ok := p.columns[n-1].(*skipped); ok {
			before.field = f
			before.inner++
			return
		}
	}
	p.columns = append(p.columns, &skipped{field: f, separators: lowest * uint64(p.separator), in: &p.stretch})
}

// dropNotes has notes skipped from then on of which, in the last chunk, more than few were not found by what they begin with.
func (p *parser) dropNotes() {
	if notes := p.recurs[noteColumn]; notes != nil && notes.rare > p.rows/maxRareNotes {
		p.skipNotes = true
		p.layOut()
		p.forgetCells()
	}
	if notes := p.recurs[noteColumn]; notes != nil {
		notes.rare = 0
	}
}

// maxRareNotes is which part of the rows may have such a note.
const maxRareNotes = 32
