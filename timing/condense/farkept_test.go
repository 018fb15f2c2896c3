package condense

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Of readings beyond the first, those are kept whose residual from the model of the first is
// larger than all but a few of theirs, by one spread or another: one batch or many, so that what
// digests leave out is none of them.
func TestFarOnesAreKept(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 6))
	var readings []study.Reading
	for range 2000 {
		x := plainReading("pick")
		x.Count = float64(4 + r.IntN(60))
		x.Seconds = (30 + 4*x.Count) * math.Exp(0.05*r.NormFloat64())
		if r.IntN(25) == 0 {
			x.Seconds *= 0.5 + 1.5*r.Float64()
		}
		readings = append(readings, x)
	}
	var sums stepfit.Sums
	for _, x := range readings[:firstReadings] {
		sums.Add(stepfit.Load{Setups: 1, Count: x.Count}, x.Seconds)
	}
	model := sums.Choose(stepfit.Options{})
	residual := func(x study.Reading) float64 { return x.Seconds - model.SetupSec - model.UnitSec*x.Count }
	for _, size := range []int{len(readings), 300, 7} {
		var parts [][]study.Reading
		for from := 0; from < len(readings); from += size {
			parts = append(parts, readings[from:min(from+size, len(readings))])
		}
		kept := gather(t, twoChanges(), Filter{}, parts...).Steps[2].Kept
		require.Len(t, kept.First, firstReadings)
		for q := range stepfit.Spreads {
			scaled := func(x study.Reading) float64 { return math.Abs(residual(x)) / math.Pow(x.Count, float64(q)/2) }
			var first, want, got []float64
			for _, x := range readings[:firstReadings] {
				first = append(first, scaled(x))
			}
			slices.Sort(first)
			for _, x := range readings[firstReadings:] {
				if scaled(x) > first[firstReadings-1-farFirst] {
					want = append(want, x.Seconds)
				}
			}
			for _, far := range kept.Far(q) {
				got = append(got, far.Seconds)
			}
			require.NotEmpty(t, want)
			require.Equal(t, want, got, "spread %d, batches of %d", q, size)
		}
	}
}

// However many readings are far off, the farthest of them are kept, as many as there is
// room for.
func TestFarthestAreKept(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	var k Kept
	from := []Origin{{File: "a.csv"}, {File: "b.csv", Sheet: "May"}, {File: "c.jsonl"}}
	var all []Timed
	for i := range 400_000 {
		count := float64(4 + r.IntN(16))
		x := r.NormFloat64()
		timed := Timed{From: &from[i/1000%3], Line: i + 2, Reading: stepfit.Reading{Load: stepfit.Load{Setups: 1, Count: count}, Seconds: max(1, 60+9*count+8*x*x*x*(1+float64(i)/200_000))}}
		k.take(timed)
		all = append(all, timed)
	}
	var before Kept
	for _, timed := range all[:firstReadings] {
		before.take(timed)
	}
	for q := range stepfit.Spreads {
		far := k.Far(q)
		var want []Timed
		for _, timed := range all[firstReadings:] {
			if k.square(timed.Reading, q) > k.Outline.Squares[q] {
				want = append(want, timed)
			}
		}
		assert.Equal(t, want, far)
		assert.LessOrEqual(t, len(far), maxFar)
		assert.GreaterOrEqual(t, len(far), maxFar/2-1)
		assert.Greater(t, k.Outline.Squares[q], before.Outline.Squares[q], "raised")
	}
}
