package stepfit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A reading stands out as it does from a fit of the others alone.
func TestStandsOutIsLeavingOut(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(9, 9))
	named := 0
	for round := range 60 {
		readings := someReadings(4+r.IntN(12), false)
		for i := range readings {
			readings[i].Setups = float64(1 + r.IntN(2))
			readings[i].Count = float64(5 + r.IntN(50))
			readings[i].Seconds = (20*readings[i].Setups + 4*readings[i].Count) * math.Exp(0.1*r.NormFloat64())
		}
		readings[round%len(readings)].Seconds *= 1.5
		s := sumsFrom(readings)
		for _, form := range []Form{Unit, Setup, SetupUnit} {
			for q := range Spreads {
				f := s.fitOf(form, q)
				screen, ok := f.Screen()
				require.True(t, ok)
				for i, x := range readings {
					others := append(append([]Reading{}, readings[:i]...), readings[i+1:]...)
					if !sumsFrom(others).canFit(form) {
						continue
					}
					w := exactFit(others, form, q)
					weight := math.Pow(x.Count, -float64(q))
					df := f.DF - 1
					variance := w.RSS / df * (1/weight + w.cov.of(x.Load))
					want := (x.Seconds - w.At(x.Load)) / math.Sqrt(variance)
					_, out := screen.Check(x)
					got := screen.outlier(x, screen.studentised(x))
					p := min(1, float64(len(readings))*TwoSided(want, df))
					what := fmt.Sprint(round, form, q, i)
					require.InDelta(t, want, got.Studentised, 1e-7*math.Abs(want)+1e-9, what)
					require.InDelta(t, p, got.P, 1e-6*p, what)
					require.InDelta(t, w.SetupSec, got.SetupSec, 1e-8*(math.Abs(w.SetupSec)+1), what)
					require.InDelta(t, w.UnitSec, got.UnitSec, 1e-8*(math.Abs(w.UnitSec)+1), what)
					require.Equal(t, p < 0.05, out, what)
					if out {
						named++
					}
				}
			}
		}
	}
	require.Greater(t, named, 30)
}

// No reading stands out of which a look at the fit alone says so beforehand.
func TestWithinTellsOfNone(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 9))
	within := 0
	for range 100 {
		readings := someReadings(20+r.IntN(60), false)
		for i := range readings {
			readings[i].Seconds *= math.Exp(0.05 * r.NormFloat64())
		}
		s := sumsFrom(readings)
		for q := range Spreads {
			f, other := s.fitOf(SetupUnit, q), sumsFrom(readings[:15]).fitOf(SetupUnit, 0)
			screen, _ := f.Screen()
			for _, seconds := range []float64{0.1, 1, 10, 100} {
				if !screen.Within(other.SetupSec, other.UnitSec, seconds, s) {
					continue
				}
				within++
				for _, x := range readings {
					near := math.Abs(x.Seconds-other.At(x.Load)) <= seconds*math.Pow(x.Count, float64(q)/2)
					_, out := screen.Check(x)
					require.False(t, near && out, "%v within %v", x, seconds)
				}
			}
		}
	}
	require.Greater(t, within, 20)
}

// What many readings would do is tried one number after the other.
func TestReadingsForByTrying(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 9))
	for range 60 {
		readings := someReadings(3+r.IntN(10), false)
		for i := range readings {
			readings[i].Seconds *= math.Exp(0.3 * r.NormFloat64())
		}
		for _, form := range []Form{Unit, Setup, SetupUnit} {
			f := sumsFrom(readings).fitOf(form, r.IntN(3))
			if f.AtMean() <= 0 {
				continue
			}
			for _, df := range []func(float64) float64{func(own float64) float64 { return own }, func(own float64) float64 { return own/2 + 1 }} {
				got, ok := f.ReadingsFor(0.1, 0.95, df)
				require.True(t, ok)
				enough := func(m int) bool {
					se := math.Sqrt(f.Variance(f.mean) * float64(len(readings)) / float64(m))
					return Quantile(0.95, df(float64(m-form.Parameters())))*se <= 0.1*f.AtMean()
				}
				require.True(t, enough(got))
				require.True(t, got == form.Parameters()+1 || !enough(got-1), got)
			}
		}
	}
}

// A fit through the origin of a mean below nothing asks for no number of readings.
func TestReadingsForNothing(t *testing.T) {
	f := Fit{Form: Unit, Readings: 3, UnitSec: -1, SD: 1, mean: Load{1, 10}, cov: covariance{bb: 1}}
	_, ok := f.ReadingsFor(0.1, 0.95, func(own float64) float64 { return own })
	assert.False(t, ok)
	f.UnitSec = 1e-9
	_, ok = f.ReadingsFor(0.1, 0.95, func(own float64) float64 { return own })
	assert.False(t, ok, "more than anybody takes")
}

// A scatter that is given comes back as the coefficient of variation that it was.
func TestCVThereAndBack(t *testing.T) {
	s := sumsFrom(someReadings(12, false))
	for _, form := range []Form{Unit, Setup, SetupUnit} {
		for q := range Spreads {
			f := s.fitOf(form, q)
			for _, cv := range []float64{0, 0.07, 0.2, 1.5} {
				got, ok := f.WithCV(cv).CV()
				assert.True(t, ok)
				assert.InDelta(t, cv, got, 1e-12)
				variation, ok := f.WithCV(cv).Variation()
				assert.True(t, ok)
				assert.InDelta(t, cv, variation, 1e-12)
			}
			at := f.mean.Count
			assert.InDelta(t, 0.2*f.AtMean(), math.Sqrt(f.WithCV(0.2).OneMore(at)), 1e-9, "one reading at the mean count scatters so")
			assert.Equal(t, 3.5, f.WithSD(3.5).SD)
		}
	}
}

