package timing

import (
	"math"
	"slices"

	"headhours/timing/stepfit"
)

// kept is the readings of a step that are kept as they are: the first, and of the
// others those so far from what the first say that they may stand out. With them the
// readings that stand out are found without reading all of them again.
type kept struct {
	first   []Timed
	model   stepfit.Fit             // of those, once there are firstReadings
	outline outline                 // likewise
	far     [stepfit.Spreads]farOff // by the spread of the model in the end
}

// outline is what a step's first readings say of others: the times of their model, and by
// the spread of the model in the end the square of the residual from which on a reading of
// count 1 is far off, × its variance.
type outline struct {
	setupSec, unitSec float64
	squares           [stepfit.Spreads]float64
}

func (o *outline) residual(setups, count, seconds float64) float64 {
	return seconds - (o.setupSec*setups + o.unitSec*count)
}

// isFar says whether a reading is far off for one spread or another.
func (o *outline) isFar(setups, count, seconds float64) bool {
	residual := o.residual(setups, count, seconds)
	square := residual * residual
	return square > o.squares[0] || square > o.squares[1]*count || square > o.squares[2]*count*count
}

// Timed is a reading on its step's scales.
type Timed struct {
	Place   Place
	Setups  float64
	Count   float64
	Seconds float64 // basic person-seconds
}

// reading is it as a fit takes it.
func (t Timed) reading() stepfit.Reading {
	return stepfit.Reading{Setups: t.Setups, Count: t.Count, Seconds: t.Seconds}
}

// farOff is the readings that are far off for one spread: the farther the more there are.
type farOff struct {
	square float64 // from which on they are, of a residual at a count of 1
	list   []Timed
}

// How many readings are kept, and which are far off: so few standard deviations that a
// reading that stands out from thousands is among them.
const (
	firstReadings = 256
	mostFar       = 3000
	farDeviations = 4.2
)

// take keeps a reading if it is one to keep, and says whether the outline is known with
// it.
func (k *kept) take(t Timed) (outlined bool) {
	if len(k.first) == firstReadings {
		k.keep(t)
		return false
	}
	k.first = append(k.first, t)
	if len(k.first) < firstReadings {
		return false
	}
	k.begin()
	return true
}

func (k *kept) keep(t Timed) {
	for q := range k.far {
		far := &k.far[q]
		if square := k.square(t, q); square > far.square {
			if len(far.list) == mostFar {
				k.raise(q)
			}
			if square > far.square {
				far.list = append(far.list, t)
			}
		}
	}
}

// square is that of a reading's residual, at a count of 1.
func (k *kept) square(t Timed, q int) float64 {
	residual := k.outline.residual(t.Setups, t.Count, t.Seconds)
	return residual * residual * math.Pow(t.Count, -float64(q))
}

// raise makes room: the nearer half of what is far off no longer is.
func (k *kept) raise(q int) {
	far := &k.far[q]
	squares := make([]float64, len(far.list))
	for i, t := range far.list {
		squares[i] = k.square(t, q)
	}
	slices.Sort(squares)
	far.square = squares[len(squares)/2]
	far.list = slices.DeleteFunc(far.list, func(t Timed) bool { return k.square(t, q) <= far.square })
}

// begin finds what is far off, from the first readings.
func (k *kept) begin() {
	var sums stepfit.Sums
	for _, t := range k.first {
		sums.Add(t.Setups, t.Count, t.Seconds)
	}
	k.model = sums.Choose(stepfit.Options{}).Fit
	k.outline.setupSec, k.outline.unitSec = k.model.SetupSec, k.model.UnitSec
	for q := range k.far {
		var squares float64
		for _, t := range k.first {
			squares += k.square(t, q)
		}
		k.outline.squares[q] = farDeviations * farDeviations * squares / firstReadings
		k.far[q].square = k.outline.squares[q] // without bound where counts are 0, which no such spread has
	}
}

// candidates are the readings that may stand out from a step's model; false where only
// reading all of them again can tell.
func (s *StepModel) candidates(screen stepfit.Screen) ([]Timed, bool) {
	k := &s.kept
	if s.Readings == len(k.first) {
		return k.first, true
	}
	spread := s.Model.Spread
	far := k.far[spread]
	if !screen.Within(k.model, math.Sqrt(far.square), s.sums) {
		return nil, false
	}
	return append(slices.Clip(k.first), far.list...), true
}
