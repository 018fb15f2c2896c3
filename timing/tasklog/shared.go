package tasklog

import "headhours/timing"

// group is the runs that tell where readings are taken, or what was done, and which of
// them were found to tell the same.
type group struct {
	runs   []*part
	met    *[mixtures]mixture
	latest uint32 // the index of what the row in hand has in common with others of its batch
	known  bool   // that is so
}

// mixture is which phrases the runs of a group hold, and the index of what they tell.
type mixture struct {
	ids   [mostRuns]uint32
	index uint32
	chunk uint32 // of which that holds
}

const (
	mixtureBits = 10
	mixtures    = 1 << mixtureBits
	// mostRuns is no less than there can be: one for each column that is told.
	mostRuns = 10
)

// mixture is that of the row in hand, and whether it was met in its chunk before.
func (g *group) mixture(chunk uint32) (m *mixture, met bool) {
	var ids [mostRuns]uint32
	hash := uint64(0)
	for i, c := range g.runs {
		ids[i] = c.said.id
		hash = (hash ^ uint64(ids[i])) * 0x9e3779b97f4a7c15
	}
	m = &g.met[hash>>(64-mixtureBits)]
	if m.chunk == chunk && m.ids == ids {
		return m, true
	}
	m.ids, m.chunk = ids, chunk
	return m, false
}

// mixWhere finds where the row in hand was taken.
func (p *parser) mixWhere() {
	g := &p.where
	m, met := g.mixture(p.chunk)
	if !met {
		where := timing.Where{Day: timing.NoDay}
		for _, c := range g.runs {
			says := c.said.says
			for _, is := range c.fields {
				switch is {
				case dateColumn:
					where.Day = says.day
				case growColumn:
					where.Grow = says.names[timing.GrowNames]
				case workflowColumn:
					where.Workflow = says.names[timing.WorkflowNames]
				}
			}
		}
		m.index = p.wheres.Of(where)
	}
	g.latest, g.known = m.index, true
}

// mixWhat finds what was done in the row in hand.
func (p *parser) mixWhat() {
	g := &p.what
	m, met := g.mixture(p.chunk)
	if !met {
		what := timing.What{People: 1, Rating: 100}
		for _, c := range g.runs {
			says := c.said.says
			for _, is := range c.fields {
				switch is {
				case stepColumn:
					what.Step = says.names[timing.StepNames]
				case workerColumn:
					what.Worker = says.names[timing.WorkerNames]
				case sourceColumn, setupsColumn:
					what.Flags |= says.flags
					what.Setups = max(what.Setups, says.setups)
				case peopleColumn:
					what.People = says.people
				case ratingColumn:
					what.Rating = says.rating
				}
			}
		}
		m.index = p.whats.Of(what)
	}
	g.latest, g.known = m.index, true
}
