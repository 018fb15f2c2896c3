package tasklog

import "headhours/timing/condense"

// group is the runs that tell where readings are taken, or what was done, and which of
// them were found to tell the same.
type group struct {
	runs    []*part
	memo    *[mixtures]mixture // nil before the first
	latest  uint32             // the index of what the row in hand has in common with others of its batch
	settled bool               // that is so
}

// mixture is which phrases the runs of a group hold, and the index of what they tell.
type mixture struct {
	ids   [maxRuns]uint32
	index uint32
	chunk uint32 // of which that holds
}

const (
	mixtureBits = 10
	mixtures    = 1 << mixtureBits
	// maxRuns is no less than there can be: one for each column that tells what was done.
	maxRuns = 6
)

// settle finds what the runs of the row in hand tell. As a rule the first run tells it,
// which had the same beside it when it was last met in the chunk.
func (p *parser) settle(g *group, add func(*parser) uint32) {
	g.settled = true
	with := uint64(p.chunk) << 32
	switch len(g.runs) {
	case 2:
		with |= uint64(g.runs[1].last.id)
		fallthrough
	case 1:
		first := g.runs[0].last
		if first.with != with {
			first.index, first.with = p.together(g, add), with
		}
		g.latest = first.index
	default:
		g.latest = p.together(g, add)
	}
}

// together is the index of what the runs tell, told anew where they were not met together
// in the chunk lately.
func (p *parser) together(g *group, add func(*parser) uint32) uint32 {
	if len(g.runs) == 1 {
		return add(p)
	}
	hash := uint64(0)
	for _, c := range g.runs {
		hash = (hash ^ uint64(c.last.id)) * 0x9e3779b97f4a7c15
	}
	if g.memo == nil {
		g.memo = new([mixtures]mixture)
	}
	m := &g.memo[hash>>(64-mixtureBits)]
	isMet := m.chunk == p.chunk
	for i, c := range g.runs {
		isMet = isMet && m.ids[i] == c.last.id
		m.ids[i] = c.last.id
	}
	if !isMet {
		m.index, m.chunk = add(p), p.chunk
	}
	return m.index
}

// whereOf adds where the row in hand was taken to its batch.
func (p *parser) whereOf() uint32 {
	where := condense.Where{Day: condense.NoDay}
	for _, c := range p.where.runs {
		has := c.last.content
		for _, is := range c.fields {
			switch is {
			case dateColumn:
				where.Day = has.day
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

// clocked is the index of what a row has in common with others of its batch, and that its
// start and end are noted.
func (p *parser) clocked(what uint32) uint32 {
	for int(what) >= len(p.clocks) {
		p.clocks = append(p.clocks, 0)
	}
	if p.clocks[what] == 0 { // which can be of no other: it stands behind that without
		w := p.parsed.batch.What[what]
		w.Flags |= condense.HasClock
		p.clocks[what] = p.addWhat(w)
	}
	return p.clocks[what]
}
