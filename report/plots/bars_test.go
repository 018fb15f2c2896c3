package plots

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"headhours/report/look"
	"headhours/timing/answer"
	"headhours/timing/study"
)

func known(x float64) study.Maybe { return study.Known(x) }

// aComparison is of one grow of 10 heads: 1 hour is 6 minutes a head.
func aComparison() answer.Comparison {
	step := func(name string, hours study.Maybe) answer.StepHours {
		return answer.StepHours{Step: name, Hours: hours}
	}
	return answer.Comparison{Heads: 10, Confidence: 0.9, Workflows: []answer.Hours{
		{
			Workflow: "tray", Hours: 1, Low: known(0.75), High: known(1.5), MinutesPerHead: 6,
			Gaps:  []string{"weigh"},
			Steps: []answer.StepHours{step("sow", known(0.25)), step("harvest", known(0.75)), step("weigh", study.Maybe{})},
			Rests: answer.Basis{Timed: []string{"sow", "harvest"}},
		},
		{
			Workflow: "straight", Hours: 0.5, Low: known(-0.25), High: known(1.25), MinutesPerHead: 3,
			Steps: []answer.StepHours{step("harvest", known(0.75)), step("sow", known(-0.25))},
			Rests: answer.Basis{Timed: []string{"sow", "harvest"}},
		},
	}}
}

var someHues = Hues{"sow": {fill: look.StepAt(1).Fill, letter: "b"}, "harvest": {fill: look.StepAt(0).Fill, letter: "a"}}

// The parts of a bar are as long as their minutes, from the same zero; what all ways
// have in common is one part, and what is below zero is left of it.
func TestPerHeadIsToScale(t *testing.T) {
	f := PerHead(aComparison(), someHues)
	long := func(r vg.Rectangle) float64 { return float64(r.Max.X - r.Min.X) }
	same, sow := filled(f, sameFill), filled(f, look.StepAt(1).Fill) // the first of each is in the key
	require.Len(t, same, 3)
	require.Len(t, sow, 3)
	assert.Empty(t, filled(f, look.StepAt(0).Fill), "harvest takes as long in both")
	assert.InDelta(t, long(same[1]), long(same[2]), 1e-6)
	assert.InDelta(t, 3, long(same[1])/long(sow[1]), 1e-6)
	assert.InDelta(t, float64(same[1].Max.X), float64(sow[1].Min.X), 1e-6, "end to end")
	assert.InDelta(t, float64(same[1].Min.X), float64(same[2].Min.X), 1e-6, "one zero")
	assert.InDelta(t, float64(same[2].Min.X), float64(sow[2].Max.X), 1e-6, "left of zero")
}

func TestPerHeadSays(t *testing.T) {
	f := PerHead(aComparison(), someHues)
	said := says(f)
	for _, want := range []string{
		"Minutes a head, in a grow of 10", "minutes of work a head, rest included",
		"≥ 6.00 min (4.50 to 9.00)", "3.00 min (-1.50 to 7.50)", "the same in all 4.50", "2 4 6 8",
		"Below a bar: the 90 % interval of its total.", "The same in all: harvest.", `"tray": at least, without weigh, not timed.`,
	} {
		assert.Contains(t, said, want)
	}
	assert.NotContains(t, says(f.OnPage()), "not timed")
	assert.Equal(t, `Minutes a head by step, a bar for each way. "tray": ≥ 6.00 min (4.50 to 9.00). `+
		`Its parts: the same in all 4.50, sow 1.50. "straight": 3.00 min (-1.50 to 7.50). Its parts: the same in all 4.50, sow -1.50. The same in all: harvest.`, f.Alt())
	readable(t, f)

	// without a spread no interval is drawn or spoken of
	c := aComparison()
	c.Workflows = c.Workflows[:1]
	c.Workflows[0].Low, c.Workflows[0].High = study.Maybe{}, study.Maybe{}
	said = says(PerHead(c, someHues))
	assert.Contains(t, said, "≥ 6.00 min")
	assert.NotContains(t, said, "interval")
	assert.NotContains(t, said, "the same in all", "of one way every step is a part")
	assert.Len(t, filled(PerHead(c, someHues), look.StepAt(0).Fill), 2)
}

