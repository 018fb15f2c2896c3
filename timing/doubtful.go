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
	farOff       = 8 // times longer or shorter than expected
)

// Doubtful are readings that look mistyped: of many hours, at a pace hardly
// seen, or many times longer or shorter than the step's estimate says or its
// other readings do. They count all the same.
func (m *Models) Doubtful() Problems {
	doubts := Problems{}
	perCount := m.perCount()
	for _, r := range m.Readings {
		if !r.Counts() {
			continue
		}
		step := m.Steps[m.index[r.Step]].Step
		say := func(format string, args ...any) {
			doubts = append(doubts, Problem{r.Place, fmt.Sprintf(format, args...)})
		}
		switch expected, by := expectedOf(step, r, perCount[r.Step]); {
		case r.Seconds > longReading:
			say("%s took %.3g hours: were minutes meant?", r.Step, r.Seconds/3600)
		case r.Rating < oddRating || r.Rating > oddRatingTop:
			say("%s at %.3g %% of normal pace: 100 is normal", r.Step, r.Rating)
		case expected > 0 && r.Basic() > farOff*expected:
			say("%s took %.2g times as long as %s: is the time or the count mistyped?", r.Step, r.Basic()/expected, by)
		case expected > 0 && r.Basic() < expected/farOff:
			say("%s was %.2g times as quick as %s: is the time or the count mistyped?", r.Step, expected/r.Basic(), by)
		}
	}
	return doubts
}

// expectedOf is what a reading should take, in seconds, and who says so: the
// step's estimate, or else the median of its readings' times per count, of
// three or more.
func expectedOf(step Step, r Reading, perCount []float64) (seconds float64, by string) {
	if step.Estimate != nil {
		fit := step.Estimate.fit()
		return fit.At(step.Setups(r), r.Count), "its estimate says"
	}
	if len(perCount) < 3 || r.Count == 0 {
		return 0, ""
	}
	return perCount[len(perCount)/2] * r.Count, "its other readings do"
}

// perCount is the times per count of each step's readings that count, in rising
// order.
func (m *Models) perCount() map[string][]float64 {
	by := map[string][]float64{}
	for _, r := range m.Readings {
		if r.Counts() && r.Count > 0 {
			by[r.Step] = append(by[r.Step], r.Basic()/r.Count)
		}
	}
	for _, times := range by {
		slices.Sort(times)
	}
	return by
}
