package tasklog

// group is the runs that tell where readings are taken, or what was done, and which of
// them were found to tell the same.
type group struct {
	runs  []*part
	memo  *[mixtures]mixture // nil before the first
	alone inChunk            // where there are no runs
}

// mixture is two that were met together, phrases or a mixture and a phrase, and what they
// tell.
type mixture struct {
	both uint64 // their ids
	id   uint32 // no phrase has it, nor another mixture
	inChunk
}

const (
	mixtureBits = 11
	mixtures    = 1 << mixtureBits
)
