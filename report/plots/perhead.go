package plots

import (
	"fmt"
	"slices"

	"headhours/timing"
)

// PerHead draws the minutes that a head takes as a bar for each way of working,
// a part for each step, with the interval of the total. Steps that take little
// share one part; those never timed are named.
func PerHead(c timing.Comparison) Figure {
	crops, order := timing.ByCrop(c), stepsBySize(c) // a colour stands for one step
	if len(crops) < 2 {
		return perHeadOf(c, order, "")
	}
	var all Figure
	for _, of := range crops { // which are not compared with each other
		all = all.above(perHeadOf(of.Comparison, order, ofCrop(of.Crop)))
	}
	return all
}

// above is a figure with another below it.
func (f Figure) above(below Figure) Figure {
	if len(f.blocks) == 0 {
		return below
	}
	return Figure{slices.Concat(f.blocks, []block{space(14)}, below.blocks), f.alt + " " + below.alt}
}

// ofCrop is what a title says of a crop, where there are several.
func ofCrop(crop string) string {
	if crop == "" {
		return " of no named crop"
	}
	return " of " + show(crop)
}

// perHeadOf is PerHead of the ways of one crop.
func perHeadOf(c timing.Comparison, order []string, of string) Figure {
	all := make([]bar, len(c.Workflows))
	for i, h := range c.Workflows {
		perHead := 60 / float64(c.Heads)
		all[i] = bar{
			name: show(h.Workflow), parts: stepParts(h, order, perHead),
			low: h.Low.Times(perHead), high: h.High.Times(perHead),
		}
		all[i].words = sumWords(h.Gaps, cents(h.MinutesPerHead)+" min", within(all[i].low, all[i].high, cents))
	}
	title := fmt.Sprintf("Minutes a head%s, in a grow of %d", of, c.Heads)
	interval := percent(c.Confidence) + " interval"
	blocks, alt := bars(title, "minutes of work a head, rest included", interval, all), barsAlt("Minutes a head by step"+of, all)
	if smaller := smallerWords(order); smaller != "" {
		blocks, alt = append(blocks, space(3), paragraph(faint, smaller)), spoken(alt, smaller)
	}
	return Figure{blocks, alt}
}

// smallerWords names the steps that share one part, the same ones in every bar, so
// that bars compare part by part; "" where none do.
func smallerWords(order []string) string {
	if len(order) <= len(fills)+1 {
		return ""
	}
	return "Smaller steps, the same ones in every bar: " + list(order[len(fills):]) + "."
}

// sumWords are a total in words, its interval, and what it lacks.
func sumWords(gaps []string, sum, interval string) string {
	if len(gaps) > 0 {
		return fmt.Sprintf("at least %s%s; not counted: %s", sum, interval, list(gaps))
	}
	return sum + interval
}

// stepsBySize lists the steps of all workflows, those that take the most time
// first.
func stepsBySize(c timing.Comparison) []string {
	var order []string
	hours := map[string]float64{}
	for _, h := range c.Workflows {
		for _, s := range h.Steps {
			if _, met := hours[s.Step]; !met {
				order = append(order, s.Step)
			}
			hours[s.Step] += abs(s.Hours.Value)
		}
	}
	slices.SortStableFunc(order, func(a, b string) int {
		switch {
		case hours[a] > hours[b]:
			return -1
		case hours[a] < hours[b]:
			return 1
		}
		return 0
	})
	// a gap takes nothing, as far as is known
	return slices.DeleteFunc(order, func(step string) bool { return hours[step] == 0 })
}

// stepParts are the minutes a head of a workflow's steps, in the order of all;
// when there are more of these than colours, the last ones together.
func stepParts(h timing.Hours, order []string, perHead float64) []part {
	var parts []part
	for i, step := range order {
		switch {
		case i < len(fills):
			parts = append(parts, part{name: show(step), fill: fills[i]})
		case i == len(fills):
			parts = append(parts, part{name: fmt.Sprintf("%d smaller steps", len(order)-i), fill: restFill})
			if i == len(order)-1 {
				parts[i].name = show(step)
			}
		}
	}
	for _, s := range h.Steps {
		if i := slices.Index(order, s.Step); i >= 0 {
			parts[min(i, len(fills))].amount += s.Hours.Value * perHead
		}
	}
	return parts
}
