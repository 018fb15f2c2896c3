package plots

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"headhours/timing/answer"
	"headhours/timing/condense"
)

func TestNumbersInFigures(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ what, want, got string }{
		{"percent", "95 %", percent(0.95)}, {"percent", "99.9 %", percent(0.999)}, {"percent", "0 %", percent(0)}, {"percent", "86.67 %", percent(0.86666)},
		{"cents", "1.20", cents(1.2)},
		{"within", " (0.10 to 0.20)", within(known(0.1), known(0.2), cents)}, {"within", "", within(known(0.1), known(0.1), cents)}, {"within", "", within(unknown, known(1), cents)},
		{"quoted", "\"a\ufffdb\"", quoted("a\nb")}, {"list", "", list(nil)}, {"list", "a and b", list([]string{"a", "b"})},
		{"ofCrop", " of no named crop", ofCrop("")}, {"ofCrop", " of basil", ofCrop("basil")},
		{"notDrawn", "1 more way is not drawn.", notDrawn(1, "more way", "")}, {"notDrawn", "2 more steps, timed too, are not drawn.", notDrawn(2, "more step", ", timed too,")},
		{"signed", "0.0", signed(0.04)}, {"signed", "0.0", signed(-0.04)}, {"signed", "+0.1", signed(0.06)}, {"signed", "−12.3", signed(-12.34)}, {"factor", "1.10", factorText(1.1)},
		{"sum", "≥ 3 min (2 to 4)", sumWords([]string{"x"}, "3 min", " (2 to 4)")}, {"sum", "3 min", sumWords(nil, "3 min", "")},
	} {
		assert.Equal(t, c.want, c.got, c.what)
	}
	twenty := list(someNames(maxNames))
	assert.Contains(t, twenty, "name 18 and name 19")
	assert.Contains(t, list(someNames(maxNames+1)), "name 19 and 1 more")
	assert.Equal(t, "a b c.", spoken("a\n b", "  c."))
}

// Ticks of any axis rise evenly, lie within it, are as many as were asked for at most, and
// say where they stand.
func TestTicksOfAnyAxis(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		low := (random.Float64() - 0.5) * math.Pow(10, float64(random.IntN(9)-3))
		high := low + (0.01+random.Float64())*math.Pow(10, float64(random.IntN(9)-3))
		steps := 1 + random.IntN(8)
		ticks := even{steps, 0}.Ticks(low, high)
		assert.LessOrEqual(t, len(ticks), steps+1, "from %v to %v", low, high)
		slack := 1e-8 * (high - low)
		for i, tick := range ticks {
			assert.True(t, tick.Value >= low-slack-1e-9*math.Abs(low) && tick.Value <= high+slack+1e-9*math.Abs(high), "%v from %v to %v", tick.Value, low, high)
			if i > 1 {
				assert.InEpsilon(t, ticks[1].Value-ticks[0].Value, tick.Value-ticks[i-1].Value, 1e-6)
			}
			if i > 0 {
				assert.Greater(t, tick.Value, ticks[i-1].Value)
				assert.NotEqual(t, ticks[i-1].Label, tick.Label)
			}
		}
	}
	for least, want := range map[float64]float64{1: 1, 1.01: 2, 2: 2, 2.1: 5, 5: 5, 5.1: 10, 0.03: 0.05, 70: 100, 0.2: 0.2} {
		assert.InDelta(t, want, roundStep(least), 1e-12, "%v", least)
	}
	for want, c := range map[string][2]float64{"0": {0, 0.1}, "0.30": {0.3, 0.05}, "20": {20, 5}, "2e+05": {2e5, 1e5}, "3e-05": {3e-5, 1e-5}, "0.40001": {0.40001, 1e-5}, "1.234e+08": {1.234e8, 1e5}, "-0.5": {-0.5, 0.5}, "50000": {5e4, 5e4}} {
		assert.Equal(t, want, tickLabel(c[0], c[1]))
	}
}

// A short axis has fewer ticks, never none.
func TestTicksAcross(t *testing.T) {
	t.Parallel()
	before := 0
	for _, length := range []vg.Length{1, 40, 80, 160, 1000} {
		steps := across(length, 1000, 0).steps
		assert.GreaterOrEqual(t, steps, max(before, 1))
		before = steps
	}
	assert.Equal(t, 6, before)
	assert.Equal(t, 1, across(40, 1000, 0).steps)
	assert.InDelta(t, 1, across(100, 2, 1).minStep, 0)
}

