package tasklog

import "headhours/timing/condense"

// adding adds what the runs of a row tell to the batch, and gives its index there; it is not ok
// without what a reading needs.
type adding func(p *parser, row int) (index uint32, ok bool)

// settle finds what the runs of rows tell, in their order, up to one in which a cell is wrong,
// and says how many rows that is. It is told anew where the runs were not met together
// lately.
func (p *parser) settle(g *group, into []uint32, add adding) (rows int) {
	switch {
	case len(g.runs) == 0:
		if len(into) > 0 && g.alone.since != g.since && !p.tell(g, 0, &g.alone, add) {
			return 0
		}
		for i := range into {
			into[i] = g.alone.index
		}
		return len(into)
	case len(g.runs) == 1 && !g.mixes:
		for found := g.runs[0].found[:len(into)]; ; {
			if rows += told(found[rows:], p.phrases.told, g.since, into[rows:]); rows == len(into) || !p.tell(g, rows, &p.phrases.told[found[rows]], add) {
				return rows
			}
		}
	}
	if g.memo == nil {
		g.memo = new([mixtures]mixture)
	}
	for ids := p.idsOf(g, len(into)); ; {
		if rows += g.told(ids[0][rows:], ids[1][rows:], into[rows:]); rows == len(into) {
			return rows
		}
		if m := g.mix(ids[0][rows], ids[1][rows]); m.since != g.since && !p.tell(g, rows, &m.inBatch, add) {
			return rows
		}
	}
}

// told has what the runs of rows told, up to one of which that is to be found.
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

// tell adds what the runs of a row tell; false where a cell is wrong or lacks.
func (p *parser) tell(g *group, row int, is *inBatch, add adding) bool {
	for _, c := range g.runs {
		if !p.know(c, p.at(c, row)) {
			return false
		}
	}
	index, ok := add(p, row)
	if ok {
		*is = inBatch{index, g.since}
	}
	return ok
}

// at is the phrase of a part in a row in hand.
func (p *parser) at(c *part, row int) *phrase { return p.phrases.list[c.found[row]] }

// whereOf adds where a row in hand was taken to its batch.
func (p *parser) whereOf(row int) (index uint32, ok bool) {
	var where condense.Where
	for _, c := range p.where.runs {
		has := &p.at(c, row).content
		for _, is := range c.fields {
			switch is {
			case growColumn:
				where.Grow = has.names[condense.GrowNames]
			case workflowColumn:
				where.Workflow = has.names[condense.WorkflowNames]
			}
		}
	}
	return p.addWhere(where), true
}

// whatOf adds what was done in a row in hand to its batch.
func (p *parser) whatOf(row int) (index uint32, ok bool) {
	var what condense.What
	for _, c := range p.what.runs {
		has := &p.at(c, row).content
		for _, is := range c.fields {
			switch is {
			case stepColumn:
				what.Step = has.names[condense.StepNames]
			case workerColumn:
				what.Worker = has.names[condense.WorkerNames]
			}
		}
	}
	if what.Step == 0 { // no reading is without
		return 0, false
	}
	return p.addWhat(what), true
}

// howOf adds how what was done in a row in hand was done.
func (p *parser) howOf(row int) (index uint32, ok bool) {
	how := blankHow
	for _, c := range p.how.runs {
		has := &p.at(c, row).content.how
		for _, is := range c.fields {
			switch is {
			case sourceColumn:
				how.Judged = has.Judged
			case setupsColumn:
				how.HasSetups, how.Setups = has.HasSetups, has.Setups
			case peopleColumn:
				how.People = has.People
			case ratingColumn:
				how.Rating = has.Rating
			}
		}
	}
	return p.addHow(how), true
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
