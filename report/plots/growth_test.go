package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"headhours/timing"
)

// aScale is one way of working, timed at so many of its numbers of heads.
func aScale(beyond ...bool) timing.Scale {
	line := timing.ScaleLine{Workflow: "tray"}
	for i, b := range beyond {
		heads := 10 << i
		line.Points = append(line.Points, timing.ScalePoint{
			Heads: heads, Hours: 1 + float64(heads)/20, MinutesPerHead: 60/float64(heads) + 3,
			Low: known(0.5 + float64(heads)/20), High: known(1.5 + float64(heads)/20), Extrapolated: b,
		})
	}
	return timing.Scale{Confidence: 0.95, Workflows: []timing.ScaleLine{line}}
}

// Lines are dashed to and from each point beyond what was timed, in both charts.
func TestGrowthDashes(t *testing.T) {
	const dash, solid = "stroke-dasharray:5,3", "stroke-width:1.6"
	for name, c := range map[string]struct {
		beyond         []bool
		dashed, undone int // stretches of a line; signs in the key come on top
	}{
		"all timed":        {[]bool{false, false, false}, 0, 1},
		"none":             {[]bool{true, true, true}, 1, 0},
		"a middle":         {[]bool{true, false, false, true, true}, 2, 1},
		"one alone within": {[]bool{true, false, true}, 1, 0},
		"one point":        {[]bool{true}, 0, 0},
	} {
		t.Run(name, func(t *testing.T) {
			s := aScale(c.beyond...)
			text := svg(t, Growth(s, nil))
			signs := growthKey(s, tracksOf(s))
			dashedSign, solidSign := 0, 0
			for _, e := range signs {
				switch e.text {
				case "within what was timed":
					solidSign++
				case "beyond it, projected":
					dashedSign++
				}
			}
			assert.Equal(t, 2*c.dashed+dashedSign, strings.Count(text, dash))
			assert.Equal(t, 2*c.undone+solidSign, strings.Count(text, solid)-strings.Count(text, dash))
		})
	}
}

func TestGrowthSays(t *testing.T) {
	a := answersOf(t, modelsOf(t, demo), 48)
	f := Growth(a.scale, a.comparison.Pairs)
	said := says(f)
	for _, want := range []string{
		"heads a grow", "hours of work", "minutes a head", "within what was timed", "beyond it, projected",
		"95 % interval of the mean", `"tray, one seed" and "in place, one seed": `,
		"All lines: at least, without weigh and label, never timed.",
	} {
		assert.Contains(t, said, want)
	}
	marks := 0
	for _, line := range a.scale.Workflows {
		marks += len(line.Points) + 1 // and one beside the name
	}
	evens := 0
	for _, p := range a.comparison.Pairs {
		if p.BreakEven.Heads.Value >= 10 && p.BreakEven.Heads.Value <= 5000 {
			evens++
		}
	}
	assert.Equal(t, 2*marks+2+evens, strings.Count(svg(t, f), markStroke), "in both charts, two in the key")
	assert.Contains(t, f.Alt(), "5000 heads take ")
	assert.Contains(t, f.Alt(), `"tray, one seed" and "in place, one seed": `)
}

// The axis of hours begins at the least value or limit above zero, but no more
// than six decades down.
func TestHoursAxis(t *testing.T) {
	for name, c := range map[string]struct {
		hours     float64
		low, high timing.Maybe
		from, to  float64
	}{
		"an interval":         {10, known(8), known(12), 8, 12},
		"a wide one is cut":   {10, known(2), known(80), 2, 15},
		"no interval":         {10, timing.Maybe{}, timing.Maybe{}, 5, 20},
		"a limit below zero":  {10, known(-3), known(12), 10, 12},
		"a limit near zero":   {10, known(1e-9), known(12), 1.2e-5, 12},
		"nothing known":       {0, known(0), known(0), 0.1, 1},
		"less than no time":   {-1, known(-2), known(-0.5), 0.1, 1},
		"so little it is odd": {1e-7, known(1e-7), known(1e-7), 5e-8, 2e-7},
	} {
		t.Run(name, func(t *testing.T) {
			s := timing.Scale{Workflows: []timing.ScaleLine{{Workflow: "tray", Points: []timing.ScalePoint{
				{Heads: 10, Hours: c.hours, Low: c.low, High: c.high, MinutesPerHead: 6 * c.hours},
			}}}}
			p := hoursChart(tracksOf(s), []int{10})
			assert.InEpsilonSlice(t, []float64{c.from, c.to}, []float64{p.Y.Min, p.Y.Max}, 1e-9)
			readable(t, Growth(s, nil))
		})
	}
}

