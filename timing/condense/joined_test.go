package condense

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// manyGrows are readings of so many grows, of two steps and two ways.
func manyGrows(n int) []study.Reading {
	readings := make([]study.Reading, n)
	for i := range readings {
		r := plainReading([]string{"sow", "pick"}[i%2])
		r.Grow, r.Workflow, r.Count = fmt.Sprint("g", i), []string{"tray", "plug"}[i/2%2], float64(1+i%50)
		readings[i] = r
	}
	return readings
}

// As many kinds as there is room for are told apart, one more and none is by its grow; what
// they come to by workflow stays exact, in later batches and with more readings too.
func TestMoreKindsThanThereIsRoomFor(t *testing.T) {
	t.Parallel()
	readings := manyGrows(maxKinds + 1001)
	full := gather(t, twoChanges(), Filter{}, readings[:maxKinds])
	require.False(t, full.Steps[0].Kinds.Joined)
	require.Equal(t, maxKinds/2, full.Steps[0].Kinds.count)

	over := gather(t, twoChanges(), Filter{}, readings[:maxKinds+1])
	for _, i := range []int{0, 2} { // those that were timed
		require.True(t, over.Steps[i].Kinds.Joined, over.Steps[i].Step.Name)
	}
	for _, c := range []*Condensed{
		gather(t, twoChanges(), Filter{}, readings[:20], readings[20:maxKinds+500], readings[maxKinds+500:]),
		full.With(readings[maxKinds:]),
		over.With(readings[maxKinds+1:]),
	} {
		for i, step := range []string{"sow", "", "pick"} {
			if step == "" {
				continue
			}
			kinds := &c.Steps[i].Kinds
			require.True(t, kinds.Joined)
			for _, way := range []string{"tray", "plug"} {
				var want Tally
				for _, r := range readings {
					if r.Step == step && r.Workflow == way {
						want.Readings++
						if want.Setups++; step == "sow" { // a setup of sowing covers 12
							want.Setups += math.Ceil(r.Count/12) - 1
						}
						want.Count += r.Count
						want.Seconds += r.Seconds
					}
				}
				got := kinds.Under(way)
				require.InDelta(t, want.Seconds, got.Seconds, 1e-9*want.Seconds)
				got.Seconds = want.Seconds
				require.Equal(t, want, got, step+" "+way)
			}
			require.LessOrEqual(t, kinds.count, 2)
		}
	}
	require.False(t, full.Steps[0].Kinds.Joined, "with more readings, what was there is as it was")
}

// Only so many names are listed.
func TestMoreNamesThanAreListed(t *testing.T) {
	c := gather(t, twoChanges(), Filter{}, manyGrows(MaxNames+5))
	require.Len(t, c.Grows, MaxNames)
	require.Equal(t, "g0", c.Grows[0])
	require.Equal(t, fmt.Sprint("g", MaxNames-1), c.Grows[MaxNames-1])
	require.Empty(t, c.Workers)
}

// Tallies go by any value that kinds have, in order of first appearance.
func TestTallies(t *testing.T) {
	var readings []study.Reading
	for i, worker := range []string{"cd", "ab", "cd", "", "cd", "cd", "cd"} {
		r := plainReading("pick")
		r.Worker, r.Grow, r.Count, r.Seconds = worker, fmt.Sprint("g", i/6), float64(i+1), float64(10*i+5)
		readings = append(readings, r)
	}
	names, tallies := gather(t, twoChanges(), Filter{}, readings).Steps[2].Kinds.Tallies(func(k Kind) string { return k.Worker })
	require.Equal(t, []string{"cd", "ab", ""}, names)
	require.Equal(t, []int{5, 1, 1}, []int{tallies[0].Readings, tallies[1].Readings, tallies[2].Readings})
	require.InDelta(t, 1+3+5+6+7, tallies[0].Count, 1e-12)
	require.InDelta(t, 5+25+45+55+65, tallies[0].Seconds, 1e-9)
	require.Equal(t, 2.0, tallies[1].Count)
}
