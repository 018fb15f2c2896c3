package plots

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"headhours/timing"
)

func known(x float64) timing.Maybe { return timing.Known(x) }

// aComparison is of one grow of 10 heads: 1 hour is 6 minutes a head.
func aComparison() timing.Comparison {
	step := func(name string, hours timing.Maybe) timing.StepHours {
		return timing.StepHours{Step: name, Hours: hours}
	}
	return timing.Comparison{Heads: 10, Confidence: 0.9, Workflows: []timing.Hours{
		{
			Workflow: "tray", Hours: 1, Low: known(0.75), High: known(1.5), MinutesPerHead: 6,
			Gaps:  []string{"weigh"},
			Steps: []timing.StepHours{step("sow", known(0.25)), step("harvest", known(0.75)), step("weigh", timing.Maybe{})},
			Rests: timing.Basis{Timed: []string{"sow", "harvest"}},
		},
		{
			Workflow: "straight", Hours: 0.5, Low: known(-0.25), High: known(1.25), MinutesPerHead: 3,
			Steps: []timing.StepHours{step("harvest", known(0.75)), step("sow", known(-0.25))},
			Rests: timing.Basis{Timed: []string{"sow", "harvest"}},
		},
	}}
}

// The parts of a bar are as long as their minutes, from the same zero; what is
// below zero is left of it.
func TestPerHeadIsToScale(t *testing.T) {
	f := PerHead(aComparison())
	long := func(r vg.Rectangle) float64 { return float64(r.Max.X - r.Min.X) }
	harvest := filled(f, fills[0]) // the longest; the first is in the key
	sow := filled(f, fills[1])
	require.Len(t, harvest, 3)
	require.Len(t, sow, 3)
	assert.InDelta(t, long(harvest[1]), long(harvest[2]), 1e-6)
	assert.InDelta(t, 3, long(harvest[1])/long(sow[1]), 1e-6)
	assert.InDelta(t, float64(harvest[1].Max.X), float64(sow[1].Min.X), 1e-6, "end to end")
	assert.InDelta(t, float64(harvest[1].Min.X), float64(harvest[2].Min.X), 1e-6, "one zero")
	assert.InDelta(t, float64(harvest[2].Min.X), float64(sow[2].Max.X), 1e-6, "left of zero")
}

func TestPerHeadSays(t *testing.T) {
	f := PerHead(aComparison())
	said := says(f)
	for _, want := range []string{
		"Minutes a head, in a grow of 10", "minutes of work a head, rest included",
		"at least 6.00 min (4.50 to 9.00); not counted: weigh",
		"3.00 min (-1.50 to 7.50)", "harvest 4.50", "2 4 6 8",
		"Below a bar: the 90 % interval of its total.",
	} {
		assert.Contains(t, said, want)
	}
	assert.Equal(t, `Minutes a head by step, a bar for each way of working. "tray": at least 6.00 min (4.50 to 9.00); not counted: weigh. `+
		`Its parts: harvest 4.50, sow 1.50. "straight": 3.00 min (-1.50 to 7.50). Its parts: harvest 4.50, sow -1.50.`, f.Alt())
	readable(t, f)

	// without a spread no interval is drawn or spoken of
	c := aComparison()
	c.Workflows = c.Workflows[:1]
	c.Workflows[0].Low, c.Workflows[0].High = timing.Maybe{}, timing.Maybe{}
	said = says(PerHead(c))
	assert.Contains(t, said, "at least 6.00 min; not counted: weigh")
	assert.NotContains(t, said, "interval")
}

// More steps than colours: those that take least share the last one.
func TestPerHeadSharesTheRest(t *testing.T) {
	total := func(parts []part) (sum float64) {
		for _, p := range parts {
			sum += p.amount
		}
		return sum
	}
	for steps, want := range map[int]string{9: "step number 0", 10: "step number 0", 11: "2 smaller steps", 30: "21 smaller steps"} {
		c := answersOf(t, invented(steps, 1, nil), 20).comparison
		parts := stepParts(c.Workflows[0], stepsBySize(c), 60./20)
		assert.Len(t, parts, min(steps, 10))
		assert.Equal(t, want, parts[len(parts)-1].name)
		assert.InEpsilon(t, c.Workflows[0].MinutesPerHead, total(parts), 1e-9)
	}
}

// The same steps share the last part in every way of working, whichever of them a
// way has and whatever they take there; the figure names them.
func TestPerHeadSharesTheSameRest(t *testing.T) {
	models := invented(12, 2, func(s *timing.Study) {
		s.Workflows[1].Tasks = s.Workflows[1].Tasks[:7] // without those that take most
	})
	c := answersOf(t, models, 20).comparison
	order := stepsBySize(c)
	rest := order[len(fills):]
	require.Len(t, rest, 3)
	for _, h := range c.Workflows {
		want := 0.0
		for _, s := range h.Steps {
			if slices.Contains(rest, s.Step) {
				want += 60. / 20 * s.Hours.Value
			}
		}
		parts := stepParts(h, order, 60./20)
		assert.InDelta(t, want, parts[len(fills)].amount, 1e-9, h.Workflow)
		assert.Equal(t, "3 smaller steps", parts[len(fills)].name)
	}
	f := PerHead(c)
	const words = "Smaller steps, the same ones in every bar: "
	assert.Contains(t, says(f), words)
	assert.Contains(t, f.Alt(), words+list(rest)+".")
	readable(t, f)
	assert.NotContains(t, PerHead(aComparison()).Alt(), words)
}

func TestCostPerHead(t *testing.T) {
	for _, dir := range []string{demo, chard} {
		costs := answersOf(t, modelsOf(t, dir), 48).costs
		for _, w := range costs.Workflows {
			sum := 0.0
			for _, p := range costParts(w) {
				sum += p.amount
			}
			assert.InEpsilon(t, w.PerHead.Value, sum, 1e-9, w.Workflow)
		}
	}
	costs := answersOf(t, modelsOf(t, demo), 48).costs
	first := &costs.Workflows[0]
	first.PerHead, first.PerHeadLow, first.PerHeadHigh = known(0.884), known(0.86), known(0.9)
	f := CostPerHead(costs)
	said := says(f)
	const total = "at least 0.88 EUR (0.86 to 0.90); not counted: weigh and label"
	for _, want := range []string{"EUR a head", "labour", "chores", "supplies", "space", total} {
		assert.Contains(t, said, want)
	}
	assert.Contains(t, f.Alt(), `"tray, one seed": `+total+". Its parts: labour 0.")
}

func TestCostWithoutWage(t *testing.T) {
	costs := timing.Costs{Heads: 10, Workflows: []timing.GrowCost{{
		Workflow: "tray", Supplies: 2, Space: 1,
		Lines: []timing.CostLine{
			{Name: "sow", Kind: timing.LabourLine},
			{Name: "seed", Kind: timing.SupplyLine, Amount: known(2), PerHead: known(0.2)},
			{Name: "space", Kind: timing.SpaceLine, Amount: known(1), PerHead: known(0.1)},
		},
	}}}
	f := CostPerHead(costs)
	assert.Contains(t, says(f), "at least 0.30 money; labour is not counted, for want of a wage")
	assert.Empty(t, filled(f, fills[0]), "no labour, not in the key either")
	assert.Len(t, filled(f, fills[2]), 2)
}
