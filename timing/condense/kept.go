package condense

import (
	"math"
	"slices"

	"headhours/timing/stepfit"
)

// Kept is the readings of a step that are kept as they are: the first, and of the
// others those so far from what the first say that they may stand out. With them the
// readings that stand out are found without reading all of them again.
type Kept struct {
	First   []Timed
	Model   stepfit.Fit             // of those, once there are firstReadings
	Outline outline                 // likewise
	Far     [stepfit.Spreads]farOff // by the spread of the model in the end
}

// outline is what a step's first readings say of others: the times of their model, and by
// the spread of the model in the end the square of the residual from which on a reading of
// count 1 is far off, × its variance.
type outline struct {
	setupSec, unitSec float64
	Squares           [stepfit.Spreads]float64
}

func (o *outline) residual(x stepfit.Load, seconds float64) float64 {
	return seconds - (o.setupSec*x.Setups + o.unitSec*x.Count)
}

// isFar says whether a reading is far off for one spread or another.
func (o *outline) isFar(x stepfit.Load, seconds float64) bool {
	residual := o.residual(x, seconds)
	square := residual * residual
	return square > o.Squares[0] || square > o.Squares[1]*x.Count || square > o.Squares[2]*x.Count*x.Count
}

// farOff is the readings that are far off for one spread: the farther the more there are.
type farOff struct {
	Square float64 // from which on they are, of a residual at a count of 1
	List   []Timed
}

// add adds one: where there are many, room is made for all that there may be, which costs
// nothing until they come.
func (f *farOff) add(t Timed) {
	if len(f.List) == firstReadings {
		f.List = slices.Grow(f.List, maxFar-firstReadings)
	}
	f.List = append(f.List, t)
}

// How many readings are kept, and which are far off: so few standard deviations that a
// reading that stands out from thousands is among them.
const (
	firstReadings = 256
	maxFar        = 3000
	farDeviations = 4.2
)

// take keeps a reading if it is one to keep, and says whether the outline is known with
// it.
func (k *Kept) take(t Timed) (outlined bool) {
	if len(k.First) == firstReadings {
		k.keepFar(t)
		return false
	}
	k.First = append(k.First, t)
	if len(k.First) < firstReadings {
		return false
	}
	k.begin()
	return true
}

func (k *Kept) keepFar(t Timed) {
	for q := range k.Far {
		far := &k.Far[q]
		if square := k.square(t, q); square > far.Square {
			if len(far.List) == maxFar {
				k.raise(q)
			}
			if square > far.Square {
				far.add(t)
			}
		}
	}
}

// square is that of a reading's residual, at a count of 1.
func (k *Kept) square(t Timed, q int) float64 {
	residual := k.Outline.residual(t.Load, t.Seconds)
	return residual * residual * math.Pow(t.Count, -float64(q))
}

// raise makes room: the nearer half of what is far off no longer is.
func (k *Kept) raise(q int) {
	far := &k.Far[q]
	squares := make([]float64, len(far.List))
	for i, t := range far.List {
		squares[i] = k.square(t, q)
	}
	slices.Sort(squares)
	far.Square = squares[len(squares)/2]
	far.List = slices.DeleteFunc(far.List, func(t Timed) bool { return k.square(t, q) <= far.Square })
}

// begin finds what is far off, from the first readings.
func (k *Kept) begin() {
	var sums stepfit.Sums
	for _, t := range k.First {
		sums.Add(t.Load, t.Seconds)
	}
	k.Model = sums.Choose(stepfit.Options{}).Fit
	k.Outline.setupSec, k.Outline.unitSec = k.Model.SetupSec, k.Model.UnitSec
	for q := range k.Far {
		var squares float64
		for _, t := range k.First {
			squares += k.square(t, q)
		}
		k.Outline.Squares[q] = farDeviations * farDeviations * squares / firstReadings
		k.Far[q].Square = k.Outline.Squares[q] // without bound where counts are 0, which no such spread has
	}
}
