package condense

import (
	"slices"

	"headhours/timing/stepfit"
)

// Kept is the readings of a step that are kept as they are: the first, and of the
// others those so far from what the first say that they may stand out. With them the
// readings that stand out are found without reading all of them again.
type Kept struct {
	First   []Timed
	Outline outline                       // once there are firstReadings
	Past    []outline                     // those before it: what is not kept was not far off by one of them all
	far     [stepfit.Spreads][]farReading // by the spread of the model in the end
	origins []*Origin                     // of these
	upTo    int                           // how many readings the outline's model is of
}

// farReading is a Timed without a pointer: memory that has such is looked through before it is used, page by
// page, whenever memory is collected.
type farReading struct {
	place uint64 // the index of its origin, and in the lower lineBits its line
	stepfit.Reading
}

const lineBits = 40

// Far is the readings that are far off for a spread, in order.
func (k *Kept) Far(spread int) []Timed {
	all := make([]Timed, len(k.far[spread]))
	for i, r := range k.far[spread] {
		all[i] = Timed{k.origins[r.place>>lineBits], int(r.place & (1<<lineBits - 1)), r.Reading}
	}
	return all
}

// place is that of a reading among those that are far off.
func (k *Kept) place(t Timed) uint64 {
	at := len(k.origins) - 1
	if at < 0 || k.origins[at] != t.From {
		if at = slices.Index(k.origins, t.From); at < 0 {
			at = len(k.origins)
			k.origins = append(k.origins, t.From)
		}
	}
	return uint64(at)<<lineBits | uint64(t.Line)
}

// outline is what a step's readings say of those that follow: the times of their model, and by
// the spread of the model in the end the square of the residual from which on a reading of
// count 1 is far off, × its variance: the farther the more there are.
type outline struct {
	SetupSec, UnitSec float64
	Squares           [stepfit.Spreads]float64
}

func (o *outline) residual(x stepfit.Load, seconds float64) float64 {
	return seconds - (o.SetupSec*x.Setups + o.UnitSec*x.Count)
}

// isFar says whether a reading is far off for one spread or another.
func (o *outline) isFar(x stepfit.Load, seconds float64) bool {
	residual := o.residual(x, seconds)
	square := residual * residual
	return square > o.Squares[0] || square > o.Squares[1]*x.Count || square > o.Squares[2]*x.Count*x.Count
}

// How many readings are kept, and which are far off: farther than all but a few of the first,
// which is nearer than what stands out from thousands, whatever the first leave in doubt.
const (
	firstReadings = 1024
	farFirst      = 16
	outlineAfter  = 16 // times as many readings it is another
	maxFar        = 3000
	sampled       = 32  // one of so many is looked at to halve them
	many          = 256 // from which on there is room for all, which costs nothing until it is used
)

// take keeps a reading if it is one to keep, and says whether the outline is another with
// it.
func (k *Kept) take(t Timed) (outlined bool) {
	if len(k.First) == firstReadings {
		return k.keepFar(t)
	}
	if len(k.First) == many {
		k.First = slices.Grow(k.First, firstReadings-many)
	}
	k.First = append(k.First, t)
	if len(k.First) < firstReadings {
		return false
	}
	k.begin()
	return true
}

func (k *Kept) keepFar(t Timed) (raised bool) {
	square := k.square(t.Reading, 0)
	for q := range k.far {
		if q > 0 {
			square /= t.Count
		}
		if square > k.Outline.Squares[q] && len(k.far[q]) == maxFar {
			k.raise(q)
			raised = true
		}
		if square > k.Outline.Squares[q] {
			if len(k.far[q]) == many {
				k.far[q] = slices.Grow(k.far[q], maxFar-many)
			}
			k.far[q] = append(k.far[q], farReading{k.place(t), t.Reading})
		}
	}
	return raised
}

// square is that of a reading's residual, at a count of 1.
func (k *Kept) square(t stepfit.Reading, q int) float64 {
	residual := k.Outline.residual(t.Load, t.Seconds)
	square := residual * residual
	for range q {
		square /= t.Count
	}
	return square
}

// raise makes room: the nearer half of what is far off, going by some of it, no longer is.
func (k *Kept) raise(q int) {
	squares := make([]float64, 0, maxFar/sampled+1)
	for i := 0; i < len(k.far[q]); i += sampled {
		squares = append(squares, k.square(k.far[q][i].Reading, q))
	}
	slices.Sort(squares)
	k.Outline.Squares[q] = squares[len(squares)/2]
	k.far[q] = slices.DeleteFunc(k.far[q], func(r farReading) bool { return k.square(r.Reading, q) <= k.Outline.Squares[q] })
}

// outlineOf has the times of the outline be those of the model of some readings.
func (k *Kept) outlineOf(readings stepfit.Sums) {
	model := readings.Choose(stepfit.Options{})
	k.Outline.SetupSec, k.Outline.UnitSec, k.upTo = model.SetupSec, model.UnitSec, readings.Readings
}

// isOld says that there are so many readings that a model of all of them is much surer than that of
// the outline: what that leaves in doubt may be more than what sets apart what stands out.
func (k *Kept) isOld(readings int) bool {
	return k.upTo > 0 && readings >= outlineAfter*k.upTo
}

// refine has the outline go by all readings so far from now on.
func (k *Kept) refine(all stepfit.Sums) {
	k.Past = append(k.Past, k.Outline)
	k.outlineOf(all)
}

// begin finds what is far off, from the first readings.
func (k *Kept) begin() {
	var sums stepfit.Sums
	all := stepfit.Block{Sums: &sums}
	for _, t := range k.First {
		all.Add(t.Reading)
	}
	all.Take()
	k.outlineOf(sums)
	for q := range k.far {
		var farthest [farFirst + 1]float64 // the nearest of them first
		for _, t := range k.First {
			square := k.square(t.Reading, q) // without bound where counts are 0, which no such spread has
			if square > farthest[0] {
				farthest[0] = square
			}
			for at := 0; at < farFirst && farthest[at] > farthest[at+1]; at++ {
				farthest[at], farthest[at+1] = farthest[at+1], farthest[at]
			}
		}
		k.Outline.Squares[q] = farthest[0]
	}
}
