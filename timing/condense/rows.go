package condense

import (
	"slices"

	"headhours/timing/study"
)

// Where is in what readings of a batch were taken. Its names are indices into its batch's.
type Where struct{ Grow, Workflow int32 }

// What is what was done in readings of a batch, and by whom. Its names are indices into its
// batch's.
type What struct {
	Step, Worker int32
	Voided       bool
}

// How is how it was done, and how its time was found.
type How struct {
	Judged    bool
	HasSetups bool    // it says how often the step was set up
	Setups    float64 // where it does
	People    float64
	Rating    float64 // percent of normal pace
}

// Basic is the basic person-seconds of net seconds, see Reading.Basic.
func (h *How) Basic(seconds float64) float64 { return study.Basic(seconds, h.People, h.Rating) }

// Brief is what a fit needs of a reading.
type Brief struct {
	Where   uint32 // the index of its batch's
	What    uint32 // likewise
	How     uint32
	Row     uint32 // its line, counted from its batch's
	Day     Day    // NoDay where not noted
	Count   float64
	Seconds float64 // net time
}

// Rows are Briefs by column, each of as many: most of what is done with them needs but some.
type Rows struct {
	Where, What, How, Row []uint32
	Day                   []Day
	Count, Seconds        []float64
}

// Len is how many there are.
func (r *Rows) Len() int { return len(r.Row) }

// At is one of them.
func (r *Rows) At(i int) Brief {
	return Brief{r.Where[i], r.What[i], r.How[i], r.Row[i], r.Day[i], r.Count[i], r.Seconds[i]}
}

// Add adds one.
func (r *Rows) Add(b Brief) {
	r.SetLen(r.Len() + 1)
	r.set(r.Len()-1, b)
}

func (r *Rows) set(i int, b Brief) {
	r.Where[i], r.What[i], r.How[i], r.Row[i], r.Day[i], r.Count[i], r.Seconds[i] = b.Where, b.What, b.How, b.Row, b.Day, b.Count, b.Seconds
}

// SetLen has so many of them, of which those beyond the last are to be set.
func (r *Rows) SetLen(n int) {
	setLen(&r.Where, n)
	setLen(&r.What, n)
	setLen(&r.How, n)
	setLen(&r.Row, n)
	setLen(&r.Day, n)
	setLen(&r.Count, n)
	setLen(&r.Seconds, n)
}

func setLen[T any](column *[]T, n int) {
	if n > cap(*column) {
		*column = slices.Grow(*column, n-len(*column))
	}
	*column = (*column)[:n]
}

// What a reading names: the indices of a batch's Names.
const (
	StepNames = iota
	WorkflowNames
	GrowNames
	WorkerNames
	naming // how many kinds there are
)

// HowOf is how what a reading tells of was done.
func HowOf(r *study.Reading) How {
	return How{
		Judged: r.Source == study.ByJudgement, HasSetups: r.Setups.Known, Setups: r.Setups.Value,
		People: r.People, Rating: r.Rating,
	}
}
