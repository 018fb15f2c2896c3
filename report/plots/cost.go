package plots

import (
	"fmt"
	"slices"

	"headhours/timing"
)

// costKinds are the parts of a cost, in the order in which they are drawn.
var costKinds = []struct {
	kind timing.LineKind
	name string
}{
	{timing.LabourLine, "labour"},
	{timing.ChoreLine, "chores"},
	{timing.SupplyLine, "supplies"},
	{timing.SpaceLine, "space"},
	{timing.OutlayLine, "outlay"},
}

// CostPerHead draws what a head costs as a bar for each way of working, a part
// for each kind of cost, with the interval of the total. What is not counted is
// named.
func CostPerHead(c timing.Costs) Figure {
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
		of.Workflows = slices.DeleteFunc(slices.Clone(c.Workflows), func(w timing.GrowCost) bool { return w.Gives.Crop != crop })
		all = all.above(costOf(of, ofCrop(crop)))
	}
	return all
}

// costOf is CostPerHead of the ways of one crop.
func costOf(c timing.Costs, of string) Figure {
	money := "money"
	if c.Currency != nil {
		money = show(*c.Currency)
	}
	all := make([]bar, len(c.Workflows))
	for i, w := range c.Workflows {
		all[i] = bar{
			name: show(w.Workflow), parts: costParts(w),
			low: w.PerHeadLow, high: w.PerHeadHigh, words: costWords(w, money, c.Heads),
		}
	}
	title := fmt.Sprintf("Cost of a head%s, in a grow of %d", of, c.Heads)
	return Figure{bars(title, money+" a head", "interval", all), barsAlt("Cost of a head by kind"+of, all)}
}

func costParts(w timing.GrowCost) []part {
	parts := make([]part, len(costKinds))
	for i, k := range costKinds {
		parts[i] = part{name: k.name, fill: fills[i]}
		for _, line := range w.Lines {
			if line.Kind == k.kind {
				parts[i].amount += line.PerHead.Value
			}
		}
	}
	return parts
}

func costWords(w timing.GrowCost, money string, heads int) string {
	if !w.PerHead.Known {
		known := (w.Supplies + w.Space + w.Outlay) / float64(heads)
		return fmt.Sprintf("at least %s %s; labour is not counted, for want of a wage", cents(known), money)
	}
	return sumWords(w.Gaps, cents(w.PerHead.Value)+" "+money, within(w.PerHeadLow, w.PerHeadHigh, cents))
}
