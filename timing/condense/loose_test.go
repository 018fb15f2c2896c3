package condense

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Readings of many kinds, so many that they are brought to their kinds more than once, are all with
// those in the end, with their days.
func TestLooseReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 11))
	type has struct {
		sums  stepfit.Sums
		dates dateRange
	}
	want := map[Kind]*has{}
	var parts [][]study.Reading
	for range (maxLoose + 20_000) / 1000 {
		var part []study.Reading
		for range 1000 {
			x := plainReading("pick")
			x.Grow, x.Worker = fmt.Sprint("g", r.IntN(100)), fmt.Sprint("w", r.IntN(6))
			x.Count = float64(1 + r.IntN(50))
			x.Seconds = 20 + 5*x.Count + 9*r.Float64()
			if r.IntN(50) > 0 {
				x.Date = day(1 + r.IntN(28))
			}
			kind := Kind{x.Workflow, x.Grow, x.Worker}
			if want[kind] == nil {
				want[kind] = &has{dates: noDays}
			}
			want[kind].sums.Add(stepfit.Load{Setups: 1, Count: x.Count}, x.Seconds)
			want[kind].dates.add(DayOf(x.Date))
			part = append(part, x)
		}
		parts = append(parts, part)
	}
	kinds := 0
	for kind, o := range gather(t, twoChanges(), Filter{}, parts...).Steps[2].Kinds.All() {
		w, got := want[kind], o.all()
		kinds++
		require.Equal(t, w.dates, o.dateRange)
		require.Equal(t, w.sums.Readings, got.Readings)
		require.InEpsilon(t, w.sums.Mean().Count, got.Mean().Count, 1e-10)
		require.InEpsilon(t, w.sums.Choose(stepfit.Options{}).UnitSec, got.Choose(stepfit.Options{}).UnitSec, 1e-9)
	}
	require.Len(t, want, kinds)
}
