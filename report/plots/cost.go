package plots

import (
	"fmt"
	"slices"

	"headhours/timing/answer"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// costKinds are the parts of a cost, in the order in which they are drawn.
var costKinds = []struct {
	kind answer.LineKind
	name string
}{
	{answer.LabourLine, "labour"},
	{answer.ChoreLine, "chores"},
	{answer.SupplyLine, "supplies"},
	{answer.SpaceLine, "space"},
	{answer.OutlayLine, "outlay"},
}

// CostPerHead draws what a head costs as a bar for each way, a part for each kind of
// cost, with the interval of the total, and what a head sells for as a line where that
// is known.
func CostPerHead(c answer.Costs) Figure {
	var crops []string
	for _, w := range c.Workflows {
		if !slices.Contains(crops, w.Gives.Crop) {
			crops = append(crops, w.Gives.Crop)
		}
	}
	if len(crops) < 2 {
		return costOf(c, "")
	}
	var all Figure
	for _, crop := range crops { // which are not compared with each other
		of := c
		of.Workflows = slices.DeleteFunc(slices.Clone(c.Workflows), func(w answer.GrowCost) bool { return w.Gives.Crop != crop })
		all = all.above(costOf(of, ofCrop(crop)))
	}
	return all
}

// costOf is CostPerHead of the ways of one crop.
func costOf(c answer.Costs, of string) Figure {
	money := "money"
	if c.Currency != nil {
		money = show(*c.Currency)
	}
	all, lacks := make([]bar, len(c.Workflows)), make([]lackOf, len(c.Workflows))
	var price []keyEntry
	for i, w := range c.Workflows {
		all[i] = bar{
			name: show(w.Workflow), parts: costParts(w),
			low: w.PerHeadLow, high: w.PerHeadHigh, words: costWords(w, money, c.Heads), mark: w.SoldPerHead,
		}
		lacks[i] = lackOf{w.Workflow, w.Gaps}
		if w.SoldPerHead.Known {
			price = []keyEntry{{markSignAcross, "what a head sells for"}}
		}
	}
	title := fmt.Sprintf("Cost of a head%s, in a grow of %d", of, c.Heads)
	blocks := bars(title, money+" a head", "interval", all, price...)
	return Figure{blocks: blocks, alt: barsAlt("Cost of a head by kind"+of, all), lacks: lackWords(lacks)}
}

// markSignAcross is the sign of a mark across bars.
func markSignAcross(c draw.Canvas, center vg.Point) {
	c.StrokeLine2(markStyle, center.X, center.Y-7, center.X, center.Y+7)
}

func costParts(w answer.GrowCost) []barPart {
	parts := make([]barPart, len(costKinds))
	for i, k := range costKinds {
		parts[i] = barPart{name: k.name, fill: greys[i]}
		for _, line := range w.Lines {
			if line.Kind == k.kind {
				parts[i].amount += line.PerHead.Value
			}
		}
	}
	return parts
}

// costWords are a head's cost and, where it is sold, what is left of the price.
func costWords(w answer.GrowCost, money string, heads int) string {
	if !w.PerHead.Known {
		costs := (w.Supplies + w.Space + w.Outlay) / float64(heads)
		return fmt.Sprintf("≥ %s %s; labour is not counted, for want of a wage", cents(costs), money)
	}
	text := sumWords(w.Gaps, cents(w.PerHead.Value)+" "+money, within(w.PerHeadLow, w.PerHeadHigh, cents))
	if w.LeftPerHead.Known {
		bound := ""
		if len(w.Gaps) > 0 {
			bound = "≤ "
		}
		text += fmt.Sprintf("; left %s%s%s", bound, cents(w.LeftPerHead.Value), within(w.LeftPerHeadLow, w.LeftPerHeadHigh, cents))
	}
	return text
}
