package tasklog

import "math/bits"

// begun is the last cell that began with some bytes, its first word and the mask of that.
type begun struct {
	word, mask uint64
	id, size   uint32 // of the cell, at hand
	*met
}

// noneBegun stands where none is remembered: no word has its bits.
var noneBegun = begun{word: 1, met: &noneMet}

// beginnings find cells by what they begin with: by those bytes of it that tell apart what was met.
type beginnings struct {
	begun  []begun   // a power of two of them
	shift  uint      // of a hash to a place among them
	apart  [4]uint64 // has those bytes
	long   bool      // one of the cells has more than a word
	from8  uint32    // where a word has all those bytes, from the beginning
	apart8 uint64    // them, in that word
	longer bool      // none has
	mixer  uint64    // by which slots go
	mixed  int       // how often that was another
	uses   int       // how many slots are in use, and how often two cells went for one
}

// forget forgets them.
func (c *beginnings) forget() {
	*c = beginnings{begun: c.begun[:0], mixer: mixer}
	c.makeSlots(minSlots)
}

// seek finds the cells of rows, up to one that is another than the last that has the same of those bytes.
func (c *beginnings) seek(data []byte, at, found []uint32) (rows int) {
	switch {
	case c.longer:
		return c.seekLonger(data, at, found)
	case c.long:
		return c.seekLong(data, at, found)
	}
	return c.seekShort(data, at, found)
}

