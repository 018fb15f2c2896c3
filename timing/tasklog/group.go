package tasklog

// group is the runs that tell where readings are taken, or what was done, and which of
// them were found to tell the same.
type group struct {
	runs    []*part
	memo    *[mixtures]mixture // nil before the first
	alone   inChunk            // where there are no runs
	latest  uint32             // the index of what the row in hand has in common with others of its batch
	settled bool               // that is so
}

// isSettled settles a group of one run that was met in the chunk before, as most are; false of
// others.
func (g *group) isSettled(chunk uint32) bool {
	if len(g.runs) != 1 {
		return false
	}
	is := &g.runs[0].last.inChunk
	if is.within != chunk {
		return false
	}
	g.latest, g.settled = is.index, true
	return true
}

// mixture is two that were met together, phrases or a mixture and a phrase, and what they
// tell.
type mixture struct {
	first, second uint32
	id            uint32 // no phrase has it, nor another mixture
	inChunk
}

const (
	mixtureBits = 11
	mixtures    = 1 << mixtureBits
)
