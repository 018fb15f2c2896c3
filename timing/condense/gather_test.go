package condense

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// someReadings are invented readings of two steps, of several grows and workers.
func someReadings(n int) []study.Reading {
	r := rand.New(rand.NewPCG(3, 4))
	readings := make([]study.Reading, n)
	for i := range readings {
		readings[i] = study.Reading{
			Step: []string{"sow", "thin"}[r.IntN(2)], Grow: fmt.Sprint("g", r.IntN(4)), Worker: fmt.Sprint("w", r.IntN(3)),
			Date:   time.Date(2026, 3, 1+r.IntN(20), 0, 0, 0, 0, time.UTC),
			People: 1, Rating: 100, Count: float64(1 + r.IntN(40)), Seconds: 20 + 300*r.Float64(), Source: study.Watch,
		}
		if r.IntN(10) == 0 {
			readings[i].Void = "a visitor came"
		}
	}
	return readings
}

func gathered(t *testing.T, filter Filter, parts ...[]study.Reading) *Condensed {
	t.Helper()
	g := Gather(&study.Study{Steps: []study.Step{{Name: "sow"}, {Name: "thin"}}}, filter)
	var all []study.Reading
	for _, part := range parts {
		require.NoError(t, InMemory(part)(nil, g.Take))
		all = append(all, part...)
	}
	return g.Condensed(InMemory(all))
}

// Readings come to the same however they are cut, and however late some come.
func TestGatheredInParts(t *testing.T) {
	readings := someReadings(900)
	whole := gathered(t, Filter{}, readings)
	for _, c := range []*Condensed{
		gathered(t, Filter{}, readings[:1], readings[1:400], readings[400:]),
		gathered(t, Filter{}, readings[:300]).With(readings[300:700]).With(readings[700:]),
	} {
		require.Len(t, c.Steps, 2)
		for i := range c.Steps {
			assert.Equal(t, whole.Steps[i].Readings, c.Steps[i].Readings)
			assert.Equal(t, whole.Steps[i].Voided, c.Steps[i].Voided)
			load, seconds := whole.Steps[i].Sums.Totals()
			gotLoad, gotSeconds := c.Steps[i].Sums.Totals()
			assert.InEpsilonSlice(t, []float64{load.Setups, load.Count, seconds}, []float64{gotLoad.Setups, gotLoad.Count, gotSeconds}, 1e-12)
		}
		assert.Equal(t, whole.Grows, c.Grows)
		assert.Equal(t, whole.Workers, c.Workers)
	}
}

// A filter takes what it names, and what is void is counted apart.
func TestGatheredByFilter(t *testing.T) {
	readings := someReadings(500)
	filter := Filter{Worker: "w1", Grow: "g2", Since: time.Date(2026, 3, 5, 0, 0, 0, 0, time.UTC), Until: time.Date(2026, 3, 15, 0, 0, 0, 0, time.UTC)}
	want := map[string][2]int{}
	for _, r := range readings {
		if r.Worker != "w1" || r.Grow != "g2" || r.Date.Before(filter.Since) || r.Date.After(filter.Until) {
			continue
		}
		n := want[r.Step]
		n[min(len(r.Void), 1)]++
		want[r.Step] = n
	}
	for _, s := range gathered(t, filter, readings).Steps {
		assert.Equal(t, want[s.Step.Name], [2]int{s.Readings, s.Voided})
	}
}
