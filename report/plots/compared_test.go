package plots

import (
	"testing"

	"headhours/report/look"
	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var stepHues = Hues{"sow": {fill: look.StepAt(1).Fill, letter: "b", name: "sow"}, "harvest": {fill: look.StepAt(0).Fill, letter: "a", name: "harvest"}}

// What a way comes to beside the first, from either side and however sure.
func TestWhyInWords(t *testing.T) {
	t.Parallel()
	of := func(mean float64, low, high study.Maybe) answer.Pair {
		return answer.Pair{Difference: mean / 60, Low: low.Times(1.0 / 60), High: high.Times(1.0 / 60)}
	}
	for want, p := range map[string]answer.Pair{
		"10.0 min more (6.0 to 14.0)":             of(10, known(6), known(14)),
		"10.0 min less (6.0 to 14.0)":             of(-10, known(-14), known(-6)),
		"no clear difference (−2.0 to +22.0 min)": of(10, known(-2), known(22)),
		"no clear difference (−22.0 to +2.0 min)": of(-10, known(-22), known(2)),
		"no clear difference (0.0 to +20.0 min)":  of(10, known(0), known(20)),
		"10.0 min more, how surely is not known":  of(10, unknown, unknown),
		"10.0 min less":                           of(-10, known(-10), known(-10)),
		"as long":                                 of(0, known(0), known(0)),
		"not known":                               {Low: known(0), High: known(0), Gaps: []string{"weigh"}},
	} {
		assert.Equal(t, want, whyWords(p))
	}
}

// Bars of what differs lie on the side of their sign, to scale, and the sum has its range.
func TestWhyIsToScale(t *testing.T) {
	t.Parallel()
	c := waysOf("tray", "raft", "straight")
	c.Workflows[2].Steps[0].Hours = known(2.0 / 60) // 10 minutes less sowing, 20 more harvesting
	c.Workflows[1].Steps[0].Hours = known(12.0 / 60)
	f := Why(c, stepHues)
	readable(t, f)
	harvest, sow, all := filled(f, look.StepAt(0).Fill), filled(f, look.StepAt(1).Fill), filled(f, sameFill)
	require.Len(t, harvest, 2)
	require.Len(t, sow, 1, "the second way sows as the first")
	require.Len(t, all, 2)
	long := func(i int) float64 { return float64(harvest[i].Max.X - harvest[i].Min.X) }
	assert.InDelta(t, 2, long(1)/long(0), 1e-6)
	assert.InDelta(t, long(0), float64(sow[0].Max.X-sow[0].Min.X), 1e-6, "10 minutes either way")
	assert.InDelta(t, float64(sow[0].Max.X), float64(harvest[1].Min.X), 1e-6, "what is saved ends where what is added begins")
	assert.Greater(t, float64(harvest[1].Min.Y), float64(sow[0].Max.Y), "the largest first")
	assert.InDelta(t, float64(all[0].Min.X), float64(harvest[0].Min.X), 1e-6)
	whiskers := stroked(f, ink, 1.6)
	require.Len(t, whiskers, 6)
	minute := long(0) / 10
	assert.InDelta(t, 8*minute, float64(whiskers[0].Max.X-whiskers[0].Min.X), 1e-6, "give or take 4")
	assert.InDelta(t, float64(all[0].Max.X)-4*minute, float64(whiskers[0].Min.X), 1e-6)
	for _, text := range []string{`"raft": 10.0 min more (6.0 to 14.0)`, "+10.0", "−10.0", "+20.0", "in all", "Left of the line is saved, right of it is added.", `Why: minutes against "tray", in a grow of 48`} {
		_, ok := where(f, text)
		assert.True(t, ok, text)
	}
	assert.Contains(t, f.Alt(), `Why the hours differ, against "tray", in minutes a grow. "raft": 10.0 min more (6.0 to 14.0): harvest +10.0; in all +10.0;`)
	assert.NotContains(t, says(f), "The same in all")
	c.Workflows = c.Workflows[:2]
	assert.Contains(t, says(Why(c, stepHues)), "The same in all: sow; 12.0 min.")
	c.Pairs[0].Gaps = []string{"weigh", "pack"}
	assert.Contains(t, says(Why(c, stepHues)), "Not timed, so not in the differences: weigh and pack.")
	many := waysOf(someNames(maxWhy + 2)...)
	assert.Contains(t, says(Why(many, nil)), "1 more way is not drawn.")
	assert.NotContains(t, says(Why(waysOf(someNames(maxWhy+1)...), nil)), "not drawn")
}

func TestSignsOfMinutes(t *testing.T) {
	t.Parallel()
	a, b := waysOf("a", "b").Workflows[0], waysOf("a", "b").Workflows[1]
	assert.Equal(t, []differs{{"harvest", differenceOf(a, b)}}, stepsThatDiffer(a, b))
	b.Steps = append(b.Steps, answer.StepHours{Step: "harvest", Hours: known(0.5)}, answer.StepHours{Step: "thin", Hours: known(1)})
	assert.Equal(t, []string{"thin", "harvest"}, stepNames(stepsThatDiffer(a, b)), "a step that comes twice is summed, one that only one has is all of it")
	assert.Equal(t, []string{"thin", "harvest"}, stepNames(stepsThatDiffer(b, a)))
	assert.Equal(t, answer.Pair{}, pairOf(waysOf("a", "b"), "b", "a"), "a pair is of b less a")
	joined := joinLittle([]differs{{"a", 100}, {"b", -4}, {"c", 3}, {"d", 1}})
	assert.Equal(t, []differs{{"a", 100}, {"3 others", 0}}, joined)
}

func differenceOf(a, b answer.Hours) float64 {
	return (b.Steps[1].Hours.Value - a.Steps[1].Hours.Value) * 60
}

// Which steps have a part of their own in bars of a head.
func TestWhichStepsAreShown(t *testing.T) {
	t.Parallel()
	way := func(minutes map[string]float64) answer.Hours {
		h := answer.Hours{}
		for _, step := range []string{"a", "b", "c", "d", "e", "f"} {
			if m, ok := minutes[step]; ok {
				h.Steps, h.Hours = append(h.Steps, answer.StepHours{Step: step, Hours: known(m / 60)}), h.Hours+m/60
			}
		}
		return h
	}
	c := answer.Comparison{Workflows: []answer.Hours{
		way(map[string]float64{"a": 10, "b": 40, "c": 5, "d": 20, "e": 7, "f": 7}), way(map[string]float64{"a": 10, "b": 70, "c": 5.2, "d": 0, "e": 8, "f": 8}),
	}}
	shown := toShow(c)
	assert.Equal(t, []string{"a", "c"}, shown.same)
	assert.True(t, shown.nearly, "c differs a little")
	assert.Equal(t, []string{"b", "d"}, shown.apart, "the largest change first")
	assert.Equal(t, []string{"e", "f"}, shown.rest)
	assert.Equal(t, []string{"Much the same in all: a and c.", "Others, which differ little: e and f."}, shown.sentences())
	several := answer.Comparison{Workflows: []answer.Hours{way(map[string]float64{"a": 10, "b": 40}), way(map[string]float64{"a": 10, "b": 70, "c": 1, "d": 1, "e": 1, "f": 1})}}
	assert.Equal(t, []string{"c", "d", "e", "f"}, toShow(several).rest)
	assert.Equal(t, "Others, none of which differs much by itself: c, d, e and f.", toShow(several).sentences()[1], "together they do")
	parts := shown.barParts(c.Workflows[0], nil, 60)
	assert.Equal(t, []string{"much the same in all", "b", "d", "2 others"}, []string{parts[0].name, parts[1].name, parts[2].name, parts[3].name})
	for i, want := range []float64{15, 40, 20, 14} {
		assert.InDelta(t, want, parts[i].amount, 1e-9)
	}
	c.Workflows[1].Steps[2].Hours = known(5.0 / 60)
	shown = toShow(c)
	assert.False(t, shown.nearly)
	assert.Equal(t, "the same in all", shown.sameName())
	c.Workflows[1].Steps[5].Hours = known(7.0 / 60)
	assert.Equal(t, []string{"b", "d", "e"}, toShow(c).apart, "one little step alone keeps its part")
	alone := toShow(answer.Comparison{Workflows: c.Workflows[:1]})
	assert.Equal(t, []string{"b", "d", "a", "e", "f", "c"}, alone.apart, "of one way every step")
	assert.Empty(t, alone.sentences())
	unknownStep := answer.Hours{Steps: []answer.StepHours{{Step: "weigh"}}}
	assert.Empty(t, sameInAll(answer.Comparison{Workflows: []answer.Hours{unknownStep, unknownStep}}), "what was not timed is not the same")
	assert.Empty(t, sameInAll(answer.Comparison{}))
}

// Bars of costs: kinds in their order, the price where it stands, whiskers at the limits.
func TestCostIsToScale(t *testing.T) {
	t.Parallel()
	f := CostPerHead(costsOf("tray", "raft"))
	labour, supplies := filled(f, greys[0]), filled(f, greys[2])
	require.Len(t, labour, 3)
	require.Len(t, supplies, 3)
	long := float64(labour[1].Max.X - labour[1].Min.X)
	assert.InDelta(t, 0.7/0.6, float64(labour[2].Max.X-labour[2].Min.X)/long, 1e-6)
	assert.InDelta(t, 0.15/0.6, float64(supplies[1].Max.X-supplies[1].Min.X)/long, 1e-6)
	assert.InDelta(t, float64(labour[1].Max.X), float64(supplies[1].Min.X), 1e-6)
	euro := long / 0.6
	price := stroked(f, ink, markStyle.Width)
	require.Len(t, price, 3, "one in the key")
	assert.InDelta(t, float64(labour[1].Min.X)+1.6*euro, float64(price[1].Min.X), 1e-4)
	whiskers := stroked(f, ink, 1.6)
	require.Len(t, whiskers, 6)
	assert.InDelta(t, float64(labour[1].Min.X)+0.74*euro, float64(whiskers[0].Min.X), 1e-4)
	assert.InDelta(t, float64(labour[1].Min.X)+0.86*euro, float64(whiskers[0].Max.X), 1e-4)
	assert.Less(t, float64(whiskers[0].Max.Y), float64(labour[1].Min.Y), "below its bar")
	for _, text := range []string{"what a head sells for", "EUR a head", "labour", "supplies", "space", "Below a bar: the interval of its total."} {
		_, ok := where(f, text)
		assert.True(t, ok, text)
	}
	assert.NotContains(t, says(f), "chores", "which no way has")
	assert.Contains(t, f.Alt(), `"tray": 0.80 EUR (0.74 to 0.86); left 0.80 (0.74 to 0.86). Its parts: labour 0.60, supplies 0.15, space 0.05.`)
}

func TestCostInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(w *answer.GrowCost)
		want   string
	}{
		{"all", func(w *answer.GrowCost) {}, "0.80 EUR (0.74 to 0.86); left 0.80 (0.74 to 0.86)"},
		{"a step lacks", func(w *answer.GrowCost) { w.Gaps = []string{"weigh"} }, "≥ 0.80 EUR (0.74 to 0.86); left ≤ 0.80 (0.74 to 0.86)"},
		{"no price", func(w *answer.GrowCost) { w.LeftPerHead = unknown }, "0.80 EUR (0.74 to 0.86)"},
		{"doubt not known", func(w *answer.GrowCost) { w.PerHeadLow, w.LeftPerHeadLow = unknown, unknown }, "0.80 EUR; left 0.80"},
		{"no wage", func(w *answer.GrowCost) { w.PerHead, w.Outlay = unknown, 4.8 }, "≥ 0.30 EUR; labour is not counted, for want of a wage"},
	} {
		w := costsOf("tray").Workflows[0]
		c.change(&w)
		assert.Equal(t, c.want, costWords(w, "EUR", 48), c.name)
	}
	parts := costParts(answer.GrowCost{Lines: []answer.CostLine{
		{Kind: answer.OutlayLine, PerHead: known(1)}, {Kind: answer.ChoreLine, PerHead: known(2)}, {Kind: answer.ChoreLine, PerHead: known(3)}, {Kind: answer.LabourLine},
	}})
	for i, want := range []barPart{{name: "labour"}, {name: "chores", amount: 5}, {name: "supplies"}, {name: "space"}, {name: "outlay", amount: 1}} {
		assert.Equal(t, want.name, parts[i].name)
		assert.InDelta(t, want.amount, parts[i].amount, 0)
	}
	none := costsOf("tray")
	none.Currency = nil
	assert.Contains(t, says(CostPerHead(none)), "money a head")
}

// Of more ways than a figure holds the rest is counted; no bar is ever drawn without its name.
func TestManyBars(t *testing.T) {
	t.Parallel()
	f := PerHead(waysOf(someNames(maxBars+1)...), nil)
	assert.Contains(t, says(f), "1 more way is not drawn.")
	assert.NotContains(t, says(f), "name 40 ")
	assert.Len(t, filled(f, sameFill), 1+maxBars)
	low, high := barRows{{bar: bar{parts: []barPart{{amount: -2}, {amount: 3}, {amount: -1}}, low: known(-4), high: known(1), mark: known(10)}}}.span()
	assert.InDelta(t, -4, low, 1e-12)
	assert.InDelta(t, 10.2, high, 1e-12)
	low, high = barRows{{}}.span()
	assert.Equal(t, [2]float64{0, 1}, [2]float64{low, high})
	assert.False(t, bar{low: known(1), high: known(1)}.hasInterval())
	assert.False(t, bar{high: known(1)}.hasInterval())
}
