package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// aScale is one way of working, timed at so many of its numbers of heads.
func aScale(beyond ...bool) answer.Scale {
	line := answer.ScaleLine{Workflow: "tray"}
	for i, b := range beyond {
		heads := 10 << i
		line.Points = append(line.Points, answer.ScalePoint{
			Heads: heads, Hours: 1 + float64(heads)/20, MinutesPerHead: 60/float64(heads) + 3,
			Low: known(0.5 + float64(heads)/20), High: known(1.5 + float64(heads)/20), Extrapolated: b,
		})
	}
	return answer.Scale{Confidence: 0.95, Workflows: []answer.ScaleLine{line}}
}

// Lines are dashed to and from each point beyond what was timed.
func TestGrowthDashes(t *testing.T) {
	const dash, solid = "stroke-dasharray:5,3", "stroke-width:1.4"
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
				case "was timed":
					if _, _, shaded := timedHeads(tracksOf(s)); !shaded {
						solidSign++
					}
				case "beyond it, projected":
					dashedSign++
					assert.Contains(t, text, ">was timed<", "what it is beyond is in the key")
				case "projected":
					dashedSign++
					assert.NotContains(t, text, ">was timed<", "else it is beyond that")
				}
			}
			assert.Equal(t, c.dashed+dashedSign, strings.Count(text, dash))
			assert.Equal(t, c.undone+solidSign, strings.Count(text, solid)-strings.Count(text, dash))
		})
	}
}

