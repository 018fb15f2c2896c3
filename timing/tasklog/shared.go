package tasklog

import (
	"headhours/timing/condense"
	"headhours/timing/study"
)

// adding adds what the cells of a row tell to the batch, and gives its index there; it is not ok
// without what a reading needs.
type adding func(p *parser, row int) (index uint32, ok bool)

// settle finds what the cells of rows tell, in their order, up to one in which a cell is wrong,
// and says how many rows that is. It is told anew where the cells were not met together
// lately.
func (p *parser) settle(g *group, into []uint32, add adding) (rows int) {
	switch len(g.columns) {
	case 0:
		if len(into) > 0 && g.alone.since != g.since && !p.tell(g, 0, &g.alone, add) {
			return 0
		}
		for i := range into {
			into[i] = g.alone.index
		}
		return len(into)
	case 1:
		c := g.columns[0]
		for found := c.found[:len(into)]; ; {
			if rows += told(found[rows:], c.told, g.since, into[rows:]); rows == len(into) || !p.tell(g, rows, &c.told[found[rows]], add) {
				return rows
			}
		}
	}
	if g.memo == nil {
		g.memo = new([mixtures]mixture)
	}
	for ids := p.stretch.idsOf(g, len(into)); rows < len(into); {
		rows += g.recurs(ids[0][rows:], ids[1][rows:], into[rows:])
		end := min(rows+max(g.window.rows, 1), len(into))
		if rows += g.told(ids[0][rows:end], ids[1][rows:end], into[rows:end]); rows == end {
			continue
		}
		if m := g.mix(ids[0][rows], ids[1][rows]); m.since != g.since && !p.tell(g, rows, &m.inBatch, add) {
			return rows
		}
	}
	return rows
}

// told has what the cells of rows told, up to one of which that is to be found.
// Where it is inlined it loses its registers to calls.
//
//go:noinline
func told(found []uint32, told []inBatch, since uint32, into []uint32) (rows int) {
	into = into[:len(found)]
	for i, id := range found {
		is := told[id]
		if is.since != since {
			return i
		}
		into[i] = is.index
	}
	return len(found)
}

// tell adds what the cells of a row tell; false where one is wrong or lacks.
func (p *parser) tell(g *group, row int, is *inBatch, add adding) bool {
	for _, c := range g.columns {
		if !p.know(c, c.in(row)) {
			return false
		}
	}
	index, ok := add(p, row)
	if ok {
		*is = inBatch{index, g.since}
	}
	return ok
}

// in is the cell of a row in hand; noneMet where the log lacks the column.
func (c *recurring) in(row int) *met {
	if c == nil {
		return &noneMet
	}
	return c.met[c.found[row]]
}

// whereOf adds where a row in hand was taken to its batch.
func (p *parser) whereOf(row int) (index uint32, ok bool) {
	return p.addWhere(condense.Where{Grow: p.recurs[growColumn].in(row).name, Workflow: p.recurs[workflowColumn].in(row).name}), true
}

// whatOf adds what was done in a row in hand to its batch.
func (p *parser) whatOf(row int) (index uint32, ok bool) {
	what := condense.What{Step: p.recurs[stepColumn].in(row).name, Worker: p.recurs[workerColumn].in(row).name}
	if what.Step == 0 { // no reading is without
		return 0, false
	}
	return p.addWhat(what), true
}

// howOf adds how what was done in a row in hand was done.
func (p *parser) howOf(row int) (index uint32, ok bool) {
	how := condense.How{People: blankPeople, Rating: blankRating, Judged: p.recurs[sourceColumn].in(row).judged}
	if x := p.recurs[peopleColumn].in(row).number; x != blankFigure {
		how.People = x
	}
	if x := p.recurs[ratingColumn].in(row).number; x != blankFigure {
		how.Rating = x
	}
	if x := p.recurs[setupsColumn].in(row).number; x != blankFigure {
		how.Setups, how.HasSetups = x, true
	}
	return p.addHow(how), true
}

// know decodes a cell that was met, if that was not done before; false where it is wrong.
func (p *parser) know(c *recurring, f *met) bool {
	if f.known {
		return true
	}
	p.inHand = f.bytes(p.inHand)
	text, _ := c.cell(p.inHand, 0)
	f.number = blankFigure
	if !p.isAsMet(c.is, text, f) && !p.decode(c.is, tidied(cellText(string(text))), f) {
		return false
	}
	f.known = true
	return true
}

// isAsMet takes in what a name says that was met in just these bytes, if it was. Grows are
// called what the log calls them, nearly all: a name is the study's where a log has it exactly, so what is one
// stands for itself.
func (p *parser) isAsMet(is column, raw []byte, f *met) (ok bool) {
	kind, isName := nameKind(is)
	if !isName {
		return false
	}
	if is == growColumn {
		if f.name, ok = p.names[kind].find(raw); ok {
			return true
		}
	}
	f.name, ok = p.byText[kind][string(raw)]
	return ok
}

// decode takes in what a text says; false where it is wrong.
func (p *parser) decode(is column, text string, f *met) bool {
	if text == "" {
		return true
	}
	var err error
	switch kind, isName := nameKind(is); {
	case isName:
		var ours string
		if ours, err = p.namesOf[kind].of(text); err == nil {
			f.name = p.names[kind].of(ours)
			if is != growColumn || ours != text {
				p.byText[kind][text] = f.name
			}
		}
	case is == sourceColumn:
		var source study.Source
		source, err = sourceOf(text)
		f.judged = source == study.ByJudgement
	case is == setupsColumn:
		f.number, _, err = p.figures[is].of(text)
	case is == peopleColumn || is == ratingColumn:
		f.number, err = p.above0(is, text)
	}
	return err == nil
}

// addWhere adds to what rows of the batch have in common, if it is not the last there
// already, and gives its index.
func (p *parser) addWhere(w condense.Where) uint32 {
	b := &p.parsed.batch
	if n := len(b.Where); n == 0 || b.Where[n-1] != w {
		b.Where = append(b.Where, w)
	}
	return uint32(len(b.Where) - 1)
}

// addWhat adds likewise to what is done in rows of many batches.
func (p *parser) addWhat(w condense.What) uint32 {
	if n := len(p.whats); n == 0 || p.whats[n-1] != w {
		p.whats = append(p.whats, w)
	}
	return uint32(len(p.whats) - 1)
}

// addHow adds likewise to how it is done.
func (p *parser) addHow(h condense.How) uint32 {
	if n := len(p.hows); n == 0 || p.hows[n-1] != h {
		p.hows = append(p.hows, h)
	}
	return uint32(len(p.hows) - 1)
}
