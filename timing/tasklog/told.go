package tasklog

import "headhours/timing/condense"

// group is columns that tell one thing of a row: where it was, what was done, or how. They are four at most.
type group struct {
	columns []*recurring
	memo    *[mixtures]mixture // nil before the first
	alone   inBatch            // where there are no columns
	window  window
	since   uint32 // the chunk from which on an index is good
	begun   uint32 // how many mixtures were
}

// mixture is cells of all columns that were met together, and what they tell.
type mixture struct {
	ids uint64 // of the cells, see idsOf
	inBatch
}

const (
	mixtureBits = 11
	mixtures    = 1 << mixtureBits
)

// forget forgets what was met.
func (g *group) forget() {
	if g.memo != nil {
		*g.memo = [mixtures]mixture{}
	}
}

// idsOf is the ids of the cells that rows have in a group's columns: of every other one, and of the rest.
// Where a group has more than two they are two ids each, which have no more bits (see maxMet).
func (s *stretch) idsOf(g *group, rows int) (halves [2][]uint32) {
	for i := range halves {
		halves[i] = g.columns[min(i, len(g.columns)-1)].found[:rows]
		if i+2 >= len(g.columns) {
			continue
		}
		low, high, both := halves[i], g.columns[i+2].found[:rows], s.ids[i][:rows]
		for row := range both {
			both[row] = low[row] | high[row]<<16
		}
		halves[i] = both
	}
	return halves
}

// slotOfIds is where a mixture is remembered, or beside it.
func slotOfIds(ids uint64) uint64 { return ids * mixer >> (64 - mixtureBits) }

// recurs is how many rows tell what the first does, where that is known, and what it is.
//
//go:noinline
func (g *group) recurs(first, second, into []uint32) (rows int) {
	ids := uint64(first[0])<<32 | uint64(second[0])
	m := &g.memo[slotOfIds(ids)]
	if m.ids != ids || m.since != g.since {
		return 0
	}
	f, s, index := first[0], second[0], m.index
	second, into = second[:len(first)], into[:len(first)]
	for rows < len(first) && first[rows] == f && second[rows] == s {
		into[rows] = index
		rows++
	}
	g.window.reach(rows)
	return rows
}

// told is what rows tell that have some ids, see idsOf, up to one of which that is to be found.
// Where it is inlined it loses its registers to calls.
//
//go:noinline
func (g *group) told(first, second, into []uint32) (rows int) {
	memo, since := g.memo, g.since
	second, into = second[:len(first)], into[:len(first)]
	for i, ids := range first {
		all := uint64(ids)<<32 | uint64(second[i])
		m := &memo[slotOfIds(all)]
		if m.ids != all || m.since != since {
			return i
		}
		into[i] = m.index
	}
	return len(first)
}

// mix has what cells tell together where it is looked for, or begins it there. It may have been in one of
// three places beside that, else those that share one would go in turns.
func (g *group) mix(first, second uint32) *mixture {
	ids := uint64(first)<<32 | uint64(second)
	slot := slotOfIds(ids)
	front := &g.memo[slot]
	for beside := range uint64(4) {
		if m := &g.memo[slot^beside]; m.ids == ids {
			*front, *m = *m, *front
			return front
		}
	}
	g.begun++
	g.memo[slot^(1+uint64(g.begun%3))] = *front
	*front = mixture{ids: ids}
	return front
}

// adding adds to the batch what the cells of a row in hand tell, and gives its index there; it is not ok
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
	what := condense.What{
		Step: p.recurs[stepColumn].in(row).name, Worker: p.recurs[workerColumn].in(row).name, Voided: p.recurs[voidColumn].in(row).void != "",
	}
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
