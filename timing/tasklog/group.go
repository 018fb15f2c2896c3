package tasklog

// group is runs that tell one thing of a row: where it was, or what was done. They are four at most.
type group struct {
	runs  []*part
	memo  *[mixtures]mixture // nil before the first
	alone inBatch            // where there are no runs
	mixes bool               // their one run may be that of another group too
	since uint32             // the chunk from which on an index is good
	begun uint32             // how many mixtures were
}

// mixture is phrases of all runs that were met together, and what they tell.
type mixture struct {
	ids uint64 // of the phrases, see idsOf
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

// idsOf is the ids of the phrases that rows have of a group's runs: of every other one, and of the rest.
// Where a group has more than two runs they are two ids each, which have no more bits (see maxPhrases).
func (p *parser) idsOf(g *group, rows int) (halves [2][]uint32) {
	for i := range halves {
		halves[i] = g.runs[min(i, len(g.runs)-1)].found[:rows]
		if i+2 >= len(g.runs) {
			continue
		}
		low, high, both := halves[i], g.runs[i+2].found[:rows], p.stretch.ids[i][:rows]
		for row := range both {
			both[row] = low[row] | high[row]<<16
		}
		halves[i] = both
	}
	return halves
}

// slotOfIds is where a mixture is remembered, or beside it.
func slotOfIds(ids uint64) uint64 { return ids * mixer >> (64 - mixtureBits) }

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

// mix has what phrases tell together where it is looked for, or begins it there. It may have been in one of
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
