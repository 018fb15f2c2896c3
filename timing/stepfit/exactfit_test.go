package stepfit

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// wide is a number of three hundred bits.
func wide(x float64) *big.Float { return new(big.Float).SetPrec(300).SetFloat64(x) }

func mul(x *big.Float, others ...*big.Float) *big.Float {
	p := wide(1).Set(x)
	for _, o := range others {
		p.Mul(p, o)
	}
	return p
}

func add(x, y *big.Float) *big.Float { return wide(0).Add(x, y) }
func sub(x, y *big.Float) *big.Float { return wide(0).Sub(x, y) }
func quo(x, y *big.Float) *big.Float { return wide(0).Quo(x, y) }

func narrow(x *big.Float) float64 {
	f, _ := x.Float64()
	return f
}

// exactFit is a fit by its normal equations, in numbers so wide that none of them loses
// what a float64 has.
func exactFit(readings []Reading, form Form, q int) (f Fit) {
	sums := map[string]*big.Float{}
	for _, key := range []string{"w", "mm", "mn", "nn", "mt", "nt", "tt", "t"} {
		sums[key] = wide(0)
	}
	weights := make([]*big.Float, len(readings))
	for i, r := range readings {
		w := wide(1)
		for range q {
			w = quo(w, wide(r.Count))
		}
		weights[i] = w
		m, n, t := wide(r.Setups), wide(r.Count), wide(r.Seconds)
		for key, x := range map[string]*big.Float{"w": wide(1), "mm": mul(m, m), "mn": mul(m, n), "nn": mul(n, n), "mt": mul(m, t), "nt": mul(n, t), "tt": mul(t, t), "t": t} {
			sums[key] = add(sums[key], mul(w, x))
		}
	}
	a, b := wide(0), wide(0)
	switch form {
	case Unit:
		b = quo(sums["nt"], sums["nn"])
		f.cov.bb = narrow(quo(wide(1), sums["nn"]))
	case Setup:
		a = quo(sums["mt"], sums["mm"])
		f.cov.aa = narrow(quo(wide(1), sums["mm"]))
	default:
		det := sub(mul(sums["mm"], sums["nn"]), mul(sums["mn"], sums["mn"]))
		a = quo(sub(mul(sums["mt"], sums["nn"]), mul(sums["nt"], sums["mn"])), det)
		b = quo(sub(mul(sums["nt"], sums["mm"]), mul(sums["mt"], sums["mn"])), det)
		f.cov = covariance{narrow(quo(sums["nn"], det)), -narrow(quo(sums["mn"], det)), narrow(quo(sums["mm"], det))}
	}
	rss, tss, mean := wide(0), wide(0), quo(sums["t"], sums["w"])
	for i, r := range readings {
		rest := sub(wide(r.Seconds), add(mul(a, wide(r.Setups)), mul(b, wide(r.Count))))
		rss = add(rss, mul(weights[i], rest, rest))
		about := sub(wide(r.Seconds), mean)
		if form == Unit {
			about = wide(r.Seconds)
		}
		tss = add(tss, mul(weights[i], about, about))
	}
	f.SetupSec, f.UnitSec, f.RSS, f.TSS = narrow(a), narrow(b), narrow(rss), narrow(tss)
	return f
}

// sumsFrom takes readings in one by one.
func sumsFrom(readings []Reading) (s Sums) {
	for _, r := range readings {
		s.Add(r.Load, r.Seconds)
	}
	return s
}

