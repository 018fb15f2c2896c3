package answer

import (
	"fmt"
	"slices"
	"time"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// What makes a reading worth a look before it is believed. None of it keeps a
// reading from counting.
const (
	longReading  = 4 * 3600 // seconds: hours where minutes were meant
	oddRating    = 40       // percent of normal pace, and above
	oddRatingTop = 200
	manyTimes    = 8 // times longer or shorter than expected
)

// Days before the one and from the other on are hardly those of readings.
var (
	oddDay    = condense.DayOf(time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC))
	oddDayTop = condense.DayOf(time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC))
)

func isOddDay(day condense.Day) bool {
	return day != condense.NoDay && (day < oddDay || day >= oddDayTop)
}

// Doubtful are readings that look mistyped: of many hours, at a pace hardly
// seen, of a day in another century, or many times longer or shorter than the step's estimate says or its
// other readings do. They count all the same. The error is that of reading them
// again.
func (m *Models) Doubtful() (study.Problems, error) {
	doubts := study.Problems{}
	expected := make([]expectation, len(m.Steps))
	for i := range m.Steps {
		expected[i] = m.Steps[i].expects()
	}
	some := func(step int, b *condense.Batch, row int) bool {
		r := &b.Rows
		e, how, count, seconds := &expected[step], &b.How[r.How[row]], r.Count[row], r.Seconds[row]
		return !e.isUsual(how, count, seconds) && e.doubt(how, count, seconds) != "" || isOddDay(r.Day[row]) || len(m.Study.Made) > 0 && m.droppedBy(step, r.Day[row]) != nil
	}
	err := m.EachThat(some, func(step int, b *condense.Batch, row int) {
		r := &b.Rows
		if doubt := expected[step].doubt(&b.How[r.How[row]], r.Count[row], r.Seconds[row]); doubt != "" {
			doubts = doubts.AndOne(study.Problem{Place: b.Place(r.At(row)), Text: doubt})
		}
		if day := r.Day[row]; isOddDay(day) {
			doubts = doubts.AndOne(study.Problem{Place: b.Place(r.At(row)), Text: fmt.Sprintf("%s is of %s: is the year mistyped?",
				expected[step].step.Name, day.Date().Format(time.DateOnly))})
		}
		if change := m.droppedBy(step, r.Day[row]); change != nil {
			doubts = doubts.AndOne(study.Problem{Place: b.Place(r.At(row)), Text: fmt.Sprintf("%s is not done any more since %s (%s): is the date or the step wrong?",
				change.Step, change.Since.Format(time.DateOnly), change.Name)})
		}
	})
	return doubts, err
}

// isUsual is true of readings that there is no doubt of, but not of all of them.
func (e *expectation) isUsual(how *condense.How, count, seconds float64) bool {
	basic, other := how.Basic(seconds), e.perCount*count
	return e.estimate == nil && !(seconds > longReading) && how.Rating >= oddRating && how.Rating <= oddRatingTop &&
		basic <= manyTimes*e.time && basic >= e.time/manyTimes && basic <= manyTimes*other && basic >= other/manyTimes
}

// expectation is what a reading of a step should take: by its estimate, or else, with
// three readings or more, by the medians of the first ones' times and times per count,
// between which it lies however much of it is setup.
type expectation struct {
	step           study.Step
	estimate       *stepfit.Fit // nil where there is none
	time, perCount float64      // 0 where they are not known
}

func (s *StepModel) expects() expectation {
	e := expectation{step: s.Step}
	if s.Step.Estimate != nil {
		judged := fit(*s.Step.Estimate)
		e.estimate = &judged
	}
	var times, perCount []float64
	for _, t := range s.Kept.First {
		if t.Count > 0 {
			times, perCount = append(times, t.Seconds), append(perCount, t.Seconds/t.Count)
		}
	}
	if len(times) >= 3 {
		slices.Sort(times)
		slices.Sort(perCount)
		e.time, e.perCount = times[len(times)/2], perCount[len(times)/2]
	}
	return e
}

// doubt says why a reading looks mistyped; "" where it does not.
func (e *expectation) doubt(how *condense.How, count, seconds float64) string {
	basic := how.Basic(seconds)
	low, high, slow, quick := min(e.time, e.perCount*count), max(e.time, e.perCount*count), "its other readings do", "its other readings are"
	if e.estimate != nil {
		low, slow, quick = e.estimate.At(condense.LoadOf(&e.step, how, count)), "its estimate says", "its estimate says"
		high = low
	}
	switch name := e.step.Name; {
	case seconds > longReading:
		return fmt.Sprintf("%s took %s hours: were minutes meant?", name, words.Digits(seconds/3600, 3))
	case how.Rating < oddRating || how.Rating > oddRatingTop:
		return fmt.Sprintf("%s at %s %% of normal pace: 100 is normal", name, words.Digits(how.Rating, 3))
	case low > 0 && basic > manyTimes*high:
		return fmt.Sprintf("%s took %s times as long as %s: is the time or the count mistyped?", name, words.Digits(basic/high, 2), slow)
	case low > 0 && basic < low/manyTimes:
		return fmt.Sprintf("%s was %s times as quick as %s: is the time or the count mistyped?", name, words.Digits(low/basic, 2), quick)
	}
	return ""
}
