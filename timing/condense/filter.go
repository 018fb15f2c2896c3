package condense

import "time"

// Filter chooses readings. The zero Filter takes all.
type Filter struct {
	Worker, Grow string
	Since, Until time.Time // both days included; a reading without a date is left out
}

// Takes says whether the filter takes a row of a batch.
func (f *Filter) Takes(b *Batch, r Brief) bool {
	return f.takesWhere(b, &b.Where[r.Where]) && f.takesDay(r.Day) && f.takesWhat(b, &b.What[r.What])
}

// takesWhere says so of where rows were taken.
func (f *Filter) takesWhere(b *Batch, w *Where) bool {
	return f.Grow == "" || b.Names[GrowNames][w.Grow] == f.Grow
}

// isDated says whether it matters when a reading was taken.
func (f *Filter) isDated() bool { return !f.Since.IsZero() || !f.Until.IsZero() }

// takesDay says so of when they were taken.
func (f *Filter) takesDay(day Day) bool {
	return !f.isDated() || day != NoDay && (f.Since.IsZero() || day >= DayOf(f.Since)) && (f.Until.IsZero() || day <= DayOf(f.Until))
}

// takesWhat says so of what was done and by whom.
func (f *Filter) takesWhat(b *Batch, w *What) bool {
	return f.Worker == "" || b.Names[WorkerNames][w.Worker] == f.Worker
}
