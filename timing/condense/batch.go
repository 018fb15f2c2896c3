package condense

import (
	"iter"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Batch is readings of one file, in order, in as much as a fit needs of them.
type Batch struct {
	From  *Origin
	Line  int              // each row's Row is counted from it
	Names [naming][]string // what rows name, of each kind; the first is ""
	Table *NameTable       // of the names; nil of those of this batch alone
	Known *KnownParts      // of those that are digested one after the other with it; nil of others
	Where []Where          // what rows have in common, in order of first appearance
	What  []What           // likewise, or in order of that in batches before it; each may hold the same twice
	How   []How            // likewise
	Rows  Rows
	Voids []string // why rows that are voided do not count, in their order

	Digest *digest    // what it comes to, for one Gathering
	found  []foundRow // what was looked for in it
}

// Voided are the rows that do not count, in their order, and why.
func (b *Batch) Voided() iter.Seq2[Brief, string] {
	return func(yield func(Brief, string) bool) {
		reasons := b.Voids
		for i := range b.Rows.Len() {
			r := b.Rows.At(i)
			if !b.What[r.What].Voided {
				continue
			}
			if !yield(r, reasons[0]) {
				return
			}
			reasons = reasons[1:]
		}
	}
}

// NameTable tells which batches have names in common: a later batch of the same table has
// the names of an earlier one, and may have more.
type NameTable struct{ _ byte }

// Place is where a row of the batch stands.
func (b *Batch) Place(r Brief) study.Place {
	return b.From.place(b.Line + int(r.Row))
}

// Name is what a row names, of the kind StepNames, WorkflowNames, GrowNames or
// WorkerNames; "" where it names none.
func (b *Batch) Name(r Brief, kind int) string {
	where, what := &b.Where[r.Where], &b.What[r.What]
	at := [naming]int32{StepNames: what.Step, WorkflowNames: where.Workflow, GrowNames: where.Grow, WorkerNames: what.Worker}
	return b.Names[kind][at[kind]]
}

// Readings hands readings over, a batch at a time and in order, as often as it is
// called. A batch is good only until the next. Each is handed to look first, unless that is
// nil, on the core that read it and in no order. The error is that of reading them, or the
// first that take returns.
type Readings func(look func(*Batch), take func(*Batch) error) error

// InMemory is readings that are at hand.
func InMemory(readings []study.Reading) Readings {
	return func(look func(*Batch), take func(*Batch) error) error {
		for some := range batches(readings) {
			b := batchOf(some)
			if look != nil {
				look(b)
			}
			if err := take(b); err != nil {
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
	b := &Batch{From: &Origin{at.File, at.Sheet, at.Column}}
	b.Rows.SetLen(len(readings))
	var names [naming]Index[string]
	for kind := range names {
		names[kind].Of("")
	}
	var wheres Index[Where]
	var whats Index[What]
	var hows Index[How]
	for i := range readings {
		r := &readings[i]
		where, what := Where{int32(names[GrowNames].Of(r.Grow)), int32(names[WorkflowNames].Of(r.Workflow))},
			What{int32(names[StepNames].Of(r.Step)), int32(names[WorkerNames].Of(r.Worker)), !r.Counts()}
		if !r.Counts() {
			b.Voids = append(b.Voids, r.Void)
		}
		b.Rows.set(i, Brief{
			Where: wheres.Of(where), What: whats.Of(what), How: hows.Of(HowOf(r)), Row: uint32(r.Place.Line),
			Day: DayOf(r.Date), Count: r.Count, Seconds: r.Seconds,
		})
	}
	b.Where, b.What, b.How = wheres.List, whats.List, hows.List
	for kind := range names {
		b.Names[kind] = names[kind].List
	}
	return b
}

// Timed is a row on the scales of its step.
func (b *Batch) Timed(s *study.Step, r Brief) Timed {
	how := &b.How[r.How]
	return Timed{b.From, b.Line + int(r.Row), stepfit.Reading{Load: LoadOf(s, how, r.Count), Seconds: how.Basic(r.Seconds)}}
}
