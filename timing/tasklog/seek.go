package tasklog

import "math/bits"

// begun is the last phrase that began with some bytes, its first word and the mask of that.
type begun struct {
	word, mask uint64
	*phrase
}

// noneBegun stands where none is remembered: no word has its bits.
var noneBegun = begun{word: 1, phrase: &noPhrase}

// readCells finds the phrases of one cell in rows from one on: by what they begin with, up to a
// row where that is not enough.
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

// seek finds the phrases of rows of one cell by those bytes of what they begin with that tell
// apart what was met, up to one that is another than the last that has these.
func (c *part) seek(data []byte, at, found []uint32) (rows int) {
	begun, apart := c.begun, c.apart[0]
	found = found[:len(at)]
	for i, from := range at {
		w0, w1, w2, w3 := wordsAt(data, int(from))
		f := begun[slotOfBegin(w0&apart)].phrase
		if !f.stands(w0, w1, w2, w3) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// seekShort is seek where none has more than a word.
func (c *part) seekShort(data []byte, at, found []uint32) (rows int) {
	begun, apart := c.begun, c.apart[0]
	found = found[:len(at)]
	for i, from := range at {
		word := wordAt(data, int(from))
		f := &begun[slotOfBegin(word&apart)]
		if word&f.mask != f.word {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// seekLonger is seek where more than the first word tells apart. It stands apart, since further words
// cost what most columns, whose names differ in the first, would pay too.
func (c *part) seekLonger(data []byte, at, found []uint32) (rows int) {
	begun, a0, a1, a2, a3 := c.begun, c.apart[0], c.apart[1], c.apart[2], c.apart[3]
	found = found[:len(at)]
	for i, from := range at {
		w0, w1, w2, w3 := wordsAt(data, int(from))
		f := begun[slotOfLonger(w0&a0, w1&a1, w2&a2, w3&a3)].phrase
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

// slotOfBegin is where what begins with a word, or with some bytes of one, is remembered, or beside it.
func slotOfBegin(begin uint64) uint64 { return begin * mixer >> (64 - beginBits) }

// slotOfLonger is likewise where what begins with some bytes of four words is.
func slotOfLonger(b0, b1, b2, b3 uint64) uint64 {
	return slotOfBegin(((b0*mixer^b1)*mixer^b2)*mixer ^ b3)
}

// begins remembers a phrase, which stands at an offset, by what it begins with. Where another has the
// same bytes there, they are told apart by one more.
func (c *part) begins(f *phrase, data []byte, from uint32) {
	c.long = c.long || f.long() > 8
	slot := c.slotOf(data, from)
	first, second := c.begun[slot], c.begun[slot^1]
	if first.phrase == f {
		return
	}
	if first.phrase != &noPhrase {
		c.tellApart(first.phrase, f, second.words[0] == f.words[0])
		slot = c.slotOf(data, from)
	}
	c.begun[slot], c.begun[slot^1] = begun{f.words[0], f.masks[0], f}, c.begun[slot]
}

// tellApart has two phrases told apart by the first byte that they have not in common, unless they are
// already. Where they have the first word in common that is only for a third with it.
func (c *part) tellApart(f, other *phrase, isThird bool) {
	at := -1
	for i := range f.words {
		unlike := f.words[i] ^ other.words[i]
		if unlike&c.apart[i] != 0 {
			return
		}
		if unlike != 0 && at < 0 {
			at = i
		}
	}
	if at < 0 || at > 0 && !c.longer && !isThird {
		return
	}
	c.apart[at] |= 255 << (bits.TrailingZeros64(f.words[at]^other.words[at]) &^ 7)
	c.longer = c.longer || at > 0
	c.nothingBegun()
}

// slotOf is where the last phrase is remembered that begins as the cell at an offset, and the last but
// one beside it.
func (c *part) slotOf(data []byte, from uint32) uint64 {
	w0, w1, w2, w3 := wordsAt(data, int(from))
	if !c.longer {
		return slotOfBegin(w0 & c.apart[0])
	}
	return slotOfLonger(w0&c.apart[0], w1&c.apart[1], w2&c.apart[2], w3&c.apart[3])
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