func TestTicksOfFactorsAndDays(t *testing.T) {
	t.Parallel()
	at := func(m plot.Ticker, low, high float64) []string { return labels(m.Ticks(low, high)) }
	assert.Equal(t, []string{"0.75", "0.9", "1", "1.1", "1.25"}, at(factorTicks{}, 0.75, 4.0/3))
	assert.Equal(t, []string{"0.25", "0.5", "0.75", "1", "1.5", "2", "3", "4"}, at(factorTicks{}, 0.25, 4))
	assert.Equal(t, []string{"0.5", "0.75", "1"}, at(factorTicks{}, 0.4, 1))
	first := float64(condense.DayOf(monday))
	assert.Equal(t, []string{"2026-03-02"}, at(dayTicks{}, first-1, first+1))
	year := dayTicks{}.Ticks(first, first+365)
	assert.LessOrEqual(t, len(year), 4)
	for i, tick := range year {
		assert.Equal(t, math.Trunc(tick.Value), tick.Value)
		assert.Equal(t, condense.Day(tick.Value).Date().Format("2006-01-02"), tick.Label)
		assert.True(t, tick.Value >= first+36 && tick.Value <= first+365-36, "its label stays clear of the ends")
		if i > 1 {
			assert.InDelta(t, year[1].Value-year[0].Value, tick.Value-year[i-1].Value, 0)
		}
	}
	assert.Equal(t, []string{"Mon", "Tue"}, at(nameTicks{"Mon", "Tue"}, 0, 1))
}

func TestFactorRange(t *testing.T) {
	t.Parallel()
	of := func(factors ...float64) []answer.GrowFactor {
		g := answer.GrowFactor{}
		for _, f := range factors {
			g.Steps = append(g.Steps, answer.StepFactor{Factor: f})
		}
		return []answer.GrowFactor{{}, g}
	}
	for _, c := range []struct {
		grows     []answer.GrowFactor
		low, high float64
	}{{of(1), 0.75, 4.0 / 3}, {of(0.5, 1.1), 0.5 / 1.05, 4.0 / 3}, {of(2), 0.75, 2.1}, {of(0.01, 100), 0.25, 4}} {
		low, high := factorRange(c.grows)
		assert.InDelta(t, c.low, low, 1e-12)
		assert.InDelta(t, c.high, high, 1e-12)
	}
}

// Marks are about one point, as large as their radius says, and differ.
func TestMarks(t *testing.T) {
	t.Parallel()
	center := vg.Point{X: 100, Y: 50}
	for i, mark := range marks {
		r := extent(mark(center, 4))
		if i == 0 {
			continue // a circle, whose arc the extent does not follow
		}
		for _, side := range []vg.Length{center.X - r.Min.X, r.Max.X - center.X, r.Max.Y - center.Y} {
			assert.InDelta(t, 4.6, float64(side), 1.2, "mark %d", i)
		}
		assert.InDelta(t, float64(center.X), float64(r.Min.X+r.Max.X)/2, 1e-9)
	}
	upright := extent(triangle(center, 4))
	assert.Greater(t, float64(upright.Max.Y-center.Y), float64(center.Y-upright.Min.Y), "its tip is above")
	lying, standing := extent(square(center, 4)), extent(diamond(center, 4))
	assert.Less(t, float64(lying.Max.Y), float64(standing.Max.Y), "one stands on a side, the other on a corner")
}

// Signs of a key stand side by side, in as many lines as they need, none beside the figure.
func TestKeysBreak(t *testing.T) {
	t.Parallel()
	entries := func(texts ...string) (all []keyEntry) {
		for _, text := range texts {
			all = append(all, keyEntry{areaSign(restFill), text})
		}
		return all
	}
	assert.Zero(t, float64(key(nil).height))
	assert.InDelta(t, float64(plain.height(1)), float64(key(entries("a", "b")).height), 1e-9)
	assert.InDelta(t, float64(plain.height(3)), float64(key(entries(awkward[8], awkward[8], "a")).height), 1e-9)
	f := Figure{blocks: []block{key(entries(someNames(20)...))}}
	readable(t, f)
	assert.Len(t, filled(f, restFill), 20)
	for i, sign := range filled(f, restFill) {
		w, ok := where(f, someNames(20)[i])
		assert.True(t, ok)
		assert.InDelta(t, float64(w.Min.X-sign.Max.X), 8, 4, "a sign stands before its words")
		assert.True(t, sign.Min.Y < w.Max.Y && sign.Max.Y > w.Min.Y, "and beside them")
	}
}