// The parts of each way come to its minutes, and its steps are each in one part.
func TestPerHeadSums(t *testing.T) {
	for _, dir := range []string{demo, chard} {
		m := modelsOf(t, dir)
		for _, ways := range [][]string{nil, m.Study.WorkflowNames()[:1], m.Study.WorkflowNames()[:2]} {
			c, err := m.Compare(ways, 48)
			require.NoError(t, err)
			shown := toShow(c)
			for _, h := range c.Workflows {
				sum := 0.0
				for _, p := range shown.barParts(h, nil, 60./48) {
					sum += p.amount
				}
				assert.InDelta(t, h.MinutesPerHead, sum, 1e-9, h.Workflow)
			}
			for _, step := range shown.rest {
				assert.NotContains(t, shown.apart, step)
				assert.NotContains(t, shown.same, step)
			}
		}
	}
}

// Steps that differ little between ways share the last part, the same ones in each.
func TestPerHeadSharesTheRest(t *testing.T) {
	hours := func(all ...float64) answer.Hours {
		h := answer.Hours{Workflow: "w", Rests: answer.Basis{Timed: []string{"a"}}}
		for i, x := range all {
			h.Steps = append(h.Steps, answer.StepHours{Step: string(rune('a' + i)), Hours: known(x)})
			h.Hours += x
		}
		return h
	}
	shown := toShow(answer.Comparison{Heads: 1, Workflows: []answer.Hours{hours(1, 0.5, 0.5, 3), hours(2, 0.54, 0.545, 3)}})
	assert.Equal(t, drawnSteps{same: []string{"d"}, apart: []string{"a"}, rest: []string{"c", "b"}}, shown)
	shown = toShow(answer.Comparison{Heads: 1, Workflows: []answer.Hours{hours(1, 0.5, 0.5, 3), hours(2, 0.5, 0.545, 3)}})
	assert.Equal(t, drawnSteps{same: []string{"b", "d"}, apart: []string{"a", "c"}, rest: []string{}}, shown, "one alone is named")
	assert.Equal(t, []string{"The same in all: b and d."}, shown.sentences())
	nearly := toShow(answer.Comparison{Heads: 1, Workflows: []answer.Hours{hours(1, 0.5, 0.5, 3), hours(2, 0.5, 0.501, 3)}})
	assert.Equal(t, []string{"The same in all: b and d."}, drawnSteps{same: []string{"b", "d"}}.sentences())
	assert.Equal(t, []string{"Much the same in all: b, d and c."}, nearly.sentences(), "what hardly differs is not worth a part")
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
	first.LeftPerHeadLow, first.LeftPerHeadHigh = study.Maybe{}, study.Maybe{}
	f := CostPerHead(costs)
	said := says(f)
	const total = "≥ 0.88 EUR (0.86 to 0.90); left ≤ 0.72"
	for _, want := range []string{"EUR a head", "labour", "chores", "supplies", "space", "what a head sells for", total} {
		assert.Contains(t, said, want)
	}
	assert.Contains(t, f.Alt(), `"tray, one seed": `+total)
}

func TestCostWithoutWage(t *testing.T) {
	costs := answer.Costs{Heads: 10, Workflows: []answer.GrowCost{{
		Workflow: "tray", Supplies: 2, Space: 1,
		Lines: []answer.CostLine{
			{Name: "sow", Kind: answer.LabourLine},
			{Name: "seed", Kind: answer.SupplyLine, Amount: known(2), PerHead: known(0.2)},
			{Name: "space", Kind: answer.SpaceLine, Amount: known(1), PerHead: known(0.1)},
		},
	}}}
	f := CostPerHead(costs)
	assert.Contains(t, says(f), "≥ 0.30 money; labour is not counted, for want of a wage")
	assert.Empty(t, filled(f, greys[0]), "no labour, not in the key either")
	assert.Len(t, filled(f, greys[2]), 2)
}
