package plots

import (
	"headhours/report"
	"headhours/timing/answer"
)

// Season draws the hours of each week as bars, stacked by crop, with the line of one's own
// hours, and below them what each week brings.
func Season(p answer.SeasonPlan) Figure {
	blocks := []block{paragraph(heading, "The whole place, week by week"), space(4)}
	bars := stackedBars{line: p.OwnWeek, axis: "week", unit: "hours of work"}
	for week := range p.Weeks {
		bars.at = append(bars.at, float64(week))
	}
	var entries []keyEntry
	for i, c := range p.ByCrop {
		fill := greys[i%len(greys)]
		entries = append(entries, keyEntry{areaSign(fill), show(c.Crop)})
		bars.stacks = append(bars.stacks, stack{c.Hours, stepHue{fill: fill}})
	}
	if p.OwnWeek.Known {
		entries = append(entries, keyEntry{lineSign(ownStyle), "your own hours"})
	}
	blocks = append(blocks, key(entries), space(8), bars.asBlock())
	if p.Revenue.Known {
		money := "money"
		if p.Currency != nil {
			money = show(*p.Currency)
		}
		revenue := make([]float64, len(p.Weeks))
		for i, w := range p.Weeks {
			revenue[i] = w.Revenue.Value
		}
		below := stackedBars{axis: "week", unit: money + " a week", at: bars.at, stacks: []stack{{revenue, stepHue{fill: greys[1]}}}}
		blocks = append(blocks, space(10), paragraph(bold, "What is sold, in "+money), below.asBlock())
	}
	doc := report.Season(report.SeasonAnswer{SeasonPlan: p})
	alt := spoken(append([]string{"Hours of each week as a bar, stacked by crop."}, doc.Words()...)...)
	return Figure{blocks: blocks, alt: alt, lacks: hoursLack(p.Gaps)}
}