func TestGrowthSays(t *testing.T) {
	a := answersOf(t, modelsOf(t, demo), 48)
	f := Growth(a.scale, a.comparison.Pairs)
	said := says(f)
	for _, want := range []string{
		"heads a grow", "minutes a head", "was timed", "beyond it, projected",
		"95 % interval of the mean", `"tray, one seed" and "in place, one seed": `,
		"≥: at least, without weigh and label, not timed.",
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
	assert.Equal(t, marks+evens, strings.Count(svg(t, f), markStroke))
	assert.Contains(t, f.Alt(), "5000 heads take ")
	assert.Contains(t, f.Alt(), `"tray, one seed" and "in place, one seed": `)
}

// The axis holds every line and, up to half as much again, the intervals that are drawn.
func TestMinutesAxis(t *testing.T) {
	for name, c := range map[string]struct {
		hours     float64
		low, high study.Maybe
		from, to  float64
	}{
		"an interval":       {10, known(8), known(12), 46.56, 73.44},
		"a wide one is cut": {10, known(2), known(80), 7.32, 94.68},
		"no interval":       {10, study.Maybe{}, study.Maybe{}, 0, 76.32},
		"nothing known":     {0, known(0), known(0), 0, 1.06},
		"less than no time": {-1, known(-2), known(-0.5), 0, 1.06},
	} {
		t.Run(name, func(t *testing.T) {
			s := answer.Scale{Workflows: []answer.ScaleLine{{Workflow: "tray", Points: []answer.ScalePoint{
				{Heads: 10, Hours: c.hours, Low: c.low, High: c.high, MinutesPerHead: 6 * c.hours},
			}}}}
			p := minutesChart(tracksOf(s), []int{10})
			assert.InDelta(t, c.from, p.Y.Min, 1e-9)
			assert.InDelta(t, c.to, p.Y.Max, 1e-9)
			readable(t, Growth(s, nil))
		})
	}
}

// What is shaded was timed of some way.
func TestTimedHeads(t *testing.T) {
	a, b := aScale(true, false, false, true), aScale(true, true, false, false)
	never := aScale(true, true)
	for name, c := range map[string]struct {
		lines       []answer.ScaleLine
		least, most int
		ok          bool
	}{
		"one":           {a.Workflows, 20, 40, true},
		"both":          {append(a.Workflows, b.Workflows...), 20, 80, true},
		"never another": {append(a.Workflows, never.Workflows...), 20, 40, true},
		"never":         {never.Workflows, 0, 0, false},
		"all judged":    {aScale(false, false, false).Workflows, 0, 0, false},
	} {
		least, most, ok := timedHeads(tracksOf(answer.Scale{Workflows: c.lines}))
		assert.Equal(t, c.ok, ok, name)
		if ok {
			assert.Equal(t, []int{c.least, c.most}, []int{least, most}, name)
		}
	}
}

func TestLackWords(t *testing.T) {
	all := []lackOf{{workflow: "a"}, {workflow: "b"}, {workflow: "c"}}
	assert.Empty(t, lackWords(all))
	all[0].gaps, all[2].gaps = []string{"weigh"}, []string{"weigh"}
	assert.Equal(t, []string{`"a" and "c": at least, without weigh, not timed.`}, lackWords(all))
	all[1].gaps = all[0].gaps
	assert.Equal(t, []string{"≥: at least, without weigh, not timed."}, lackWords(all))
}

func TestEvens(t *testing.T) {
	unknown := study.Maybe{}
	cases := map[string]struct {
		even  answer.BreakEven
		words string
		bars  [][2]vg.Length // left and right as shares of the axis from 10 to 1000 heads
		tips  int            // arrows
	}{
		"between":    {answer.BreakEven{Kind: answer.Interval, Heads: known(100), Low: known(10), High: known(1000)}, "100 heads (10 to 1000)", [][2]vg.Length{{0, 1}}, 0},
		"from zero":  {answer.BreakEven{Kind: answer.Interval, Heads: known(31.6), Low: known(0), High: known(100)}, "32 heads (0 to 100)", [][2]vg.Length{{0, 90. / 990}}, 1},
		"below":      {answer.BreakEven{Kind: answer.Interval, Heads: known(1.2), Low: known(0), High: known(4)}, "1 head (0 to 4)", nil, 1},
		"above":      {answer.BreakEven{Kind: answer.Interval, Heads: known(3000), Low: known(2000), High: known(9000)}, "3000 heads (2000 to 9000)", nil, 1},
		"no heads":   {answer.BreakEven{Kind: answer.Interval, Low: known(0), High: known(100)}, "no clear difference up to 100 heads", [][2]vg.Length{{0, 90. / 990}}, 1},
		"outside":    {answer.BreakEven{Kind: answer.Outside, High: known(100)}, "no clear difference from 100 heads on", [][2]vg.Length{{90. / 990, 1}}, 1},
		"both sides": {answer.BreakEven{Kind: answer.Outside, Low: known(100), High: known(1000)}, "no clear difference up to 100, nor from 1000 heads on", [][2]vg.Length{{0, 90. / 990}}, 2},
		"everywhere": {answer.BreakEven{Kind: answer.Everywhere}, "no clear difference at any number of heads", [][2]vg.Length{{0, 1}}, 2},
		"never":      {answer.BreakEven{Kind: answer.Never}, "never the same", nil, 0},
		"no spread":  {answer.BreakEven{Heads: known(50), Low: unknown}, "about 50 heads, how surely is not known", nil, 0},
		"nothing":    {answer.BreakEven{}, "never the same, as far as is known", nil, 0},
	}
	scale := answer.Scale{Confidence: 0.95, Workflows: []answer.ScaleLine{{Workflow: "tray", Points: []answer.ScalePoint{
		{Heads: 10, Hours: 1, MinutesPerHead: 6}, {Heads: 1000, Hours: 50, MinutesPerHead: 3},
	}}}}
	const left, length = margin + gutter, inner - gutter - labelRoom
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			f := Growth(scale, []answer.Pair{{A: "tray", B: "straight", BreakEven: c.even}})
			assert.Contains(t, says(f), `"tray" and "straight": `+c.words)
			assert.Contains(t, f.Alt(), `"tray" and "straight": `+c.words)
			readable(t, f)
			var bars [][2]vg.Length
			tips := 0
			for _, r := range filled(f, evenFill) {
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
	setApart(names, 0, 110)
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

// Limits are written as the whole numbers next to them: below one head there is none.
func TestEvenWordsOfFewHeads(t *testing.T) {
	known := study.Known
	for want, e := range map[string]answer.BreakEven{
		`"a" and "b": never the same`:                                   {Kind: answer.Interval, Low: known(0), High: known(0.35)},
		`"a" and "b": no clear difference up to 1 head`:                 {Kind: answer.Interval, Low: known(0), High: known(1.478)},
		`"a" and "b": no clear difference from 418 heads on`:            {Kind: answer.Outside, Low: known(0.4), High: known(417.589)},
		`"a" and "b": no clear difference up to 4, nor from 6 heads on`: {Kind: answer.Outside, Low: known(4.2), High: known(5.5)},
		`"a" and "b": no clear difference at any number of heads`:       {Kind: answer.Outside, Low: known(0.06), High: known(0.4)},
	} {
		assert.Equal(t, want, evenWords(answer.Pair{A: "a", B: "b", BreakEven: e}))
	}
}
