package study

import "time"

// Stretch is a stretch of one worker's day that has a name: a reading, pauses
// within it included, or an interruption. Start and End are seconds after
// midnight of Date; End is larger, and beyond 24 h past midnight.
type Stretch struct {
	Place      Place
	What       string // the step, or "interruption"
	Worker     string
	Session    string // whose wall clock it counts towards; "" where only a log says
	Date       time.Time
	Start, End float64
}

// Named is the stretch that a reading takes up; false where its date, start or
// end was not noted. A voided reading took up its time all the same.
func (r Reading) Named() (Stretch, bool) {
	if r.Date.IsZero() || !r.Start.Known || !r.End.Known {
		return Stretch{}, false
	}
	end := r.End.Value
	if end < r.Start.Value {
		end += 24 * 3600
	}
	return Stretch{r.Place, r.Step, r.Worker, "", r.Date, r.Start.Value, end}, true
}
