package stepfit

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// ψ'(1) = π²/6, ψ'(1/2) = π²/2, ψ'(x + 1) = ψ'(x) − 1/x² (Abramowitz and Stegun,
// 6.4.2, 6.4.4 and 6.4.6); ψ″(1) = −2ζ(3), ζ(3) = 1.2020569031595942 (table 23.3).
func TestTrigamma(t *testing.T) {
	assert.InEpsilon(t, math.Pi*math.Pi/6, trigamma(1), 1e-14)
	assert.InEpsilon(t, math.Pi*math.Pi/2, trigamma(0.5), 1e-14)
	assert.InEpsilon(t, -2*1.2020569031595942, tetragamma(1), 1e-14)
	for _, x := range []float64{0.01, 0.7, 3, 40, 1e4} {
		assert.InEpsilon(t, trigamma(x)-1/(x*x), trigamma(x+1), 1e-9, "x %v", x)
	}
}

func TestTrigammaInverse(t *testing.T) {
	for _, y := range []float64{1e-4, 0.01, 0.3, 0.5, 1, 2, 17, 1e3, 1e6, 1e8} {
		assert.InEpsilon(t, y, trigammaInverse(trigamma(y)), 1e-6, "y %v", y)
	}
}

// Variances drawn as the prior says, of two to four degrees of freedom each, give it
// back (Smyth 2004, section 3: s² ~ s₀²F(d, d₀)).
func TestPriorIsFoundAgain(t *testing.T) {
	random := rand.New(rand.NewPCG(2004, 3))
	for _, want := range []Prior{{1, 2}, {0.04, 4}, {9, 6}} {
		var variances, df []float64
		for i := range 40000 {
			d := float64(2 + i%3)
			f := distuv.F{D1: d, D2: want.DF, Src: random}
			variances, df = append(variances, want.Variance*f.Rand()), append(df, d)
		}
		got, ok := PriorOf(variances, df)
		require.True(t, ok)
		assert.InEpsilon(t, want.DF, got.DF, 0.08)
		assert.InEpsilon(t, want.Variance, got.Variance, 0.05)
	}
}

func TestPriorOf(t *testing.T) {
	// by hand: two variances with 2 degrees of freedom each, ψ(1) = −γ and ψ'(1) =
	// π²/6, a factor e⁴ apart, so that ψ'(d/2) = 4²/2 − π²/6
	far, ok := PriorOf([]float64{math.Exp(-2), math.Exp(2)}, []float64{2, 2})
	require.True(t, ok)
	assert.InEpsilon(t, 8-math.Pi*math.Pi/6, trigamma(far.DF/2), 1e-9)
	const gamma = 0.57721566490153286
	assert.InEpsilon(t, gamma+logBias(far.DF), math.Log(far.Variance), 1e-9)

	alike, ok := PriorOf([]float64{1, 1.1, 0.9}, []float64{2, 2, 2})
	require.True(t, ok)
	assert.True(t, math.IsInf(alike.DF, 1), "they differ by less than chance")

	for name, variances := range map[string][]float64{"one": {2}, "none": nil, "no scatter": {0, 0, 0}} {
		_, ok := PriorOf(variances, []float64{1, 1, 1}[:len(variances)])
		assert.False(t, ok, name)
	}
	exact, ok := PriorOf([]float64{0, 1, 1.2, 0.8}, []float64{3, 3, 3, 3})
	require.True(t, ok)
	assert.False(t, math.IsInf(exact.DF, 0), "a step without scatter is unlike the others, but has a logarithm")
}

// (d₀s₀² + d·s²)/(d₀ + d), Smyth 2004, section 3.
func TestModerate(t *testing.T) {
	variance, df := Prior{Variance: 4, DF: 3}.Moderate(10, 1)
	assert.InDelta(t, (3*4+1*10)/4.0, variance, 1e-15)
	assert.InDelta(t, 4, df, 0)
	variance, df = Prior{Variance: 4, DF: 3}.Moderate(0, 0)
	assert.InDelta(t, 4, variance, 0)
	assert.InDelta(t, 3, df, 0)
	variance, df = Prior{Variance: 4, DF: math.Inf(1)}.Moderate(10, 1)
	assert.InDelta(t, 4, variance, 0)
	assert.True(t, math.IsInf(df, 1))
}
