package answer

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/words"
)

// When it is looked whether a step's times fall with practice: so many dated readings on so
// many days, of all steps together no more than maxPractised; and how sure that must be, over
// all steps (Holm, Scandinavian Journal of Statistics 6, 1979).
const (
	minPractised  = 5
	minDays       = 3
	maxPractised  = 50_000
	practiceBelow = 0.05
)

// practiceReading is a reading of a step as learning curves take it.
type practiceReading struct {
	day          condense.Day
	count, ratio float64 // ratio is its time over that of the step's model
}

// practice is the learning curve of each step whose dated readings are enough: the times,
// over what its model expects, by the cumulative count (Wright 1936). The error is that of
// reading them again.
func (m *Models) practice() (map[int]stepfit.Learning, error) {
	total, enough := 0, false
	for i := range m.Steps {
		total += m.Steps[i].Readings
		enough = enough || m.Steps[i].Readings >= minPractised
	}
	if total > maxPractised || !enough {
		return nil, nil
	}
	readings := make([][]practiceReading, len(m.Steps))
	err := m.Each(func(step int, b *condense.Batch, row int) {
		r := b.Rows.At(row)
		day := r.Day
		if day == condense.NoDay || m.Steps[step].Readings < minPractised {
			return
		}
		t := b.Timed(&m.Steps[step].Step, r)
		fitted := m.Steps[step].Model.At(t.Load)
		if fitted > 0 && t.Count > 0 {
			readings[step] = append(readings[step], practiceReading{day, t.Count, t.Seconds / fitted})
		}
	})
	curves := map[int]stepfit.Learning{}
	for step, list := range readings {
		if curve, ok := learnt(list); ok {
			curves[step] = curve
		}
	}
	return curves, err
}

// learnt is the learning curve of dated readings; false where they are too few.
func learnt(list []practiceReading) (stepfit.Learning, bool) {
	slices.SortStableFunc(list, func(a, b practiceReading) int { return cmp.Compare(a.day, b.day) })
	days, sum := 0, 0.0
	var counts, ratios []float64
	for i, p := range list {
		if i == 0 || list[i-1].day != p.day {
			days++
		}
		sum += p.count
		counts, ratios = append(counts, sum), append(ratios, p.ratio)
	}
	if len(list) < minPractised || days < minDays {
		return stepfit.Learning{}, false
	}
	return stepfit.Learn(counts, ratios)
}

// clearPractice are the steps whose times clearly fall, or rise, with the cumulative count.
func (m *Models) clearPractice() (map[int]stepfit.Learning, error) {
	curves, err := m.practice()
	steps := make([]int, 0, len(curves))
	for step := range curves {
		steps = append(steps, step)
	}
	slices.SortFunc(steps, func(a, b int) int { return cmp.Or(cmp.Compare(curves[a].P(), curves[b].P()), a-b) })
	clear := map[int]stepfit.Learning{}
	for i, step := range steps {
		if p := curves[step].P(); !(p < practiceBelow/float64(len(steps)-i)) || math.IsNaN(p) {
			break
		}
		clear[step] = curves[step]
	}
	return clear, err
}

// fallingBefore says of which steps, and stages of them, times clearly fall.
func (m *Models) fallingBefore() (map[int]bool, error) {
	clear, err := m.clearPractice()
	falls := map[int]bool{}
	for step, curve := range clear {
		falls[step] = curve.Exponent < 0
	}
	return falls, err
}

// practiceWords says of a step what each doubling of the cumulative count does to its
// times; "" where none is clear.
func practiceWords(curve stepfit.Learning, clear bool, confidence float64) string {
	if !clear {
		return ""
	}
	rate, low, high := curve.Rate(confidence)
	if curve.Exponent < 0 {
		return fmt.Sprintf("times fall with practice: by %s with each doubling of all that was done (between %s and %s)", words.Percent(1-rate, 2), words.Percent(1-high, 2), words.Percent(1-low, 2))
	}
	return fmt.Sprintf("times rise as more is done: by %s with each doubling of all that was done (between %s and %s)", words.Percent(rate-1, 2), words.Percent(low-1, 2), words.Percent(high-1, 2))
}
