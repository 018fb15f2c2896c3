package tasklog

import (
	"encoding/binary"
	"hash/maphash"
)

// recurring is a column whose cells recur from row to row, as names do: each is decoded when it is met, and found again by
// its bytes.
type recurring struct {
	field
	met    []*met    // the cells that were met, the first noneMet; behind them memory that serves again
	some   int       // how many those are
	slots  []metSlot // where each is found by all its bytes: a power of two of them, no more than half in use
	told   []inBatch // of each what it tells, where it is all that its group has
	found  []uint32  // of each row in hand, among those
	last   *met      // that was found; nil before the first
	window window
	rare   int  // how many rows of the chunk had one that was not found by what it begins with
	quoted bool // some that were met are in quotes
	beginnings
}

// met is a cell that was met and what ends it, and what it was found to say.
type met struct {
	words  [4]uint64  // the first bytes, the first the lowest, 0 behind them
	masks  *[4]uint64 // of as many as those are; of none of a cell that has a text, which stands nowhere by them
	size   uint32     // how many; 0 of a cell that has a text
	id     uint32     // its place in the column
	quotes uint32
	text   string // of one of more than maxMemo bytes
	known  bool   // the rest was read
	name   int32
	number float64 // blankFigure where it is blank
	judged bool
	void   string // why a reading does not count
}

// maxMet is behind how many all are forgotten, between stretches: ids have 16 bits at most.
const maxMet = 4096

// unlikeAll is of cells that no words are like.
var unlikeAll = [4]uint64{1}

// noneMet stands where none is remembered.
var noneMet = met{words: unlikeAll, masks: &masksOf[0], known: true, number: blankFigure}

// areWords says whether words are like others.
func areWords(words *[4]uint64, w0, w1, w2, w3 uint64) bool {
	return (words[0]^w0)|(words[1]^w1)|(words[2]^w2)|(words[3]^w3) == 0
}

// stands says whether a cell of words stands where words are read.
func (f *met) stands(w0, w1, w2, w3 uint64) bool {
	masks := f.masks
	return areWords(&f.words, w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3])
}

// bytes are those of the cell, with padding behind them, in memory that serves again.
func (f *met) bytes(into []byte) []byte {
	into = append(into[:0], f.text...)
	if f.size > 0 {
		for _, word := range f.words {
			into = binary.LittleEndian.AppendUint64(into, word)
		}
	}
	return append(into[:f.long()], nothing[:]...)
}

var nothing [padding]byte

// long is how many bytes the cell has.
func (f *met) long() uint32 { return f.size + uint32(len(f.text)) }

// masksOf are the masks of so many bytes.
var masksOf = func() (all [maxMemo + 1][4]uint64) {
	for size := range all {
		for i := range size {
			all[size][i/8] |= 255 << (8 * (i % 8))
		}
	}
	return all
}()

// wordsOf is so many bytes at an offset, 0 behind them.
func wordsOf(data []byte, at, size int) (words [4]uint64) {
	for i, mask := range masksOf[size] {
		words[i] = wordAt(data, at+8*i) & mask
	}
	return words
}

// forget forgets what was met.
func (c *recurring) forget() {
	if c.found == nil {
		c.found = make([]uint32, maxStretch)
		c.met, c.told, c.slots = append(c.met, &noneMet), append(c.told, inBatch{}), make([]metSlot, minSlots)
	}
	c.some = 1
	clear(c.slots)
	c.last, c.window, c.quoted = nil, window{1}, false
	c.beginnings.forget()
}

// isFull says that ids come to an end.
func (c *recurring) isFull() bool { return c.some > maxMet }

// read finds the cells of rows among those that were met, up to one that is no text, or does not end as
// it should.
func (c *recurring) read(s *stretch, data []byte) {
	s.rows = c.find(data, s.at[:s.rows])
	if c.quoted {
		for i, id := range c.found[:s.rows] {
			s.quotes[i] += c.met[id].quotes
		}
	}
}

// find is read. Whether rows go on with the cell above them is seen at once, so that is tried first, and
// more rarely where they do not.
func (c *recurring) find(data []byte, at []uint32) (rows int) {
	found := c.found[:len(at)]
	for i := 0; i < len(at); {
		if c.last != nil {
			alike := c.last.recurs(data, at[i:], found[i:])
			c.window.reach(alike)
			if i += alike; i == len(at) {
				return i
			}
		}
		end := min(i+c.window.rows, len(at))
		if i = c.seekAll(data, at[:end], i); i < end {
			return i
		}
		c.last = c.met[found[end-1]]
	}
	return len(at)
}