func TestGapWords(t *testing.T) {
	tracks := []track{{name: "a"}, {name: "b"}, {name: "c"}}
	assert.Empty(t, gapWords(tracks))
	tracks[0].line.Gaps, tracks[2].line.Gaps = []string{"weigh"}, []string{"weigh"}
	assert.Equal(t, []string{`"a" and "c": at least, without weigh, never timed.`}, gapWords(tracks))
}

func TestEvens(t *testing.T) {
	unknown := timing.Maybe{}
	cases := map[string]struct {
		even  timing.BreakEven
		words string
		bars  [][2]vg.Length // left and right as shares of the axis from 10 to 1000 heads
		tips  int            // arrows
	}{
		"between":    {timing.BreakEven{Kind: timing.Interval, Heads: known(100), Low: known(10), High: known(1000)}, "100 heads (10 to 1000)", [][2]vg.Length{{0, 1}}, 0},
		"from zero":  {timing.BreakEven{Kind: timing.Interval, Heads: known(31.6), Low: known(0), High: known(100)}, "32 heads (0 to 100)", [][2]vg.Length{{0, 0.5}}, 1},
		"below":      {timing.BreakEven{Kind: timing.Interval, Heads: known(1.2), Low: known(0), High: known(4)}, "1 head (0 to 4)", nil, 1},
		"above":      {timing.BreakEven{Kind: timing.Interval, Heads: known(3000), Low: known(2000), High: known(9000)}, "3000 heads (2000 to 9000)", nil, 1},
		"no heads":   {timing.BreakEven{Kind: timing.Interval, Low: known(0), High: known(100)}, "no clear difference up to 100 heads", [][2]vg.Length{{0, 0.5}}, 1},
		"outside":    {timing.BreakEven{Kind: timing.Outside, High: known(100)}, "no clear difference from 100 heads on", [][2]vg.Length{{0.5, 1}}, 1},
		"both sides": {timing.BreakEven{Kind: timing.Outside, Low: known(100), High: known(1000)}, "no clear difference up to 100, nor from 1000 heads on", [][2]vg.Length{{0, 0.5}}, 2},
		"everywhere": {timing.BreakEven{Kind: timing.Everywhere}, "no clear difference at any number of heads", [][2]vg.Length{{0, 1}}, 2},
		"never":      {timing.BreakEven{Kind: timing.Never}, "never the same", nil, 0},
		"no spread":  {timing.BreakEven{Heads: known(50), Low: unknown}, "about 50 heads, how surely is not known", nil, 0},
		"nothing":    {timing.BreakEven{}, "never the same, as far as is known", nil, 0},
	}
	scale := timing.Scale{Confidence: 0.95, Workflows: []timing.ScaleLine{{Workflow: "tray", Points: []timing.ScalePoint{
		{Heads: 10, Hours: 1, MinutesPerHead: 6}, {Heads: 1000, Hours: 50, MinutesPerHead: 3},
	}}}}
	const left, length = margin + gutter, inner - gutter - labelRoom
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			f := Growth(scale, []timing.Pair{{A: "tray", B: "straight", BreakEven: c.even}})
			assert.Contains(t, says(f), `"tray" and "straight": `+c.words)
			assert.Contains(t, f.Alt(), `"tray" and "straight": `+c.words)
			readable(t, f)
			var bars [][2]vg.Length
			tips := 0
			for _, r := range filled(f, strokes[2]) {
				if r.Max.Y-r.Min.Y > 6 {
					tips++
				} else {
					bars = append(bars, [2]vg.Length{(r.Min.X - left) / length, (r.Max.X - left) / length})
				}
			}
			assert.Equal(t, c.tips, tips)
			require.Len(t, bars, len(c.bars))
			for i, want := range c.bars {
				assert.InDelta(t, float64(want[0]), float64(bars[i][0]), 0.01)
				assert.InDelta(t, float64(want[1]), float64(bars[i][1]), 0.01)
			}
		})
	}
}

// Names beside lines keep their order, do not overlap and stay within the chart
// where they can.
func TestApart(t *testing.T) {
	name := func(y vg.Length, lines int) label {
		return label{track{label: make([]string, lines)}, vg.Point{Y: y}, 0}
	}
	names := []label{name(100, 1), name(102, 2), name(101, 1), name(3, 1), name(5, 1)}
	apart(names, 0, 110)
	top := vg.Length(110)
	for i, n := range names {
		assert.LessOrEqual(t, float64(n.top), float64(top)+1e-9, "%d", i)
		top = n.top - n.height()
		if i > 0 {
			assert.GreaterOrEqual(t, float64(names[i-1].end.Y), float64(n.end.Y))
		}
	}
	assert.GreaterOrEqual(t, float64(top), -1e-9)
	assert.InDelta(t, 110, float64(names[0].top), 5)
}
