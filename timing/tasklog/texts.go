package tasklog

import (
	"bytes"
	"math/bits"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// meet finds the phrase of a run that is not in its words' first slots, or remembers it there, or by
// its text where that is long or has a separator in quotes; nil where a cell of it is in
// quotes that are wrong or holds what is no text. What it says is read when it is asked for.
func (p *parser) meet(data []byte, at int, c *part, size int) *phrase {
	long, bare := size, true
	if text := data[at : at+size]; size == 0 || c.end == '\n' || bytes.IndexByte(text, '"') >= 0 || bytes.IndexByte(text, '\n') >= 0 {
		bare = false
		if long = p.extent(data, at, c); long == 0 {
			return nil
		}
	}
	text := data[at : at+long]
	if !isText(text) {
		return nil
	}
	quoted := 0
	if !bare {
		quoted = countQuotes(text)
		c.quoted = c.quoted || quoted > 0
	}
	if size != long {
		c.rare++
		if f := c.texts[string(text)]; f != nil {
			return f
		}
		if c.texts == nil {
			c.texts = map[string]*phrase{}
		}
		f := phrase{words: wordsOf(data, at, min(long, maxMemo)), masks: &masksOf[0], quotes: uint32(quoted)}
		if long > maxMemo {
			f.text = string(text)
		} else {
			f.size, f.masks = uint32(long), &masksOf[long]
		}
		kept := p.phrases.add(f)
		c.texts[string(text)] = kept
		return kept
	}
	words := wordsOf(data, at, size)
	place := c.place(words)
	if place.id > 0 && place.words == words {
		return p.phrases.list[place.id]
	}
	c.rare++
	f := p.phrases.add(phrase{words: words, size: uint32(size), masks: &masksOf[size], quotes: uint32(quoted), bare: bare})
	*place = remembered{words, f.id}
	return f
}

// wordsOf is so many bytes at an offset, 0 behind them.
func wordsOf(data []byte, at, size int) (words [4]uint64) {
	for i, mask := range masksOf[size] {
		words[i] = wordAt(data, at+8*i) & mask
	}
	return words
}

// place is where the phrase with some words is remembered, or is to be: where nothing is, or what has
// been for longest. It is brought to the front, where it is looked for first.
func (c *part) place(words [4]uint64) (front *remembered) {
	slot := slotOf(words[0], words[1], words[2], words[3])
	var place *remembered
	for beside := range uint64(8) { // see slotOf
		f := &c.memo[slot^beside]
		if f.words == words || f.id == 0 {
			place = f
			break
		}
		if place == nil || f.id < place.id {
			place = f
		}
	}
	front, second := &c.memo[slot], &c.memo[slot^1]
	*front, *place = *place, *front
	if place != front && place != second { // what was in front stays near
		*second, *place = *place, *second
	}
	return front
}

// extent is how long the cells of a run are with what ends them, 0 where one is in quotes
// that are wrong.
func (p *parser) extent(data []byte, at int, c *part) int {
	from := at
	for i := range c.fields {
		if _, at = p.cellAt(data[:len(data)-padding], at, i == len(c.fields)-1 && c.end == '\n'); at == 0 {
			return 0
		}
	}
	return at - from
}

// know reads what a phrase of a run says, if that was not read before; false where a cell of
// it is wrong.
func (p *parser) know(c *part, f *phrase) bool {
	if f.known {
		return true
	}
	f.content = blankRun
	text, at := f.bytes(), 0
	ends := f.ends(c.ends)
	for i, is := range c.fields {
		var raw []byte
		behind := bits.TrailingZeros32(ends) + 1
		if f.bare {
			raw = text[at : behind-1]
			ends &= ends - 1
		} else {
			raw, behind = p.cellAt(text, at, i == len(c.fields)-1 && c.end == '\n')
		}
		if !p.isAsMet(is, raw, &f.content) && !p.saying(is, tidied(cellText(string(raw))), &f.content) {
			return false
		}
		at = behind
	}
	f.known = true
	return true
}

// cellAt is the cell at an offset, and what stands behind what ends it, 0 where that is not
// the end of its field.
func (p *parser) cellAt(data []byte, at int, isLast bool) (raw []byte, behind int) {
	end, wrong := cellEnd(data, at, p.separator)
	if wrong != "" {
		return nil, 0
	}
	raw = data[at:end]
	switch {
	case data[end] == p.separator && !isLast:
		return raw, end + 1
	case data[end] == '\r' && isLast: // behind a quote
		return raw, end + 2
	case data[end] == '\n' && isLast:
		return bytes.TrimSuffix(raw, []byte{'\r'}), end + 1
	}
	return nil, 0
}

// isAsMet takes in what a cell says that was met in just these bytes, if it was. Grows are
// called what the log calls them, nearly all, and come again in the order in which they came
// as a rule. A name is the study's where a log has it exactly, so what is one stands for itself.
func (p *parser) isAsMet(c column, raw []byte, into *content) (ok bool) {
	kind, isName := nameKind(c)
	switch {
	case c == growColumn:
		grows := p.names[kind].list
		for next := p.grow; next < min(p.grow+2, len(grows)); next++ {
			if string(raw) == grows[next] {
				p.grow, into.names[kind] = next, int32(next)
				return true
			}
		}
		if into.names[kind], ok = p.names[kind].find(raw); !ok {
			into.names[kind], ok = p.byText[kind][string(raw)] // the study calls it otherwise
		}
		if ok {
			p.grow = int(into.names[kind])
		}
	case isName:
		met := &p.met[kind]
		if string(raw) != met.text {
			index, known := p.byText[kind][string(raw)]
			if !known {
				return false
			}
			*met = metName{string(raw), index}
		}
		into.names[kind], ok = met.index, true
	}
	return ok
}

// saying takes in what a text in a column says; false where it is wrong.
func (p *parser) saying(c column, text string, into *content) bool {
	if text == "" {
		return true
	}
	var err error
	switch kind, isName := nameKind(c); {
	case c == growColumn:
		ours := p.dialect.OurGrow(text)
		if into.names[kind] = p.names[kind].of(ours); ours != text {
			p.byText[kind][text] = into.names[kind]
		}
	case isName:
		var ours string
		if ours, err = p.standsFor(c, text); err == nil {
			into.names[kind] = p.names[kind].of(ours)
			p.byText[kind][text] = into.names[kind]
		}
	case c == sourceColumn:
		var source study.Source
		if source, err = p.sourceNamed(text); source == study.ByJudgement {
			into.how.Judged = true
		}
	case c == setupsColumn:
		into.how.HasSetups = true
		into.how.Setups, err = p.numberIn(text)
	case c == peopleColumn:
		into.how.People, err = p.above0(text)
	case c == ratingColumn:
		into.how.Rating, err = p.above0(text)
	}
	return err == nil
}

// nameKind is of what kind a column's names are.
func nameKind(is column) (kind int, ok bool) {
	switch is {
	case stepColumn:
		return condense.StepNames, true
	case workflowColumn:
		return condense.WorkflowNames, true
	case growColumn:
		return condense.GrowNames, true
	case workerColumn:
		return condense.WorkerNames, true
	}
	return 0, false
}