// seekAll finds the cells of rows from one on by what they begin with, and where
// that is not enough by all of them.
func (c *recurring) seekAll(data []byte, at []uint32, i int) (rows int) {
	for found := c.found[:len(at)]; ; i++ {
		if i += c.seek(data, at[i:], found[i:]); i == len(at) {
			return i
		}
		f := c.beside(data, at[i])
		if f == nil {
			if f = c.meet(data, int(at[i])); f == nil {
				return i
			}
			c.begins(f, data, at[i])
		}
		found[i], at[i] = f.id, at[i]+f.long()
	}
}

// metSlot has the place of a cell, 0 where there is none, and its hash.
type metSlot struct{ hash, id uint32 }

// meet finds a cell by all its bytes, or remembers it from there on; nil where it is in quotes that are
// wrong or holds what is no text.
func (c *recurring) meet(data []byte, at int) *met {
	_, behind := c.cell(data, at)
	if behind == 0 {
		return nil
	}
	text := data[at:behind]
	words := wordsOf(data, at, min(len(text), maxMemo))
	slot, hash := c.slotFor(words, text)
	c.rare++
	if slot.id > 0 {
		return c.met[slot.id]
	}
	if !isText(text) {
		return nil
	}
	if c.some == len(c.met) {
		c.met, c.told = append(c.met, new(met)), append(c.told, inBatch{})
	}
	f := c.met[c.some]
	if *f = (met{id: uint32(c.some), words: words, masks: &masksOf[0]}); len(text) > maxMemo {
		f.text = string(text)
	} else {
		f.size, f.masks = uint32(len(text)), &masksOf[len(text)]
	}
	if text[0] == '"' {
		f.quotes, c.quoted = uint32(countQuotes(text)), true
	}
	*slot, c.told[c.some] = metSlot{hash, f.id}, inBatch{}
	if c.some++; 2*c.some > len(c.slots) {
		c.grow()
	}
	return f
}

// slotFor is where a cell is found, or would be, given its first bytes too.
func (c *recurring) slotFor(words [4]uint64, text []byte) (slot *metSlot, hash uint32) {
	hash = uint32(maphash.Bytes(nameSeed, text))
	for i := int(hash); ; i++ {
		slot = &c.slots[i&(len(c.slots)-1)]
		if slot.id == 0 {
			return slot, hash
		}
		if f := c.met[slot.id]; slot.hash == hash && f.words == words && (len(text) <= maxMemo || f.text == string(text)) {
			return slot, hash
		}
	}
}

// grow makes room for twice as many.
func (c *recurring) grow() {
	before := c.slots
	c.slots = make([]metSlot, 2*len(before))
	for _, s := range before {
		if s.id == 0 {
			continue
		}
		i := int(s.hash)
		for c.slots[i&(len(c.slots)-1)].id > 0 {
			i++
		}
		c.slots[i&(len(c.slots)-1)] = s
	}
}

// recurs says how many rows go on with the cell, and takes it in.
func (f *met) recurs(data []byte, at, found []uint32) (rows int) {
	found = found[:len(at)]
	if f.size == 0 {
		for i, from := range at {
			if !hasPrefix(data[from:], f.text) {
				return i
			}
			found[i], at[i] = f.id, from+uint32(len(f.text))
		}
		return len(at)
	}
	if f.size <= 8 {
		word, mask := f.words[0], f.masks[0]
		for i, from := range at {
			if wordAt(data, int(from))&mask != word {
				return i
			}
			found[i], at[i] = f.id, from+f.size
		}
		return len(at)
	}
	for i, from := range at {
		if !f.stands(wordsAt(data, int(from))) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

func hasPrefix(data []byte, text string) bool {
	return len(data) >= len(text) && string(data[:len(text)]) == text
}

// window is how many rows are sought before it is tried whether others go on with the last of them.
type window struct{ rows int }

// reach has it be the more, the fewer rows did. Half a dozen that did save more than a trial costs.
func (w *window) reach(alike int) {
	if alike > min(2*w.rows, 6) {
		w.rows /= 2
	} else {
		w.rows *= 2
	}
	w.rows = min(max(w.rows, 1), maxStretch)
}

// inBatch is the index of what the cells of a group tell, in batches since a chunk.
type inBatch struct{ index, since uint32 }
