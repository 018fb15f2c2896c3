package tasklog

// group is runs that tell one thing of a row: where it was, or what was done.
type group struct {
	runs  []*part
	rest  []*part            // of these the last, and those that rows in hand have unlike
	memo  *[mixtures]mixture // nil before the first
	alone inBatch            // where there are no runs
	mixes bool               // their one run may be that of another group too
	since uint32             // the chunk from which on an index is good
}

// mixture is two that were met together, phrases or a mixture and a phrase, and what they
// tell.
type mixture struct {
	both uint64 // their ids
	id   uint32 // no phrase has it, nor another mixture
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

// mixRuns finds what the runs of rows come to together, but for one that is left to mix. Those
// that all rows have alike are mixed once.
func (p *parser) mixRuns(g *group, rows int) (ids []uint32, last *part) {
	if g.memo == nil {
		g.memo = new([mixtures]mixture)
	}
	alike := uint32(0) // no phrase has it
	g.rest = g.rest[:0]
	for i, c := range g.runs {
		if c.alike && (i < len(g.runs)-1 || len(g.rest) > 0) {
			alike = g.mix(p, alike, c.found[0]).id
		} else {
			g.rest = append(g.rest, c)
		}
	}
	rest, mixed := g.rest, p.stretch.ids[:rows]
	if ids = mixed; alike > 0 || len(rest) == 1 {
		for i := range ids {
			ids[i] = alike
		}
	} else {
		ids, rest = rest[0].found[:rows], rest[1:]
	}
	for ; len(rest) > 1; rest = rest[1:] {
		found := rest[0].found[:rows]
		for i := g.blend(ids, found, mixed); i < rows; i += g.blend(ids[i:], found[i:], mixed[i:]) {
			g.mix(p, ids[i], found[i])
		}
		ids = mixed
	}
	return ids, rest[0]
}

// slotOfBoth is where the mixture of two ids is remembered, or beside it.
func slotOfBoth(both uint64) uint64 { return both * mixer >> (64 - mixtureBits) }

// blend mixes what rows come to with phrases, up to one that was not met so lately.
// Where it is inlined it loses its registers to calls.
//
//go:noinline
func (g *group) blend(ids, found, into []uint32) (rows int) {
	memo := g.memo
	found, into = found[:len(ids)], into[:len(ids)]
	for i, first := range ids {
		both := uint64(first)<<32 | uint64(found[i])
		m := &memo[slotOfBoth(both)]
		if m.both != both {
			return i
		}
		into[i] = m.id
	}
	return len(ids)
}

// told is what rows tell that come to something with phrases, up to one of which that is to be
// found.
// Where it is inlined it loses its registers to calls.
//
//go:noinline
func (g *group) told(ids, found, into []uint32) (rows int) {
	memo, since := g.memo, g.since
	found, into = found[:len(ids)], into[:len(ids)]
	for i, first := range ids {
		both := uint64(first)<<32 | uint64(found[i])
		m := &memo[slotOfBoth(both)]
		if m.both != both || m.since != since {
			return i
		}
		into[i] = m.index
	}
	return len(ids)
}

// mix has what two come to where it is looked for, or begins it there. It may have been in one of
// three places beside that, else those that share one would go in turns.
func (g *group) mix(p *parser, first, second uint32) *mixture {
	both := uint64(first)<<32 | uint64(second)
	slot := slotOfBoth(both)
	front := &g.memo[slot]
	for beside := range uint64(4) {
		if m := &g.memo[slot^beside]; m.both == both {
			*front, *m = *m, *front
			return front
		}
	}
	p.mixtures++
	g.memo[slot^(1+uint64(p.mixtures%3))] = *front
	*front = mixture{both: both, id: p.mixtures | 1<<31}
	return front
}
