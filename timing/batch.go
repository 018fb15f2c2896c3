package timing

import (
	"math"
	"slices"
	"time"
)

// Batch is readings of one file, in order, in as much as a fit needs of them.
type Batch struct {
	File   string
	Sheet  string           // of a workbook; "" in other files
	Line   int              // each row's Row is counted from it
	Column int              // where readings stand in their line; 0 for the line as a whole
	Names  [naming][]string // what rows name, of each kind; the first is ""
	Table  *Table           // of the names; nil of those of this batch alone
	Rows   []Brief
	Voids  []string // why rows that are voided do not count, in their order
}

// Table tells which batches have names in common: a later batch of the same table has
// the names of an earlier one, and may have more.
type Table struct{ _ byte }

// What a reading names: the indices of a batch's Names.
const (
	StepNames = iota
	WorkflowNames
	GrowNames
	WorkerNames
	naming // how many kinds there are
)

// Brief is what a fit needs of a reading. Its names are indices into its batch's.
type Brief struct {
	Named   [naming]int32
	Row     uint32  // its line, counted from its batch's
	Day     Day     // NoDay where not noted
	Rating  float32 // percent of normal pace
	Flags   Flags
	Setups  float64 // how often the step was set up, where HasSetups
	Count   float64
	Seconds float64 // net time
	Basic   float64 // person-seconds, see Reading.Basic
}

// Flags are what holds of a reading or does not.
type Flags uint32

// The flags of a Brief.
const (
	HasSetups Flags = 1 << iota // the reading says how often the step was set up
	IsVoided
	IsJudged
	HasClock // its start and end are noted
)

// Day counts days from 1970-01-01.
type Day int32

// NoDay is the Day of a reading whose date was not noted.
const NoDay Day = math.MinInt32

const secondsADay = 24 * 3600

// DayOf is the day of a date at midnight UTC, NoDay of the zero time.
func DayOf(date time.Time) Day {
	if date.IsZero() {
		return NoDay
	}
	return Day(date.Unix() / secondsADay)
}

// Date is midnight UTC of the day, the zero time of NoDay.
func (d Day) Date() time.Time {
	if d == NoDay {
		return time.Time{}
	}
	return time.Unix(int64(d)*secondsADay, 0).UTC()
}

// Place is where a row of the batch stands.
func (b *Batch) Place(r *Brief) Place {
	return Place{File: b.File, Sheet: b.Sheet, Line: b.Line + int(r.Row), Column: b.Column}
}

// Name is what a row names, of the kind StepNames, WorkflowNames, GrowNames or
// WorkerNames; "" where it names none.
func (b *Batch) Name(r *Brief, kind int) string { return b.Names[kind][r.Named[kind]] }

// BriefOf is a reading but for its names and its line.
func BriefOf(r *Reading) Brief {
	b := Brief{
		Day: DayOf(r.Date), Rating: float32(r.Rating),
		Count: r.Count, Seconds: r.Seconds, Basic: r.Basic(),
	}
	if r.Setups.Known {
		b.Flags |= HasSetups
		b.Setups = r.Setups.Value
	}
	if !r.Counts() {
		b.Flags |= IsVoided
	}
	if r.Source == FromMemory {
		b.Flags |= IsJudged
	}
	if _, noted := r.Named(); noted {
		b.Flags |= HasClock
	}
	return b
}

// Readings hands readings over, a batch at a time and in order, as often as it is
// called. A batch is good only until the next. The error is that of reading them, or
// the first that take returns.
type Readings func(take func(*Batch) error) error

// InMemory is readings that are at hand.
func InMemory(readings []Reading) Readings {
	return func(take func(*Batch) error) error {
		for some := range batches(readings) {
			if err := take(batchOf(some)); err != nil {
				return err
			}
		}
		return nil
	}
}

// batches cuts readings where another file or sheet begins.
func batches(readings []Reading) func(yield func([]Reading) bool) {
	return func(yield func([]Reading) bool) {
		for len(readings) > 0 {
			first := readings[0].Place
			n := slices.IndexFunc(readings, func(r Reading) bool {
				return r.Place.File != first.File || r.Place.Sheet != first.Sheet || r.Place.Column != first.Column
			})
			if n < 0 {
				n = len(readings)
			}
			if !yield(readings[:n]) {
				return
			}
			readings = readings[n:]
		}
	}
}

// batchOf is a batch of readings of one file.
func batchOf(readings []Reading) *Batch {
	at := readings[0].Place
	b := &Batch{File: at.File, Sheet: at.Sheet, Column: at.Column, Rows: make([]Brief, len(readings))}
	var index [naming]map[string]int32
	for kind := range index {
		b.Names[kind], index[kind] = []string{""}, map[string]int32{"": 0}
	}
	for i := range readings {
		r := &readings[i]
		row := BriefOf(r)
		row.Row = uint32(r.Place.Line)
		for kind, name := range [naming]string{r.Step, r.Workflow, r.Grow, r.Worker} {
			at, met := index[kind][name]
			if !met {
				at = int32(len(b.Names[kind]))
				index[kind][name] = at
				b.Names[kind] = append(b.Names[kind], name)
			}
			row.Named[kind] = at
		}
		if !r.Counts() {
			b.Voids = append(b.Voids, r.Void)
		}
		b.Rows[i] = row
	}
	return b
}