// seekLong is seek where those bytes are of eight in a row.
func (c *beginnings) seekLong(data []byte, at, found []uint32) (rows int) {
	begun, from8, apart8, mixer, shift := c.begun, int(c.from8), c.apart8, c.mixer, c.shift&63
	found = found[:len(at)]
	for i, from := range at {
		f := begun[slotOfBegin(wordAt(data, int(from)+from8)&apart8, mixer, shift)].met
		if !f.stands(wordsAt(data, int(from))) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// seekShort is seek where none has more than a word.
func (c *beginnings) seekShort(data []byte, at, found []uint32) (rows int) {
	begun, apart, mixer, shift := c.begun, c.apart[0], c.mixer, c.shift&63
	found = found[:len(at)]
	for i, from := range at {
		word := wordAt(data, int(from))
		f := &begun[slotOfBegin(word&apart, mixer, shift)]
		if word&f.mask != f.word {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// seekLonger is seek where those bytes are farther from each other than a word is long.
func (c *beginnings) seekLonger(data []byte, at, found []uint32) (rows int) {
	begun, mixer, shift, a0, a1, a2, a3 := c.begun, c.mixer, c.shift&63, c.apart[0], c.apart[1], c.apart[2], c.apart[3]
	found = found[:len(at)]
	for i, from := range at {
		w0, w1, w2, w3 := wordsAt(data, int(from))
		f := begun[slotOfBegin(joined(w0&a0, w1&a1, w2&a2, w3&a3), mixer, shift)].met
		if !f.stands(w0, w1, w2, w3) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// beside is the cell of a row that begins as the one that is sought for it; nil where there is none.
func (c *beginnings) beside(data []byte, from uint32) *met {
	slot := c.slotOf(data, from)
	w0, w1, w2, w3 := wordsAt(data, int(from))
	for beside := range uint64(ways) {
		f := c.begun[slot^beside]
		if f.stands(w0, w1, w2, w3) || f.text != "" && hasPrefix(data[from:], f.text) {
			c.begun[slot], c.begun[slot^beside] = f, c.begun[slot]
			if c.uses++; c.uses > len(c.begun)/8 {
				c.moreSlots()
			}
			return f.met
		}
	}
	return nil
}

// minSlots and maxSlots are the least and the most slots for what cells begin with, of which few are ever looked at. There are
// so many that few cells share one.
const (
	minSlots = 1 << 6
	maxSlots = 1 << 13
	ways     = 4 // of what begins alike, or has a slot by chance, so many are remembered
)

// slotOfBegin is where what has some bytes of a word is remembered, or beside it.
func slotOfBegin(some, mixer uint64, shift uint) uint64 { return some * mixer >> (shift & 63) }

// joined is a word for some bytes of four.
func joined(b0, b1, b2, b3 uint64) uint64 { return ((b0*mixer^b1)*mixer^b2)*mixer ^ b3 }

// begins remembers a cell, which stands at an offset, by what it begins with. Where another has the
// same bytes there, they are told apart by one more.
func (c *beginnings) begins(f *met, data []byte, from uint32) {
	if !c.long && f.long() > 8 {
		c.long = true
		c.nothingBegun()
	}
	slot := c.slotOf(data, from)
	first := c.begun[slot].met
	if first == f {
		return
	}
	if first != &noneMet && c.tellApart(first, f) {
		slot = c.slotOf(data, from)
	}
	if c.uses++; c.uses > len(c.begun)/8 && c.moreSlots() {
		slot = c.slotOf(data, from)
	}
	before := c.begun[slot]
	c.begun[slot] = begun{f.words[0], f.masks[0], f.id, f.size, f}
	for beside := uint64(1); beside < ways && before.met != &noneMet; beside++ { // it stays beside, if there is room
		if c.begun[slot^beside].met == &noneMet || beside == ways-1 {
			c.begun[slot^beside] = before
			break
		}
	}
}

// tellApart has two cells told apart by the first byte that they have not in common, or where they are
// already by more or other slots for all, since the two have one by chance; false where it cannot. What stands behind
// the shorter tells nothing.
func (c *beginnings) tellApart(f, other *met) bool {
	masks := &masksOf[min(f.long(), other.long(), maxMemo)]
	at, first := -1, uint64(0)
	for i := range f.words {
		unlike := (f.words[i] ^ other.words[i]) & masks[i]
		if unlike&c.apart[i] != 0 {
			if c.moreSlots() {
				return true
			}
			if c.mixed++; c.mixed > maxMixed {
				return false
			}
			c.mixer *= mixer
			c.nothingBegun()
			return true
		}
		if unlike != 0 && at < 0 {
			at, first = i, 255<<(bits.TrailingZeros64(unlike)&^7)
		}
	}
	if at < 0 {
		return false
	}
	c.apart[at] |= first
	c.frame()
	c.nothingBegun()
	return true
}

// maxMixed is how often cells get other slots: where there are many some have one in any case.
const maxMixed = 8

// frame finds the word, from any byte on, that has all bytes that tell apart, if one has.
func (c *beginnings) frame() {
	var first, last int
	for i := range c.apart {
		if word := c.apart[len(c.apart)-1-i]; word != 0 {
			first = 8*(len(c.apart)-1-i) + bits.TrailingZeros64(word)/8
		}
		if word := c.apart[i]; word != 0 {
			last = 8*i + (bits.Len64(word)-1)/8
		}
	}
	c.longer = last-first >= 8
	first = min(first, maxMemo-8)
	c.from8, c.apart8 = uint32(first), c.apart[first/8]>>(8*(first%8))
	if first%8 > 0 {
		c.apart8 |= c.apart[first/8+1] << (64 - 8*(first%8))
	}
}

// slotOf is where the last cell is remembered that begins as the cell at an offset, and the last but
// one beside it.
func (c *beginnings) slotOf(data []byte, from uint32) uint64 {
	switch {
	case c.longer:
		w0, w1, w2, w3 := wordsAt(data, int(from))
		return slotOfBegin(joined(w0&c.apart[0], w1&c.apart[1], w2&c.apart[2], w3&c.apart[3]), c.mixer, c.shift)
	case c.long:
		return slotOfBegin(wordAt(data, int(from+c.from8))&c.apart8, c.mixer, c.shift)
	}
	return slotOfBegin(wordAt(data, int(from))&c.apart[0], c.mixer, c.shift)
}

// makeSlots has so many slots, and forgets what cells begin with.
func (c *beginnings) makeSlots(slots int) {
	if c.begun, c.shift = c.begun[:cap(c.begun)], uint(64-bits.Len(uint(slots-1))); len(c.begun) < slots {
		c.begun = make([]begun, slots)
	}
	c.begun = c.begun[:slots]
	c.nothingBegun()
}

// moreSlots has several times as many, if there may be more.
func (c *beginnings) moreSlots() bool {
	if len(c.begun) == maxSlots {
		return false
	}
	c.makeSlots(min(8*len(c.begun), maxSlots))
	return true
}

// nothingBegun forgets what cells begin with.
func (c *beginnings) nothingBegun() {
	c.uses = 0
	for i := range c.begun {
		c.begun[i] = noneBegun
	}
}
