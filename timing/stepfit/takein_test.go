package stepfit

import (
	"fmt"
	"math"
	"math/big"
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
		all[i] = Reading{Load{1, count}, (30 + 4.3*count) * math.Exp(0.1*r.NormFloat64())}
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

// Readings are taken in together as one by one, whatever they are and however many.
func TestTakeInIsAdd(t *testing.T) {
	for _, odd := range []bool{false, true} {
		for n := 0; n < 2*blockSize+20; n += 1 + n/40 {
			var one, together Sums
			readings := someReadings(n, odd)
			for _, r := range readings {
				one.Add(r.Load, r.Seconds)
			}
			together.TakeIn(readings[:n/3])
			together.TakeIn(readings[n/3:])
			same := func(want, got float64) { t.Helper(); assert.InDelta(t, want, got, 1e-12*math.Abs(want), n) }
			assert.Equal(t, one.Readings, together.Readings)
			assert.Equal(t, one.CountMin, together.CountMin)
			assert.Equal(t, one.CountMax, together.CountMax)
			assert.Equal(t, one.secondMax, together.secondMax)
			assert.Equal(t, [3]int{one.visits, one.laps, one.zeroCounts}, [3]int{together.visits, together.laps, together.zeroCounts})
			assert.Equal(t, [2]float64{one.ratioMin, one.ratioMax}, [2]float64{together.ratioMin, together.ratioMax})
			same(one.load.Setups, together.load.Setups)
			same(one.load.Count, together.load.Count)
			same(one.logCounts, together.logCounts)
			for _, form := range Forms[1:] {
				for q := range Spreads {
					if n < 3 || !one.canFit(form) || one.zeroCounts > 0 && q > 0 {
						continue
					}
					f, g := one.fitOf(form, q), together.fitOf(form, q)
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
		readings[i] = Reading{Load{1, n}, 1e-3 + n/4}
	}
	s.TakeIn(readings)
	f := s.fitOf(SetupUnit, 0)
	assert.InDelta(t, 0.25, f.UnitSec, 1e-11)
	assert.Less(t, f.RSS, 1e-12)
}

// However near counts are to each other and times to a line, no digits are lost but those
// that rounded counts cannot tell.
func TestTakeInLosesNoDigits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, centre := range []float64{1, 40, 1e6} {
		for _, apart := range []float64{0, 1e-6, 1e-3, 0.05, 0.1, 0.2, 0.5, 3} {
			for _, scatter := range []float64{0, 1e-7, 1e-3, 0.1, 0.5} {
				for _, setup := range []float64{0, 1, 1000} {
					readings := make([]Reading, 300)
					for i := range readings {
						count := centre * (1 + apart*r.Float64())
						readings[i] = Reading{Load{1, count}, (setup + 3*count) * math.Exp(scatter*r.NormFloat64())}
					}
					var s Sums
					s.TakeIn(readings)
					for q := range Spreads {
						want, got := exactly(q, readings), s.centred[q]
						width, height := math.Sqrt(want.weight)*want.mean[1], math.Sqrt(want.weight)*want.mean[2]
						least := 1e-13
						if want.about.nn > 0 {
							least += 1e-16 * width / want.about.nn
						}
						of := fmt.Sprintf("centre %g, apart %g, scatter %g, setup %g, spread %d", centre, apart, scatter, setup, q)
						assert.InDelta(t, want.about.nn, got.about.nn, least*width, of)
						assert.InDelta(t, want.about.nt, math.Abs(got.about.nt), least*height, of)
						assert.InDelta(t, want.about.tt, math.Abs(got.about.tt), least*height, of)
						assert.InEpsilon(t, want.mean[1], got.mean[1], 1e-13, of)
						assert.InEpsilon(t, want.mean[2], got.mean[2], 1e-13, of)
					}
				}
			}
		}
	}
}

// exactly is what readings of one setup each come to, all above 0.
func exactly(q int, readings []Reading) centred {
	const bits = 200
	of := func(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }
	var w, n, t, nn, nt, tt = of(0), of(0), of(0), of(0), of(0), of(0)
	for _, r := range readings {
		count, seconds, weight := of(r.Count), of(r.Seconds), of(1)
		for range q {
			weight.Quo(weight, count)
		}
		add := func(sum *big.Float, factors ...*big.Float) {
			product := weight
			for _, f := range factors {
				product = new(big.Float).Mul(product, f)
			}
			sum.Add(sum, product)
		}
		add(w)
		add(n, count)
		add(t, seconds)
		add(nn, count, count)
		add(nt, count, seconds)
		add(tt, seconds, seconds)
	}
	about := func(products, x, y *big.Float) *big.Float {
		both := new(big.Float).Mul(x, y)
		return products.Sub(products, both.Quo(both, w))
	}
	xx, xy, yy := about(nn, n, n), about(nt, n, t), about(tt, t, t)
	float := func(x *big.Float) float64 { f, _ := x.Float64(); return f }
	c := centred{weight: float(w), mean: [columns]float64{1, float(n.Quo(n, w)), float(t.Quo(t, w))}}
	if float(xx) > 1e-40*float(nn) { // else nothing but rounding, of two hundred bits
		c.about.nn = math.Sqrt(float(xx))
		c.about.nt = math.Abs(float(xy)) / c.about.nn
		yy.Sub(yy, xy.Quo(xy.Mul(xy, xy), xx))
	}
	c.about.tt = math.Sqrt(max(0, float(yy)))
	return c
}

func BenchmarkAdd(b *testing.B) {
	var s Sums
	readings := someReadings(1024, false)
	for i := 0; b.Loop(); i++ {
		r := &readings[i%1024]
		s.Add(r.Load, r.Seconds)
	}
}

func BenchmarkTakeIn(b *testing.B) {
	readings := someReadings(1024, false)
	for _, n := range []int{1, 8, 44, 1024} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var s Sums
			for b.Loop() {
				s.TakeIn(readings[:n])
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/reading")
		})
	}
}
