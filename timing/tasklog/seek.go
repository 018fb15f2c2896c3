package tasklog

import "math/bits"

// begun is the last phrase that began with some bytes, its first word and the mask of that.
type begun struct {
	word, mask uint64
	*phrase
}

// noneBegun stands where none is remembered: no word has its bits.
var noneBegun = begun{word: 1, phrase: &noPhrase}

// readCells finds the phrases of one cell in rows from one on: by what they begin with, and where
// that is not enough by what they are long.
func (p *parser) readCells(c *part, data []byte, at []uint32, i int) (rows int) {
	for found := c.found[:len(at)]; ; i++ {
		switch {
		case c.longer:
			i += c.seekLonger(data, at[i:], found[i:])
		case c.long:
			i += c.seek(data, at[i:], found[i:])
		default:
			i += c.seekShort(data, at[i:], found[i:])
		}
		if i == len(at) {
			return i
		}
		f := c.beside(data, at[i])
		if f == nil {
			some := min(i+manyMeasured, len(at))
			rows = p.readMeasured(c, data, at[:some], i)
			if rows > i {
				f := p.at(c, i)
				c.begins(f, data, at[i]-f.long())
			}
			if rows < some {
				return rows
			}
			i = rows - 1
			continue
		}
		found[i], at[i] = f.id, at[i]+f.long()
	}
}

// manyMeasured is how many rows are found by what they are long where one is not found otherwise: one
// by itself takes longer, and few may be such.
const manyMeasured = 8

// seek finds the phrases of rows of one cell by those bytes of what they begin with that tell apart what was met,
// up to one that is another than the last that has these.
func (c *part) seek(data []byte, at, found []uint32) (rows int) {
	begun, from8, apart8, mixer := c.begun, int(c.from8), c.apart8, c.mixer
	found = found[:len(at)]
	for i, from := range at {
		f := begun[slotOfBegin(wordAt(data, int(from)+from8)&apart8, mixer)].phrase
		if !f.stands(wordsAt(data, int(from))) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// seekShort is seek where none has more than a word.
func (c *part) seekShort(data []byte, at, found []uint32) (rows int) {
	begun, apart, mixer := c.begun, c.apart[0], c.mixer
	found = found[:len(at)]
	for i, from := range at {
		word := wordAt(data, int(from))
		f := &begun[slotOfBegin(word&apart, mixer)]
		if word&f.mask != f.word {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// seekLonger is seek where those bytes are farther from each other than a word is long.
func (c *part) seekLonger(data []byte, at, found []uint32) (rows int) {
	begun, mixer, a0, a1, a2, a3 := c.begun, c.mixer, c.apart[0], c.apart[1], c.apart[2], c.apart[3]
	found = found[:len(at)]
	for i, from := range at {
		w0, w1, w2, w3 := wordsAt(data, int(from))
		f := begun[slotOfBegin(joined(w0&a0, w1&a1, w2&a2, w3&a3), mixer)].phrase
		if !f.stands(w0, w1, w2, w3) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// beside is the phrase of a row that begins as the one that is sought for it; nil where there is none.
func (c *part) beside(data []byte, from uint32) *phrase {
	slot := c.slotOf(data, from)
	if f := c.begun[slot].phrase; f.text != "" && hasPrefix(data[from:], f.text) {
		return f
	}
	f := c.begun[slot^1]
	if !f.stands(wordsAt(data, int(from))) && (f.text == "" || !hasPrefix(data[from:], f.text)) {
		return nil
	}
	c.begun[slot], c.begun[slot^1] = f, c.begun[slot]
	return f.phrase
}

// beginBits are those of so many slots that few names share one, of which few are ever looked at.
const beginBits = 12

// slotOfBegin is where what has some bytes of a word is remembered, or beside it.
func slotOfBegin(some, mixer uint64) uint64 { return some * mixer >> (64 - beginBits) }

// joined is a word for some bytes of four.
func joined(b0, b1, b2, b3 uint64) uint64 { return ((b0*mixer^b1)*mixer^b2)*mixer ^ b3 }

// begins remembers a phrase, which stands at an offset, by what it begins with. Where another has the
// same bytes there, they are told apart by one more.
func (c *part) begins(f *phrase, data []byte, from uint32) {
	if !c.long && f.long() > 8 {
		c.long = true
		c.nothingBegun()
	}
	slot := c.slotOf(data, from)
	first := c.begun[slot].phrase
	if first == f {
		return
	}
	if first != &noPhrase && c.tellApart(first, f) {
		slot = c.slotOf(data, from)
	}
	c.begun[slot], c.begun[slot^1] = begun{f.words[0], f.masks[0], f}, c.begun[slot]
}

// tellApart has two phrases told apart by the first byte that they have not in common, or where they are
// already by other slots for all, since the two have one by chance; false where it cannot. What stands behind
// the shorter tells nothing.
func (c *part) tellApart(f, other *phrase) bool {
	masks := &masksOf[min(f.long(), other.long(), maxMemo)]
	at, first := -1, uint64(0)
	for i := range f.words {
		unlike := (f.words[i] ^ other.words[i]) & masks[i]
		if unlike&c.apart[i] != 0 {
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

// maxMixed is how often phrases get other slots: where there are many some have one in any case.
const maxMixed = 8

// frame finds the word, from any byte on, that has all bytes that tell apart, if one has.
func (c *part) frame() {
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

// slotOf is where the last phrase is remembered that begins as the cell at an offset, and the last but
// one beside it.
func (c *part) slotOf(data []byte, from uint32) uint64 {
	switch {
	case c.longer:
		w0, w1, w2, w3 := wordsAt(data, int(from))
		return slotOfBegin(joined(w0&c.apart[0], w1&c.apart[1], w2&c.apart[2], w3&c.apart[3]), c.mixer)
	case c.long:
		return slotOfBegin(wordAt(data, int(from+c.from8))&c.apart8, c.mixer)
	}
	return slotOfBegin(wordAt(data, int(from))&c.apart[0], c.mixer)
}

// nothingBegun forgets what cells begin with.
func (c *part) nothingBegun() {
	if c.begun == nil {
		c.begun = new([1 << beginBits]begun)
	}
	for i := range c.begun {
		c.begun[i] = noneBegun
	}
}
