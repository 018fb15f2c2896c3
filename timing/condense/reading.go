package condense

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// LoadOf is that of a reading of the step of a count: with the setups that it names, else as
// many as its count called for.
func LoadOf(s *study.Step, how *How, count float64) stepfit.Load {
	if how.HasSetups {
		return stepfit.Load{Setups: how.Setups, Count: count}
	}
	return s.LoadFor(count)
}

// Timed is a reading as a fit takes it, and where it stands.
type Timed struct {
	From *Origin
	Line int
	stepfit.Reading
}

// Place is where it stands.
func (t *Timed) Place() study.Place { return t.From.place(t.Line) }

// Origin is where readings stand, but for their lines.
type Origin struct {
	File   string
	Sheet  string // of a workbook; "" in other files
	Column int    // in their lines; 0 for the line as a whole
}

// place is that of a line.
func (s *Origin) place(line int) study.Place {
	return study.Place{File: s.File, Sheet: s.Sheet, Line: line, Column: s.Column}
}
