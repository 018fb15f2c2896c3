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
	first []Timed
	model stepfit.Fit             // of the first; meaningless before there are firstReadings
	far   [stepfit.Spreads]farOff // by the spread of the model in the end
}

// Timed is a reading on its step's scales.
type Timed struct {
	Place   Place
	Setups  float64
	Count   float64
	Seconds float64 // basic person-seconds
}

func (t Timed) reading() stepfit.Reading {
	return stepfit.Reading{Setups: t.Setups, Count: t.Count, Seconds: t.Seconds}
}

// farOff is the readings that are far off for one spread.
type farOff struct {
	square float64 // of the residual in standard deviations of a reading of count 1 from which on one is far off, × its variance
	list   []Timed
	lost   bool // there were more than are kept
}

// How many readings are kept, and which are far off: so few standard deviations that a
// reading that stands out from thousands is among them.
const (
	firstReadings = 256
	mostFar       = 3000
	farDeviations = 4.2
)

// take keeps a reading if it is one to keep.
func (k *kept) take(s *StepModel, b *Batch, r *Brief, setups float64) {
	if len(k.first) < firstReadings {
		k.first = append(k.first, Timed{b.Place(r), setups, r.Count, r.Basic})
		if len(k.first) == firstReadings {
			k.begin(s)
		}
		return
	}
	residual := r.Basic - k.model.At(setups, r.Count)
	square, n := residual*residual, r.Count
	if square > k.far[0].square || square > k.far[1].square*n || square > k.far[2].square*n*n {
		k.keep(Timed{b.Place(r), setups, n, r.Basic}, square)
	}
}

func (k *kept) keep(t Timed, square float64) {
	scale := 1.0
	for q := range k.far {
		far := &k.far[q]
		switch {
		case far.lost || square <= far.square*scale:
		case len(far.list) == mostFar:
			*far = farOff{square: math.Inf(1), lost: true}
		default:
			far.list = append(far.list, t)
		}
		scale *= t.Count
	}
}

// begin finds what is far off, from the first readings.
func (k *kept) begin(s *StepModel) {
	var sums stepfit.Sums
	for _, t := range k.first {
		sums.Add(t.Setups, t.Count, t.Seconds)
	}
	k.model = sums.Choose(stepfit.Options{}).Plain
	for q := range k.far {
		var squares float64
		for _, t := range k.first {
			residual := t.Seconds - k.model.At(t.Setups, t.Count)
			squares += residual * residual / math.Pow(t.Count, float64(q))
		}
		k.far[q].square = farDeviations * farDeviations * squares / firstReadings
		if math.IsInf(k.far[q].square, 0) { // of counts of 0, which no such spread has
			k.far[q].lost = true
		}
	}
}

// candidates are the readings that may stand out from a step's model; false where only
// reading all of them again can tell.
func (s *StepModel) candidates(screen stepfit.Screen) ([]Timed, bool) {
	k := &s.kept
	if s.Readings == len(k.first) {
		return k.first, true
	}
	far := k.far[s.Model.Plain.Spread]
	if far.lost || !screen.Within(k.model, math.Sqrt(far.square), s.sums) {
		return nil, false
	}
	return append(slices.Clip(k.first), far.list...), true
}
