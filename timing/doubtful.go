package timing

import (
	"fmt"
	"slices"
)

// What makes a reading worth a look before it is believed. None of it keeps a
// reading from counting.
const (
	longReading  = 4 * 3600 // seconds: hours where minutes were meant
	oddRating    = 40       // percent of normal pace, and above
	oddRatingTop = 200
	manyTimes    = 8 // times longer or shorter than expected
)

// Doubtful are readings that look mistyped: of many hours, at a pace hardly
// seen, or many times longer or shorter than the step's estimate says or its
// other readings do. They count all the same. The error is that of reading them
// again.
func (m *Models) Doubtful() (Problems, error) {
	doubts := Problems{}
	expected := make([]expectation, len(m.Steps))
	for i := range m.Steps {
		expected[i] = m.Steps[i].expects()
	}
	err := m.each(func(step int, b *Batch, r *Brief) {
		if doubt := expected[step].doubt(r); doubt != "" {
			doubts = doubts.and(Problem{Place: b.Place(r), Text: doubt})
		}
	})
	return doubts, err
}

// expectation is what a reading of a step should take: by its estimate, or else the
// median of its first readings' times per count, where there are three or more.
type expectation struct {
	step     Step
	perCount float64 // 0 where it is not known
}

func (s *StepModel) expects() expectation {
	e := expectation{step: s.Step}
	var times []float64
	for _, t := range s.kept.first {
		if t.Count > 0 {
			times = append(times, t.Seconds/t.Count)
		}
	}
	if len(times) >= 3 {
		slices.Sort(times)
		e.perCount = times[len(times)/2]
	}
	return e
}

// doubt says why a reading looks mistyped; "" where it does not.
func (e expectation) doubt(r *Brief) string {
	seconds, by := e.perCount*r.Count, "its other readings do"
	if e.step.Estimate != nil {
		fit := e.step.Estimate.fit()
		seconds, by = fit.At(e.step.setupsOf(r), r.Count), "its estimate says"
	}
	switch name := e.step.Name; {
	case r.Seconds > longReading:
		return fmt.Sprintf("%s took %.3g hours: were minutes meant?", name, r.Seconds/3600)
	case r.Rating < oddRating || r.Rating > oddRatingTop:
		return fmt.Sprintf("%s at %.3g %% of normal pace: 100 is normal", name, r.Rating)
	case seconds > 0 && r.Basic > manyTimes*seconds:
		return fmt.Sprintf("%s took %.2g times as long as %s: is the time or the count mistyped?", name, r.Basic/seconds, by)
	case seconds > 0 && r.Basic < seconds/manyTimes:
		return fmt.Sprintf("%s was %.2g times as quick as %s: is the time or the count mistyped?", name, seconds/r.Basic, by)
	}
	return ""
}
