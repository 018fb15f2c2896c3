package tasklog

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
