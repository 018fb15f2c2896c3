package plots

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// The bars of a way come to its difference from the first, joined or not.
func TestWhySums(t *testing.T) {
	for _, dir := range []string{demo, chard} {
		for _, heads := range []int{1, 48, 500} {
			c, err := modelsOf(t, dir).Compare(nil, heads)
			require.NoError(t, err)
			require.Greater(t, len(c.Workflows), 1)
			for _, h := range c.Workflows[1:] {
				p := pairOf(c, c.Workflows[0].Workflow, h.Workflow)
				require.Equal(t, h.Workflow, p.B)
				all := stepsThatDiffer(c.Workflows[0], h)
				for _, bars := range [][]differs{all, joinLittle(all)} {
					sum := 0.0
					for i, d := range bars {
						sum += d.minutes / 60
						if i > 0 && i < len(bars)-1 {
							assert.LessOrEqual(t, math.Abs(d.minutes), math.Abs(bars[i-1].minutes), "the largest first")
						}
					}
					assert.InDelta(t, p.Difference, sum, 1e-9, "%s, %s at %d heads", dir, h.Workflow, heads)
				}
			}
			readable(t, Why(c, nil))
			assert.Equal(t, svg(t, Compared(c, nil)), svg(t, Compared(c, nil)), "the same every time")
		}
	}
}

// stepFill fills the bars of steps.
var stepFill = color.NRGBA{R: 0x12, G: 0x34, B: 0x56, A: 0xff}

// Bars begin at 0 and stay between the names and the values, whichever way is the first:
// with one sign, with both, with none that differs, and with many steps.
func TestWhyBarsStayInTheirPlace(t *testing.T) {
	many := make([]float64, 20)
	for i := range many {
		many[i] = -1 - float64(i)
	}
	for name, more := range map[string][]float64{
		"one step": {3}, "one step, less": {-3}, "all more": {5, 2, 9}, "all less": {-5, -2, -9}, "both": {-40, 1, 7},
		"little": {1e-7}, "much": {40000, 30000}, "none": {0, 0}, "twenty": many,
	} {
		for _, wide := range []float64{0, 0.5, 3} {
			g := whyGroup{title: "b"}
			sum := 0.0
			for _, m := range more {
				g.rows = append(g.rows, whyRow{name: "move seedlings to the raft", words: signed(m), minutes: m, fill: stepFill, letter: "m"})
				sum += m
			}
			g.rows = append(g.rows, whyRow{name: "in all", words: signed(sum), minutes: sum, fill: sameFill,
				low: study.Known(sum - wide*math.Abs(sum)), high: study.Known(sum + wide*math.Abs(sum))})
			f := Figure{blocks: []block{whyChart([]whyGroup{g})}}
			readable(t, f)
			bars := append(filled(f, stepFill), filled(f, sameFill)...)
			drawn := 0
			for i, m := range append(more, sum) {
				if m == 0 {
					continue
				}
				r := bars[drawn]
				drawn++
				assert.GreaterOrEqual(t, float64(r.Min.X), float64(margin+whyNames)-0.1, "%s: bar %d over the names", name, i)
				assert.LessOrEqual(t, float64(r.Max.X), float64(margin+inner-whyValues)+0.1, "%s: bar %d over the values", name, i)
				words, ok := where(f, g.rows[i].words)
				assert.True(t, ok && r.Max.X < words.Min.X, "%s: bar %d over its value", name, i)
			}
			assert.Len(t, bars, drawn, name)
			assert.Contains(t, says(f), " 0 ", "%s: 0 is on the axis", name)
		}
	}
}

// Little changes join, but for one alone and for those that decide which way is quicker.
func TestJoinLittle(t *testing.T) {
	for name, c := range map[string]struct{ all, want []differs }{
		"none":            {nil, nil},
		"one little":      {[]differs{{"a", 50}, {"b", 1}}, []differs{{"a", 50}, {"b", 1}}},
		"two little":      {[]differs{{"a", 50}, {"b", -2}, {"c", 1}}, []differs{{"a", 50}, {"2 others", -1}}},
		"little, decides": {[]differs{{"a", 50}, {"b", -50}, {"c", 2}, {"d", 1}}, []differs{{"a", 50}, {"b", -50}, {"c", 2}, {"d", 1}}},
	} {
		assert.Equal(t, c.want, joinLittle(c.all), name)
	}
}

// One way alone has nothing to differ from: what a head takes is drawn by itself.
func TestWhyOfOne(t *testing.T) {
	m := modelsOf(t, demo)
	c, err := m.Compare(m.Study.WorkflowNames()[:1], 48)
	require.NoError(t, err)
	assert.Empty(t, Why(c, nil).blocks)
	assert.Equal(t, PerHead(c, nil).Alt(), Compared(c, nil).Alt())
}

// Ways of several crops have figures of their own, one above the other.
func TestCropsApart(t *testing.T) {
	h := func(name, crop string) answer.Hours {
		return answer.Hours{Workflow: name, Hours: 1, Gives: answer.Harvest{Crop: crop, ByHead: true},
			Steps: []answer.StepHours{{Step: "sow", Hours: study.Known(1), Share: study.Known(1)}}}
	}
	c := answer.Comparison{Heads: 10, Workflows: []answer.Hours{h("a", "basil"), h("b", "chard"), h("c", "basil")},
		Pairs: []answer.Pair{{A: "a", B: "b", OtherCrop: true}, {A: "a", B: "c"}, {A: "b", B: "c", OtherCrop: true}}}
	why := Why(c, nil)
	assert.Contains(t, why.Alt(), `against "a"`)
	assert.Contains(t, why.Alt(), `"c"`)
	assert.NotContains(t, why.Alt(), `"b"`)
	perHead := says(PerHead(c, nil))
	assert.Contains(t, perHead, "Minutes a head of basil, in a grow of 10")
	assert.Contains(t, perHead, "Minutes a head of chard, in a grow of 10")
	c.Workflows = c.Workflows[:1]
	assert.Contains(t, says(PerHead(c, nil)), "Minutes a head, in a grow of 10")

	g := func(name, crop string) answer.GrowCost {
		return answer.GrowCost{Workflow: name, PerHead: study.Known(1), Gives: answer.Harvest{Crop: crop}}
	}
	cost := says(CostPerHead(answer.Costs{Heads: 10, Workflows: []answer.GrowCost{g("a", "basil"), g("b", "")}}))
	assert.Contains(t, cost, "Cost of a head of basil, in a grow of 10")
	assert.Contains(t, cost, "Cost of a head of no named crop, in a grow of 10")
}
