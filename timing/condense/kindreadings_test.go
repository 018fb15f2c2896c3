package condense

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
)

// Readings of a kind come to the same, whether they wait, were taken in some at a time, or
// came as sums.
func TestReadingsOfAKind(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 8))
	for n := range 3*maxWaiting + 2 {
		var o kindReadings
		var want stepfit.Sums
		for i := range n {
			x := stepfit.Reading{Load: stepfit.Load{Setups: float64(1 + i%2), Count: float64(3 + r.IntN(50))}, Seconds: 20 + 200*r.Float64()}
			want.Add(x.Load, x.Seconds)
			if i%11 == 5 {
				var some stepfit.Sums
				some.Add(x.Load, x.Seconds)
				o.merge(some)
				continue
			}
			o.add(x)
		}
		require.Less(t, int(o.waiting), maxWaiting)
		waiting := 0
		o.each(func(stepfit.Reading) { waiting++ })
		require.Equal(t, int(o.waiting), waiting)

		got := o.all()
		require.Equal(t, n, got.Readings)
		require.Equal(t, []float64{want.CountMin, want.CountMax}, []float64{got.CountMin, got.CountMax})
		wantLoad, wantSeconds := want.Totals()
		var tally Tally
		tally.add(&o)
		require.Equal(t, n, tally.Readings)
		assert.InDelta(t, wantSeconds, tally.Seconds, 1e-9)
		assert.InDelta(t, wantLoad.Count, tally.Count, 1e-9)
		assert.InDelta(t, wantLoad.Setups, tally.Setups, 1e-9)
		if n < 4 {
			continue
		}
		a, b := want.Choose(stepfit.Options{}), got.Choose(stepfit.Options{})
		assert.InDelta(t, a.SetupSec, b.SetupSec, 1e-7)
		assert.InDelta(t, a.UnitSec, b.UnitSec, 1e-8)
		assert.InEpsilon(t, a.RSS, b.RSS, 1e-9)

		k := readingsByKind{blocks: []*[blockSize]kindReadings{{o}}, count: 1}
		c := k.Crosses(a.Fit)[0]
		cross := want.Cross(a.Fit)
		assert.InEpsilon(t, cross.Square, c.Square, 1e-9)
		assert.InEpsilon(t, cross.Timed, c.Timed, 1e-9)
	}
}
