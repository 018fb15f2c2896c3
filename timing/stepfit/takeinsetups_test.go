package stepfit

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Blocks of readings of several setups, alike or not, have the counts per setup, the sums
// and the fits of the same readings one by one.
func TestTakeInOfSeveralSetups(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	for _, setups := range [][]float64{{1}, {3}, {1, 2}, {1, 2, 5}} {
		for _, n := range []int{1, 2, 127, 128, 129, 1500} {
			var readings []Reading
			for range n {
				x := Load{setups[r.IntN(len(setups))], float64(5 + r.IntN(90))}
				readings = append(readings, Reading{x, 20*x.Setups + 4*x.Count + 9*r.Float64()})
			}
			one, together := sumsFrom(readings), Sums{}
			together.TakeIn(readings)
			least, most, _ := one.CountPerSetup()
			gotLeast, gotMost, ok := together.CountPerSetup()
			require.Equal(t, []any{least, most, true}, []any{gotLeast, gotMost, ok}, "%v %d", setups, n)
			require.InDelta(t, one.Mean().Setups, together.Mean().Setups, 1e-12)
			require.InDelta(t, one.Mean().Count, together.Mean().Count, 1e-10)
			for _, form := range []Form{Unit, Setup, SetupUnit} {
				require.Equal(t, one.canFit(form), together.canFit(form))
				for q := range Spreads {
					if one.canFit(form) {
						require.InEpsilon(t, one.fitOf(form, q).At(Load{2, 30}), together.fitOf(form, q).At(Load{2, 30}), 1e-10, "%v %v %d", setups, form, n)
					}
				}
			}
		}
	}
}

// The logarithms of counts so many that their product is beyond all numbers are summed all
// the same, of large counts and of small.
func TestLogarithmsOfManyCounts(t *testing.T) {
	for _, scale := range []float64{1e-40, 1e-3, 1, 1e9, 1e40} {
		var readings []Reading
		for i := range 900 {
			count := scale * float64(1+i%70)
			readings = append(readings, Reading{Load{1, count}, count + scale*float64(i%3)})
		}
		one, together := sumsFrom(readings), Sums{}
		together.TakeIn(readings)
		require.InEpsilon(t, one.logCounts, together.logCounts, 1e-12, "%v", scale)
	}
}
