package tasklog

import (
	"headhours/timing/condense"
	"headhours/timing/study"
)

// Found is what a log was found to hold, beside its readings' figures.
type Found struct {
	Readings  int // voided ones too
	Clocks    int // of them, those whose date, start and end are noted
	Held      []Held
	Unused    []string        // the names of columns that are kept and not used
	Counted   string          // the heading of the counts
	Mapped    []string        // the headings that the dialect names, as the log has them
	Unordered bool            // a date was met whose order of day and month is not known: see OrderOfDates
	Warnings  study.Problems  // what was read but may have been meant otherwise
	Only      *condense.Batch // all readings of a short log, to be used again; nil of others
	Bare      *Bare           // what the times of a workbook look like; nil of other logs, see BareTimes
}

// Held is a reading that names the journal and number it was exported from.
type Held struct {
	Journal string
	Place   study.Place
	Figures Figures
}

// Figures are what answers take of a reading, beside its names.
type Figures struct {
	Step                           string
	Seconds, Count, People, Rating float64
	Setups                         study.Maybe
	Voided                         bool
}

// FiguresOf are those of a reading.
func FiguresOf(r *study.Reading) Figures {
	return Figures{r.Step, r.Seconds, r.Count, r.People, r.Rating, r.Setups, !r.Counts()}
}

// note takes note of what a reading says beside its figures.
func (f *Found) note(r *study.Reading) {
	if _, noted := r.Named(); noted {
		f.Clocks++
	}
	if r.Journal != "" {
		f.Held = append(f.Held, Held{r.Journal, r.Place, FiguresOf(r)})
	}
}
