package tasklog

import (
	"bytes"
	"encoding/binary"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// meet reads a run that was not met lately, and remembers what it says in its slot where
// it is of no more than longest bytes; the phrase is not plain where a cell of it is not,
// or wrong.
func (p *parser) meet(data []byte, at int, c *part, slot uint64, size int) *phrase {
	p.said = nothing
	long := p.meetCells(data, at, c, &p.said)
	if long == 0 {
		return &unlike
	}
	p.ids++
	f := phrase{size: size, long: long, id: p.ids}
	if size == 0 {
		f.says = new(says)
		*f.says = p.said
		return &f
	}
	for i, mask := range masksOf[size] {
		f.words[i] = binary.LittleEndian.Uint64(data[at+8*i:]) & mask
	}
	if c.met[slot].size > 0 && c.met[slot^1].size == 0 {
		slot ^= 1
	}
	met := &c.met[slot]
	if f.says = met.says; f.says == nil {
		f.says = new(says)
	}
	*f.says = p.said
	*met = f
	return met
}

// meetCells reads the cells of a run, which must stand in one line; what they hold has no
// quotes and no separators. It says how long they are, 0 where one is not plain.
func (p *parser) meetCells(data []byte, at int, c *part, said *says) (long int) {
	from := at
	// no field is looked for beyond its line, or lines of nothing but blanks would all be
	// looked through for each of them
	data = data[:at+bytes.IndexByte(data[at:], '\n')+1]
	for i, is := range c.fields {
		end := p.careful.separator
		if i == len(c.fields)-1 {
			end = c.end
		}
		size := bytes.IndexByte(data[at:], end)
		if size < 0 {
			return 0
		}
		cell := data[at : at+size]
		if end == '\n' {
			cell = bytes.TrimSuffix(cell, []byte{'\r'})
		}
		if len(cell) > 1 && cell[0] == '"' && cell[len(cell)-1] == '"' {
			cell = cell[1 : len(cell)-1]
		}
		if !isBare(cell, p.careful.separator) || !p.meetCell(cell, is, said) {
			return 0
		}
		at += size + 1
	}
	return at - from
}

// isBare says whether a cell is without quotes, separators, line ends and NUL.
func isBare(cell []byte, separator byte) bool {
	for _, b := range cell {
		if b == '"' || b == '\n' || b == '\r' || b == 0 || b == separator {
			return false
		}
	}
	return true
}

// meetCell reads one cell of a run.
func (p *parser) meetCell(text []byte, is column, said *says) bool {
	switch kind, isName := nameKind(is); {
	case isName:
		last, list := &p.last[kind], p.lists[kind]
		if string(text) == list[*last] {
			said.names[kind] = *last
			break
		}
		if next := *last + 1; int(next) < len(list) && string(text) == list[next] { // as they came before
			said.names[kind], *last = next, next
			break
		}
		at, met := p.names[kind][string(text)]
		if !met {
			name := string(text)
			ours, ok := p.careful.ours(is, strings.TrimSpace(name))
			switch {
			case !ok:
				return false
			case ours != name:
				at = p.index(ours, kind)
				p.names[kind][name] = at
			default:
				at = p.add(name, kind)
			}
		}
		said.names[kind], *last = at, at
	case is == dateColumn && len(text) > 0:
		if string(text) != p.date {
			day, ok := p.careful.form.day(string(text))
			if !ok {
				return false
			}
			p.date, p.day = string(text), condense.DayOf(day)
		}
		said.day = p.day
	case is == sourceColumn && string(text) == string(study.ByJudgement):
		said.flags |= condense.IsJudged
	case is == sourceColumn:
		return len(text) == 0 || string(text) == string(study.Watch) || string(text) == string(study.Film)
	case len(text) > 0: // setups, people or a rating
		return said.number(string(text), is, p.comma)
	}
	return true
}

// number reads setups, people or a rating.
func (s *says) number(text string, is column, comma bool) bool {
	x, err := parseNumber(text, comma)
	switch is {
	case setupsColumn:
		s.setups = x
		s.flags |= condense.HasSetups
		return err == nil && sane(x)
	case peopleColumn:
		s.people = x
	case ratingColumn:
		s.rating = x
	}
	return err == nil && x > 0 && sane(x)
}
