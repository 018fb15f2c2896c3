package tasklog

import (
	"encoding/binary"

	"headhours/timing/condense"
)

// phrase is the cells of a run and what ends them, and what they were found to say.
type phrase struct {
	words   [4]uint64  // the first bytes, the first the lowest, 0 behind them
	masks   *[4]uint64 // of as many as those are; of none of a phrase that has a text, which stands nowhere by them
	size    uint32     // how many; 0 of a phrase that has a text
	id      uint32     // its place among the parser's
	quotes  uint32     // of its cells
	bare    bool       // its cells end with separators, without quotes
	known   bool       // the content was read
	text    string     // of one of more than maxMemo bytes
	content content
}

// remembered is a phrase where it is looked for by its words.
type remembered struct {
	words [4]uint64
	id    uint32 // 0 where there is none
}

// phrases are those that a parser met, of all its parts. Their places tell them apart in what is
// worked out for all rows; the first is noPhrase's.
type phrases struct {
	list []*phrase // behind those that were met, memory that serves again
	met  int
	told []inBatch // of each what it tells, where it is all that its group has
}

// maxPhrases is behind how many all are forgotten, between stretches: ids have 16 bits at most.
const maxPhrases = 4096

// add adds a phrase.
func (a *phrases) add(f phrase) *phrase {
	if a.met == len(a.list) {
		a.list, a.told = append(a.list, new(phrase)), append(a.told, inBatch{})
	}
	f.id = uint32(a.met)
	into := a.list[a.met]
	*into, a.told[a.met] = f, inBatch{}
	a.met++
	return into
}

// forget forgets them.
func (a *phrases) forget() {
	if a.met = 0; len(a.list) > 0 {
		a.met = 1
		return
	}
	a.add(noPhrase)
}

const (
	slotBits = 10
	slots    = 1 << slotBits
)

// unlikeAll is of phrases that no words are like.
var unlikeAll = [4]uint64{1}

// noPhrase stands where none is remembered.
var noPhrase = phrase{words: unlikeAll, masks: &masksOf[0]}

// slotOf is where the phrase with some words is remembered, or in one of seven beside it, else
// those that share one would go in turns.
func slotOf(w0, w1, w2, w3 uint64) uint64 {
	return mixed(w0^w2, w1^w3) >> (64 - slotBits)
}

// areWords says whether words are like others.
func areWords(words *[4]uint64, w0, w1, w2, w3 uint64) bool {
	return (words[0]^w0)|(words[1]^w1)|(words[2]^w2)|(words[3]^w3) == 0
}

// stands says whether a phrase of words stands where words are read.
func (f *phrase) stands(w0, w1, w2, w3 uint64) bool {
	masks := f.masks
	return areWords(&f.words, w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3])
}

// bytes are those of the phrase.
func (f *phrase) bytes() []byte {
	if f.size == 0 {
		return []byte(f.text)
	}
	text := make([]byte, 0, maxMemo)
	for _, word := range f.words {
		text = binary.LittleEndian.AppendUint64(text, word)
	}
	return text[:f.size]
}

// ends has a bit for each byte of a phrase of words that is like one, the first the lowest.
func (f *phrase) ends(like uint64) uint32 {
	w := &f.words
	others := unlike(w[0], like) | unlike(w[1], like)<<8 | unlike(w[2], like)<<16 | unlike(w[3], like)<<24
	return ^others
}

// long is how many bytes the phrase has.
func (f *phrase) long() uint32 { return f.size + uint32(len(f.text)) }

// content is what the cells of a run say.
type content struct {
	names [nameKinds]int32
	how   condense.How
}

// blankRun is what blank cells say.
var blankRun = content{how: blankHow}

var blankHow = condense.How{People: blankPeople, Rating: blankRating}

// masksOf are the masks of so many bytes.
var masksOf = func() (all [maxMemo + 1][4]uint64) {
	for size := range all {
		for i := range size {
			all[size][i/8] |= 255 << (8 * (i % 8))
		}
	}
	return all
}()

// What the names of a batch are of: see condense.StepNames and those after it.
const nameKinds = condense.WorkerNames + 1

// inBatch is the index of what the runs of a group tell, in batches since a chunk.
type inBatch struct{ index, since uint32 }
