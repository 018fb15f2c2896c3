package condense

import (
	"math"
	"slices"
	"time"

	"headhours/timing/study"
)

// Batch is readings of one file, in order, in as much as a fit needs of them.
type Batch struct {
	From  *Origin
	Line  int              // each row's Row is counted from it
	Names [naming][]string // what rows name, of each kind; the first is ""
	Table *NameTable       // of the names; nil of those of this batch alone
	Where []Where          // what rows have in common, in order of first appearance
	What  []What           // likewise; either may hold the same twice
	Rows  []Brief
	Voids []string // why rows that are voided do not count, in their order

	Digest *digest // what it comes to, for one Gathering
}

// Origin is where readings stand, but for their lines.
type Origin struct {
	File   string
	Sheet  string // of a workbook; "" in other files
	Column int    // in their lines; 0 for the line as a whole
}

// Place is that of a line.
func (s *Origin) Place(line int) study.Place {
	return study.Place{File: s.File, Sheet: s.Sheet, Line: line, Column: s.Column}
}

// NameTable tells which batches have names in common: a later batch of the same table has
// the names of an earlier one, and may have more.
type NameTable struct{ _ byte }

// What a reading names: the indices of a batch's Names.
const (
	StepNames = iota
	WorkflowNames
	GrowNames
	WorkerNames
	naming // how many kinds there are
)

// Where is in what readings of a batch were taken. Its names are indices into its batch's.
type Where struct {
	Grow, Workflow int32
	Day            Day // NoDay where not noted
}

// What is what was done in readings of a batch, by whom and how. Its names are indices
// into its batch's.
type What struct {
	Step, Worker int32
	Flags        Flags
	Setups       float64 // how often the step was set up, where HasSetups
	People       float64
	Rating       float64 // percent of normal pace
}

// Basic is the basic person-seconds of net seconds, see Reading.Basic.
func (w *What) Basic(seconds float64) float64 { return study.Basic(seconds, w.People, w.Rating) }

// Brief is what a fit needs of a reading.
type Brief struct {
	Where   uint32 // the index of its batch's
	What    uint32 // likewise
	Row     uint32 // its line, counted from its batch's
	Count   float64
	Seconds float64 // net time
}

// Flags are what holds of a reading or does not.
type Flags uint32

// The flags of readings.
const (
	HasSetups Flags = 1 << iota // the reading says how often the step was set up
	IsVoided
	IsJudged
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
func (b *Batch) Place(r *Brief) study.Place {
	return b.From.Place(b.Line + int(r.Row))
}

// Name is what a row names, of the kind StepNames, WorkflowNames, GrowNames or
// WorkerNames; "" where it names none.
func (b *Batch) Name(r *Brief, kind int) string {
	where, what := &b.Where[r.Where], &b.What[r.What]
	at := [naming]int32{StepNames: what.Step, WorkflowNames: where.Workflow, GrowNames: where.Grow, WorkerNames: what.Worker}
	return b.Names[kind][at[kind]]
}

// Parts are where a reading was taken and what was done, but for the names.
func Parts(r *study.Reading) (Where, What) {
	what := What{People: r.People, Rating: r.Rating}
	if r.Setups.Known {
		what.Flags |= HasSetups
		what.Setups = r.Setups.Value
	}
	if !r.Counts() {
		what.Flags |= IsVoided
	}
	if r.Source == study.ByJudgement {
		what.Flags |= IsJudged
	}
	return Where{Day: DayOf(r.Date)}, what
}

// Index numbers values in order of first appearance.
type Index[T comparable] struct {
	List []T
	at   map[T]uint32
	last uint32 // that was asked for
}

// Of is the number of a value.
func (x *Index[T]) Of(value T) uint32 {
	if len(x.List) > 0 && x.List[x.last] == value {
		return x.last
	}
	at, ok := x.at[value]
	if !ok {
		if x.at == nil {
			x.at = map[T]uint32{}
		}
		at = uint32(len(x.List))
		x.at[value] = at
		x.List = append(x.List, value)
	}
	x.last = at
	return at
}

// clear forgets all values.
func (x *Index[T]) clear() {
	x.List, x.last = x.List[:0], 0
	clear(x.at)
}

// Readings hands readings over, a batch at a time and in order, as often as it is
// called. A batch is good only until the next. The error is that of reading them, or
// the first that take returns.
type Readings func(take func(*Batch) error) error

// InMemory is readings that are at hand.
func InMemory(readings []study.Reading) Readings {
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
func batches(readings []study.Reading) func(yield func([]study.Reading) bool) {
	return func(yield func([]study.Reading) bool) {
		for len(readings) > 0 {
			first := readings[0].Place
			n := slices.IndexFunc(readings, func(r study.Reading) bool {
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
func batchOf(readings []study.Reading) *Batch {
	at := readings[0].Place
	b := &Batch{From: &Origin{at.File, at.Sheet, at.Column}, Rows: make([]Brief, len(readings))}
	var names [naming]Index[string]
	for kind := range names {
		names[kind].Of("")
	}
	var wheres Index[Where]
	var whats Index[What]
	for i := range readings {
		r := &readings[i]
		where, what := Parts(r)
		where.Grow, where.Workflow = int32(names[GrowNames].Of(r.Grow)), int32(names[WorkflowNames].Of(r.Workflow))
		what.Step, what.Worker = int32(names[StepNames].Of(r.Step)), int32(names[WorkerNames].Of(r.Worker))
		if !r.Counts() {
			b.Voids = append(b.Voids, r.Void)
		}
		b.Rows[i] = Brief{
			Where: wheres.Of(where), What: whats.Of(what), Row: uint32(r.Place.Line), Count: r.Count, Seconds: r.Seconds,
		}
	}
	b.Where, b.What = wheres.List, whats.List
	for kind := range names {
		b.Names[kind] = names[kind].List
	}
	return b
}
