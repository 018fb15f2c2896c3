package tasklog

import "headhours/timing/condense"

// settle finds what the runs of the row in hand tell, which is told anew where they were
// not met together in the chunk lately.
func (p *parser) settle(g *group, add func(*parser) uint32) {
	g.settled = true
	is, id := &g.alone, uint32(0)
	for i, c := range g.runs {
		if i == 0 {
			is, id = &c.last.inChunk, c.last.id
			continue
		}
		m := p.mix(g, id, c.last.id)
		is, id = &m.inChunk, m.id
	}
	if is.within != p.chunk {
		is.index, is.within = add(p), p.chunk
	}
	g.latest = is.index
}

func (p *parser) mix(g *group, first, second uint32) *mixture {
	if g.memo == nil {
		g.memo = new([mixtures]mixture)
	}
	m := &g.memo[mixed(uint64(first), uint64(second))>>(64-mixtureBits)]
	if m.first != first || m.second != second {
		p.ids++
		*m = mixture{first: first, second: second, id: p.ids}
	}
	return m
}

// dayOf is the day of the row in hand.
func (p *parser) dayOf() condense.Day {
	if p.dated == nil {
		return condense.NoDay
	}
	return p.dated.last.content.day
}

// whereOf adds where the row in hand was taken to its batch.
func (p *parser) whereOf() uint32 {
	var where condense.Where
	for _, c := range p.where.runs {
		has := c.last.content
		for _, is := range c.fields {
			switch is {
			case growColumn:
				where.Grow = has.names[condense.GrowNames]
			case workflowColumn:
				where.Workflow = has.names[condense.WorkflowNames]
			}
		}
	}
	return p.addWhere(where)
}

// whatOf adds what was done in the row in hand to its batch.
func (p *parser) whatOf() uint32 {
	what := condense.What{People: blankPeople, Rating: blankRating}
	for _, c := range p.what.runs {
		has := c.last.content
		for _, is := range c.fields {
			switch is {
			case stepColumn:
				what.Step = has.names[condense.StepNames]
			case workerColumn:
				what.Worker = has.names[condense.WorkerNames]
			case sourceColumn:
				what.Flags |= has.flags & condense.IsJudged
			case setupsColumn:
				what.Flags |= has.flags & condense.HasSetups
				what.Setups = has.setups
			case peopleColumn:
				what.People = has.people
			case ratingColumn:
				what.Rating = has.rating
			}
		}
	}
	return p.addWhat(what)
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

func (p *parser) addWhat(w condense.What) uint32 {
	b := &p.parsed.batch
	if n := len(b.What); n == 0 || b.What[n-1] != w {
		b.What = append(b.What, w)
	}
	return uint32(len(b.What) - 1)
}
