package answer

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// The readings that stand out are those of a look at every reading, whether the kept
// ones tell or all are gone through again.
func TestKeptReadingsTellWhatStandsOut(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	normal := func() float64 { return r.NormFloat64() }
	heavy := func() float64 { x := r.NormFloat64(); return x * x * x }
	steady := func(float64) float64 { return 1 }
	drift := func(past float64) float64 { return 1 - 0.5*past }
	slowAtFirst := func(past float64) float64 {
		if past < 0.0275 {
			return 3
		}
		return 1
	}
	passes := map[bool]int{} // by whether a second one was needed
	for _, c := range []struct {
		name  string
		error func() float64
		power float64                    // of the count by which errors grow
		pace  func(past float64) float64 // of times, when so much of the readings is past
		least int                        // count
	}{
		{"even scatter", normal, 0, steady, 4}, {"scatter that grows", normal, 0.5, steady, 4}, {"scatter in proportion", normal, 1, steady, 4},
		{"heavy tails", heavy, 1, steady, 4}, {"a drift", normal, 0, drift, 4}, {"alike counts", normal, 0, steady, 15}, {"slow at first", normal, 0.5, slowAtFirst, 4},
	} {
		// 1024 are kept as the first
		for _, n := range []int{40, 1024, 1025, 2000, 40_000} {
			t.Run(fmt.Sprint(c.name, n), func(t *testing.T) {
				readings := make([]study.Reading, n)
				for i := range readings {
					count := float64(c.least + r.IntN(20-c.least))
					seconds := (60 + 9*count) * c.pace(float64(i)/float64(n))
					seconds += 8 * math.Pow(count/10, c.power) * c.error()
					if r.IntN(300) == 0 {
						seconds += 90
					}
					readings[i] = aReading("sow", count, max(1, seconds))
					readings[i].Place = study.Place{File: fmt.Sprint(i/1000, ".csv"), Line: i + 2} // a batch each
				}
				m := Fit(studyOf(readings), readings, Options{Grouping: NoGrouping})
				again := 0
				all := m.Again
				m.Again = func(look func(*condense.Batch), take func(*condense.Batch) error) error {
					again++
					return all(look, take)
				}
				found, err := m.standOuts()
				require.NoError(t, err)
				passes[again > 0]++
				screen, ok := m.Steps[0].Model.Screen()
				require.True(t, ok)
				var want []StandOut
				for _, r := range readings {
					if out, ok := screen.Check(stepfit.Reading{Load: stepfit.Load{Setups: 1, Count: r.Count}, Seconds: r.Seconds}); ok {
						want = append(want, standOut(condense.Timed{From: &condense.Origin{File: r.Place.File}, Line: r.Place.Line, Reading: stepfit.Reading{Load: stepfit.Load{Setups: 1, Count: r.Count}, Seconds: r.Seconds}}, out, m.Steps[0].Model.Form))
					}
				}
				assert.Equal(t, want, found[0])
				assert.LessOrEqual(t, again, 1)
			})
		}
	}
	assert.Greater(t, passes[false], 20, "few need a second pass")
	assert.Positive(t, passes[true], "some do")
}

// Very many readings are drawn every so manieth, those that stand out among them.
func TestCurveOfVeryMany(t *testing.T) {
	var readings []study.Reading
	for i := range 10*maxPoints + 7 {
		r := aReading("sow", float64(4+i%9), float64(60+9*(4+i%9)+i*7%11))
		r.Place.Line = i
		if i == 12_345 {
			r.Seconds = 999
		}
		readings = append(readings, r)
	}
	c := curveOf(t, studyOf(readings), readings, Options{})
	assert.LessOrEqual(t, len(c.Points), maxPoints+1)
	assert.Greater(t, len(c.Points), maxPoints/2)
	var out []int
	for _, p := range c.Points {
		if p.StandsOut {
			out = append(out, p.Line)
		}
	}
	assert.Equal(t, []int{12_345}, out)
	assert.Equal(t, len(readings), c.Readings)
}
