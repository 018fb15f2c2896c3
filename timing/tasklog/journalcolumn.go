package tasklog

import (
	"headhours/timing/condense"
	"headhours/timing/study"
)

// journalsColumn is a column of the journals that readings were exported from, with their numbers: each is another.
type journalsColumn struct {
	field
	from, to [maxStretch]uint32 // where the cell of each row in hand is; alike where it is blank
}

// read goes behind the cells of rows, up to one that is no text, or does not end as it should.
func (c *journalsColumn) read(s *stretch, data []byte) {
	for i, from := range s.at[:s.rows] {
		at := int(from)
		raw, behind := data[at:at], c.past(data, at)
		if behind == 0 {
			if raw, behind = c.cell(data, at); behind == 0 || !isText(raw) {
				s.rows = i
				return
			}
			s.passed(i, raw)
		}
		c.from[i], c.to[i], s.at[i] = from, from+uint32(len(raw)), uint32(behind)
	}
}

// hold takes note of the rows that were taken in, behind those above in the batch, which name a journal.
func (p *parser) hold(data []byte, above int) {
	b := &p.parsed.batch
	for i := range b.Rows.Len() - above {
		raw := data[p.journals.from[i]:p.journals.to[i]]
		if len(raw) == 0 {
			continue
		}
		journal := tidied(cellText(string(raw)))
		if journal == "" {
			continue
		}
		row := b.Rows.At(above + i)
		what, how := p.whats[row.What], p.hows[row.How]
		p.parsed.found.Held = append(p.parsed.found.Held, Held{
			journal, study.Place{File: p.file, Line: int(row.Row) + 1, Column: 1},
			Figures{
				p.names[condense.StepNames].list[what.Step], row.Seconds, row.Count, how.People, how.Rating,
				study.Maybe{Known: how.HasSetups, Value: how.Setups}, what.Voided,
			},
		})
	}
}
