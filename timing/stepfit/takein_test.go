package stepfit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// someReadings are invented: now and then a lap or getting ready alone.
func someReadings(n int, odd bool) []Reading {
	r := rand.New(rand.NewPCG(3, 4))
	all := make([]Reading, n)
	for i := range all {
		count := float64(4 + r.IntN(300))
		all[i] = Reading{1, count, (30 + 4.3*count) * math.Exp(0.1*r.NormFloat64())}
		if !odd {
			continue
		}
		switch r.IntN(40) {
		case 0:
			all[i].Setups = 0
		case 1:
			all[i].Count = 0
		case 2:
			all[i].Setups = 3
		}
	}
	return all
}

// apart are the readings' setups, counts and times.
func apart(readings []Reading) (setups, counts, times []float64) {
	for _, r := range readings {
		setups, counts, times = append(setups, r.Setups), append(counts, r.Count), append(times, r.Seconds)
	}
	return setups, counts, times
}

// Readings are taken in together as one by one, whatever they are and however many.
func TestTakeInIsAdd(t *testing.T) {
	for _, odd := range []bool{false, true} {
		for n := range 2*blockSize + 20 {
			var one, together Sums
			readings := someReadings(n, odd)
			for _, r := range readings {
				one.Add(r.Setups, r.Count, r.Seconds)
			}
			setups, counts, times := apart(readings)
			together.TakeIn(setups[:n/3], counts[:n/3], times[:n/3])
			together.TakeIn(setups[n/3:], counts[n/3:], times[n/3:])
			same := func(want, got float64) { t.Helper(); assert.InDelta(t, want, got, 1e-12*math.Abs(want), n) }
			assert.Equal(t, one.Readings, together.Readings)
			assert.Equal(t, one.CountMin, together.CountMin)
			assert.Equal(t, one.CountMax, together.CountMax)
			assert.Equal(t, one.secondMax, together.secondMax)
			assert.Equal(t, [3]int{one.visits, one.laps, one.zeroCounts}, [3]int{together.visits, together.laps, together.zeroCounts})
			assert.Equal(t, [2]float64{one.ratioMin, one.ratioMax}, [2]float64{together.ratioMin, together.ratioMax})
			same(one.setups, together.setups)
			same(one.counts, together.counts)
			same(one.logCounts, together.logCounts)
			for _, form := range Forms[1:] {
				for q := range Spreads {
					if n < 3 || !one.CanFit(form) || one.zeroCounts > 0 && q > 0 {
						continue
					}
					f, g := one.Fit(form, q), together.Fit(form, q)
					same(f.SetupSec, g.SetupSec)
					same(f.UnitSec, g.UnitSec)
					same(f.RSS, g.RSS)
					same(f.TSS, g.TSS)
					same(f.cov.aa, g.cov.aa)
					same(f.cov.ab, g.cov.ab)
					same(f.cov.bb, g.cov.bb)
				}
			}
		}
	}
}

// Readings that lie on a line to the last digit leave no residual, taken in together too.
func TestTakeInKeepsDigits(t *testing.T) {
	var s Sums
	readings := make([]Reading, 10*blockSize)
	for i := range readings {
		n := 1e6 + float64(i)
		readings[i] = Reading{1, n, 1e-3 + n/4}
	}
	s.TakeIn(apart(readings))
	f := s.Fit(SetupUnit, 0)
	assert.InDelta(t, 0.25, f.UnitSec, 1e-11)
	assert.Less(t, f.RSS, 1e-12)
}

func BenchmarkAdd(b *testing.B) {
	var s Sums
	readings := someReadings(1024, false)
	for i := 0; b.Loop(); i++ {
		r := &readings[i%1024]
		s.Add(r.Setups, r.Count, r.Seconds)
	}
}

func BenchmarkTakeIn(b *testing.B) {
	setups, counts, times := apart(someReadings(1024, false))
	for _, n := range []int{1, 8, 44, 1024} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var s Sums
			for b.Loop() {
				s.TakeIn(setups[:n], counts[:n], times[:n])
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/reading")
		})
	}
}