// Every form and spread of few readings and many, of counts alike and far apart, of a
// thousand million or a thousandth, is that of numbers that lose nothing.
func TestFitIsExact(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 8))
	for _, scale := range []float64{1e-3, 1, 1e9} {
		for _, seconds := range []float64{1e-3, 1, 1e7} {
			for n := 1; n <= 9; n++ {
				var readings []Reading
				for range n {
					x := Load{float64(r.IntN(3)), scale * float64(1+r.IntN(60))}
					readings = append(readings, Reading{x, seconds * (40*x.Setups + 5*x.Count/scale) * math.Exp(0.2*r.NormFloat64())})
				}
				s := sumsFrom(readings)
				for _, form := range []Form{Unit, Setup, SetupUnit} {
					for q := range Spreads {
						if !s.canFit(form) {
							continue
						}
						what := fmt.Sprint(form, q, n, scale, seconds, readings)
						want, got := exactFit(readings, form, q), s.fitOf(form, q)
						size := math.Abs(want.SetupSec) + math.Abs(want.UnitSec)*scale
						require.InDelta(t, want.SetupSec, got.SetupSec, 1e-10*size, what)
						require.InDelta(t, want.UnitSec*scale, got.UnitSec*scale, 1e-10*size, what)
						require.InDelta(t, want.TSS, got.TSS, 1e-12*(want.TSS+seconds*seconds), what)
						for _, pair := range [][2]float64{{want.cov.aa, got.cov.aa}, {want.cov.ab, got.cov.ab}, {want.cov.bb, got.cov.bb}} {
							require.InDelta(t, pair[0], pair[1], 1e-9*math.Abs(pair[0]), what)
						}
						if n > form.Parameters() {
							require.InDelta(t, want.RSS, got.RSS, 1e-9*want.RSS, what)
							require.Equal(t, float64(n-form.Parameters()), got.DF)
							require.InDelta(t, math.Sqrt(want.RSS/got.DF), got.SD, 1e-9*got.SD, what)
						} else {
							require.Zero(t, got.RSS, what)
							require.Zero(t, got.DF, what)
							require.Zero(t, got.SD, what)
						}
					}
				}
			}
		}
	}
}

// The log-likelihood is that of independent normal readings whose variance is the maximum
// likelihood one times count^q: the sum of the logarithms of their densities.
func TestLogLikelihoodIsThatOfTheDensities(t *testing.T) {
	readings := someReadings(40, false)
	s := sumsFrom(readings)
	for _, form := range []Form{Unit, Setup, SetupUnit} {
		for q := range Spreads {
			f := s.fitOf(form, q)
			var sum float64
			for _, r := range readings {
				variance := f.RSS / 40 * math.Pow(r.Count, float64(q))
				rest := r.Seconds - f.At(r.Load)
				sum += -0.5*math.Log(2*math.Pi*variance) - rest*rest/(2*variance)
			}
			require.InDelta(t, sum, f.LogLikelihood, 1e-9*math.Abs(sum), "%v %v", form, q)
		}
	}
}

// What readings come to beside a fit is the sum of what each comes to, plainly reckoned.
func TestCrossIsTheSumOfReadings(t *testing.T) {
	readings := someReadings(60, true)
	var some []Reading
	for _, r := range readings {
		if r.Count > 0 {
			some = append(some, r)
		}
	}
	s := sumsFrom(some)
	for _, form := range []Form{Unit, Setup, SetupUnit} {
		for q := range Spreads {
			f := s.fitOf(form, q)
			var want, each Cross
			for _, r := range some {
				w, fitted := math.Pow(r.Count, -float64(q)), f.SetupSec*r.Setups+f.UnitSec*r.Count
				want.Square += w * fitted * fitted
				want.Timed += w * fitted * r.Seconds
				if form != Unit {
					want.Column[0] += w * r.Setups * fitted
				}
				if form != Setup {
					want.Column[1] += w * r.Count * fitted
				}
				each.Add(r.Cross(f))
			}
			for _, got := range []Cross{s.Cross(f), each} {
				require.InEpsilon(t, want.Square, got.Square, 1e-11)
				require.InEpsilon(t, want.Timed, got.Timed, 1e-11)
				require.InDeltaSlice(t, want.Column[:], got.Column[:], 1e-10*(want.Column[0]+want.Column[1]))
			}
		}
	}
}