// The scatter of visits is that of as many readings as they have setups, each of its part of
// the count; what grows share they bear in parts.
func TestScatterOfVisits(t *testing.T) {
	f := Fit{Form: SetupUnit, Readings: 5, SD: 3, DF: 3}
	for q, want := range []float64{2*9.0 + 9, 2*9*15 + 9*40, 2*9*15*15 + 9*40*40} {
		f.Spread = q
		visits := []Visit{{Load{2, 30}, 1}, {Load{1, 40}, 1}}
		assert.InDelta(t, want, f.Scatter(visits), 1e-9)
		visits[1].SharedBy = 2
		shared := map[int]float64{0: 18 + 9.0/4, 1: 270 + 360.0/4, 2: 4050 + 14400.0/4}
		assert.InDelta(t, shared[q], f.Scatter(visits), 1e-9)
	}
	judged := Judged(Unit, 5, 1)
	assert.Zero(t, judged.Scatter([]Visit{{Load{1, 9}, 1}}))
	assert.Zero(t, judged.OneMore(9))
}

// A judgement is of a mean: of a setup or of a unit, and of nothing else.
func TestJudgedFit(t *testing.T) {
	visit, unit := Judged(Setup, 250, 30), Judged(Unit, 5, 0.5)
	assert.Equal(t, []float64{500, 20}, []float64{visit.At(Load{2, 9}), unit.At(Load{2, 4})})
	assert.Equal(t, []float64{3600, 4}, []float64{visit.Variance(Load{2, 9}), unit.Variance(Load{2, 4})})
	assert.True(t, visit.Judged() && math.IsInf(visit.DF, 1))
	_, ok := unit.CV()
	assert.False(t, ok)
	_, ok = unit.R2()
	assert.False(t, ok)
}

// Variances and covariances are those of the matrix, whatever is asked for.
func TestCovarianceOfLoads(t *testing.T) {
	f := sumsFrom(someReadings(9, false)).fitOf(SetupUnit, 1)
	x, y := Load{2, 30}, Load{1, 7}
	inverse := f.Inverse()
	want := 0.0
	for i, a := range []float64{x.Setups, x.Count} {
		for k, b := range []float64{y.Setups, y.Count} {
			want += a * inverse[i][k] * b
		}
	}
	assert.InEpsilon(t, f.SD*f.SD*want, f.CovarianceOf(x, y), 1e-12)
	assert.InEpsilon(t, f.Variance(x), f.CovarianceOf(x, x), 1e-12)
	assert.InEpsilon(t, f.SD*f.SD*f.Leverage(x), f.Variance(x), 1e-12)
	sum := f.Variance(x) + 2*f.CovarianceOf(x, y) + f.Variance(y)
	assert.InEpsilon(t, sum, f.Variance(x.Plus(y)), 1e-12)
	assert.InEpsilon(t, 9*f.Variance(x), f.Variance(x.Times(3)), 1e-12)
}

// Half of what is beyond a quantile on either side is the confidence left, for few degrees
// of freedom and many, and where one way of reckoning takes over from another.
func TestQuantileIsTheInverse(t *testing.T) {
	for _, df := range []float64{0.5, 1, 1.7, 2, 3, 10, 99, 9_999, manyDF * (1 - 1e-9), manyDF, 1e9, math.Inf(1)} {
		before := 0.0
		for _, confidence := range []float64{0.01, 0.5, 0.8, 0.95, 0.99, 0.9999} { // less than 0.1: as the library has it
			q := Quantile(confidence, df)
			assert.InEpsilon(t, 1-confidence, TwoSided(q, df), 1e-7, "%v %v", confidence, df)
			assert.InEpsilon(t, TwoSided(q, df), TwoSided(-q, df), 1e-15)
			assert.Greater(t, q, before)
			before = q
			if newton, ok := newtonT((1-confidence)/2, df); ok {
				assert.Equal(t, q, newton)
				assert.InEpsilon(t, 1-confidence, TwoSided(q, df), 1e-10, "%v %v", confidence, df)
			} else {
				assert.True(t, df < 1 || df >= manyDF || confidence < 0.1, "%v %v", confidence, df)
			}
		}
	}
	assert.InEpsilon(t, Quantile(0.95, manyDF*(1-1e-12)), Quantile(0.95, manyDF), 1e-9)
	// far out, where turning the incomplete beta function round goes astray
	for _, df := range []float64{1, 2.99, 3, 30, 9_999, manyDF * (1 - 1e-9)} {
		assert.InEpsilon(t, 1e-10, TwoSided(Quantile(1-1e-10, df), df), 1e-6, "%v", df)
	}
	assert.InDelta(t, 12.7062047361747, Quantile(0.95, 1), 1e-9) // tan(0.475π)
	assert.InDelta(t, 4.30265272974946, Quantile(0.95, 2), 1e-9) // 0.95·√(2/(1 − 0.95²))
	assert.InDelta(t, 1.95996398454005, Quantile(0.95, math.Inf(1)), 1e-9)
	assert.InDelta(t, 1, TwoSided(0, 7), 1e-12)
}

func TestLoads(t *testing.T) {
	a, b := Load{1, 20}, Load{0.5, 3}
	assert.Equal(t, Load{1.5, 23}, a.Plus(b))
	assert.Equal(t, Load{3, 60}, a.Times(3))
	assert.Equal(t, Load{0.5, 60}, a.By(b))
}
