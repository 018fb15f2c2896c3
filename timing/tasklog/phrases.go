package tasklog

import (
	"math/bits"

	"headhours/timing"
)

// phrase is the cells of a run and what ends them, of no more than longest bytes, and
// what they were found to say.
type phrase struct {
	words [4]uint64 // the bytes, the first the lowest, 0 behind them
	size  uint32
	id    uint32 // no other phrase of the parser has it
	says  *says
	with  uint64 // chunk and phrase beside it as it was last met, see settle
	index uint32 // of what its group tells with that
}

const (
	slotBits = 10
	slots    = 1 << slotBits
	longest  = 32
)

// unlike is a phrase that no text holds.
var unlike = phrase{words: [4]uint64{1}}

// says is what the cells of a run say.
type says struct {
	names          [nameKinds]int32
	day            timing.Day
	flags          timing.Flags
	setups         float64
	people, rating float64
}

// nothing is what blank cells say.
var nothing = says{day: timing.NoDay, people: 1, rating: 100}

const (
	lowest  = 0x0101010101010101
	highest = 0x8080808080808080
)

// places has a bit for each byte of a word that is like those of another, the first the
// lowest (H. S. Warren, Hacker's Delight, 2nd ed., section 6-1; the bits are brought
// together by a multiplication).
func places(word, like uint64) uint64 {
	const others = ^uint64(highest)
	word ^= like
	zero := ^((word&others + others) | word | others) // a high bit for each byte of 0
	return zero >> 7 * 0x0102040810204080 >> 56
}

// slotOf finds where a run is remembered that begins with words, and how long it is with
// what ends it; 0 where it is longer than longest bytes.
func (c *part) slotOf(words *[4]uint64) (slot uint64, size int) {
	ends := places(words[0], c.ends) | places(words[1], c.ends)<<8 | places(words[2], c.ends)<<16 | places(words[3], c.ends)<<24
	for range c.inner {
		ends &= ends - 1
	}
	if ends == 0 {
		return 0, 0
	}
	size = bits.TrailingZeros64(ends) + 1
	masks := &masksOf[size]
	words[0] &= masks[0]
	words[1] &= masks[1]
	words[2] &= masks[2]
	words[3] &= masks[3]
	hash := (words[0]*0x9e3779b97f4a7c15 ^ words[1]*0xc2b2ae3d27d4eb4f) + (words[2]*0x165667b19e3779f9 ^ words[3]*0x85ebca77c2b2ae63)
	return hash >> (64 - slotBits), size
}

func (f *phrase) is(words *[4]uint64) bool {
	return (f.words[0]^words[0])|(f.words[1]^words[1])|(f.words[2]^words[2])|(f.words[3]^words[3]) == 0
}

// look finds what the run at an offset says, the bytes there being words, and goes
// behind its end; false where the row is not plain.
func (p *parser) look(data []byte, at int, words *[4]uint64, c *part) (behind int, ok bool) {
	slot, size := c.slotOf(words)
	if size == 0 {
		return p.meet(data, at, c, nil)
	}
	known := &c.met[slot]
	if !known.is(words) { // two slots for each, else those that share one would go in turns
		known = &c.met[slot^1]
	}
	if known.is(words) {
		c.latest, c.said, c.masks = known, known, &masksOf[size]
		return at + size, true
	}
	found := &c.met[slot]
	if found.size > 0 && c.met[slot^1].size == 0 {
		found = &c.met[slot^1]
	}
	*found = phrase{words: *words, size: uint32(size)}
	return p.meet(data, at, c, found)
}

// masksOf are the masks of so many bytes.
var masksOf = func() (all [longest + 1][4]uint64) {
	for size := range all {
		for i := range size {
			all[size][i/8] |= 255 << (8 * (i % 8))
		}
	}
	return all
}()

// unlike forgets the last row.
func (c *part) unlike() { c.latest, c.masks = &unlike, &masksOf[0] }
