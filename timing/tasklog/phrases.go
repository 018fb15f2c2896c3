package tasklog

import (
	"math/bits"

	"headhours/timing/condense"
)

// phrase is the cells of a run and what ends them, and what they were found to say.
type phrase struct {
	words   [4]uint64 // the bytes, the first the lowest, 0 behind them
	size    int       // how many those are; 0 of a phrase that has a text
	text    string    // of one of more than maxMemo bytes, or with a separator in quotes
	content *content
	id      uint32 // no other phrase of the parser has it
	inChunk        // where it is all that its group has
}

const (
	slotBits = 10
	slots    = 1 << slotBits
	maxMemo  = 32
)

// unlikeAll is of phrases that no words are like.
var unlikeAll = [4]uint64{1}

// unlike is a phrase that no text holds.
var unlike = phrase{words: unlikeAll}

// long is how many bytes the phrase has.
func (f *phrase) long() int { return f.size + len(f.text) }

// content is what the cells of a run say.
type content struct {
	names          [nameKinds]int32
	day            condense.Day
	flags          condense.Flags
	setups         float64
	people, rating float64
}

// blankRun is what blank cells say.
var blankRun = content{day: condense.NoDay, people: blankPeople, rating: blankRating}

// places has a bit for each byte of a word that is like one in all bytes of another, the
// first the lowest; they are brought together by a multiplication.
func places(word, like uint64) uint64 { return alike(word, like) >> 7 * 0x0102040810204080 >> 56 }

// look finds the phrase of a run that begins with four words, nil where it was not met
// lately; where it is or would be remembered; and how long it is with what ends it, 0
// where it is longer than maxMemo bytes.
func (c *part) look(w0, w1, w2, w3 uint64) (found *phrase, slot uint64, size int) {
	ends := places(w0, c.ends) | places(w1, c.ends)<<8 | places(w2, c.ends)<<16 | places(w3, c.ends)<<24
	for range c.inner {
		ends &= ends - 1
	}
	if ends == 0 {
		return nil, 0, 0
	}
	size = bits.TrailingZeros64(ends) + 1
	masks := &masksOf[size]
	w0, w1, w2, w3 = w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3]
	hash := (w0*0x9e3779b97f4a7c15 ^ w1*0xc2b2ae3d27d4eb4f) + (w2*0x165667b19e3779f9 ^ w3*0x85ebca77c2b2ae63)
	slot = hash >> (64 - slotBits)
	// two slots for each, else those that share one would go in turns
	if f := &c.memo[slot]; (f.words[0]^w0)|(f.words[1]^w1)|(f.words[2]^w2)|(f.words[3]^w3) == 0 {
		return f, slot, size
	}
	if f := &c.memo[slot^1]; (f.words[0]^w0)|(f.words[1]^w1)|(f.words[2]^w2)|(f.words[3]^w3) == 0 {
		return f, slot, size
	}
	return nil, slot, size
}

// masksOf are the masks of so many bytes.
var masksOf = func() (all [maxMemo + 1][4]uint64) {
	for size := range all {
		for i := range size {
			all[size][i/8] |= 255 << (8 * (i % 8))
		}
	}
	return all
}()
