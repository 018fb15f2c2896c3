package condense

import "time"

// Filter chooses readings. The zero Filter takes all.
type Filter struct {
	Worker, Grow string
	Since, Until time.Time // both days included; a reading without a date is left out
}

// Takes says whether the filter takes a row of a batch.
func (f *Filter) Takes(b *Batch, r *Brief) bool {
	return f.takesWhere(b, &b.Where[r.Where]) && f.takesWhat(b, &b.What[r.What])
}

// takesWhere says so of where rows were taken.
func (f *Filter) takesWhere(b *Batch, w *Where) bool {
	switch {
	case f.Grow != "" && b.Names[GrowNames][w.Grow] != f.Grow:
		return false
	case (!f.Since.IsZero() || !f.Until.IsZero()) && w.Day == NoDay:
		return false
	case !f.Since.IsZero() && w.Day < DayOf(f.Since), !f.Until.IsZero() && w.Day > DayOf(f.Until):
		return false
	}
	return true
}

// takesWhat says so of what was done and by whom.
func (f *Filter) takesWhat(b *Batch, w *What) bool {
	return f.Worker == "" || b.Names[WorkerNames][w.Worker] == f.Worker
}
