package plots

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"headhours/report"
	"headhours/timing/answer"
	"headhours/timing/words"
)

// littleDay is the share of all hours below which a step has no part of its own in bars
// of days.
const littleDay = 0.02

// Days draws the work of days as bars stacked by step: with a new grow every so many days
// those of one steady week, the weeks before it is steady as a line above; of one grow
// those of each day with work. start is the day of the first sowing; where it is not known
// that is taken for a Monday.
func Days(c answer.Calendar, start time.Time, hues Hues) Figure {
	blocks := []block{paragraph(heading, daysTitle(c)), space(4)}
	var bars stackedBars
	if c.EveryDays == nil {
		bars = growDays(c, hues)
	} else {
		bars = steadyWeek(c, hues)
		if len(c.StartUp) > 1 {
			blocks = append(blocks, startUp(c), space(8))
		}
		switch {
		case *c.EveryDays%7 != 0:
		case !start.IsZero():
			bars.axis = fmt.Sprintf("a steady week, %s on %s", report.StartWords(c), words.Plural(start.Weekday().String()))
		default:
			bars.axis = fmt.Sprintf("a steady week, if %s on Mondays", report.StartWords(c))
		}
	}
	if len(bars.stacks) > 0 {
		blocks = append(blocks, key(bars.keyEntries()), space(8), bars.inHours().asBlock())
	}
	doc := report.Calendar(report.DatedCalendar{Calendar: c, Start: start})
	alt := spoken(append([]string{"Work of each day as a bar, stacked by step."}, doc.Words()...)...)
	return Figure{blocks: blocks, alt: alt, lacks: hoursLack(c.Gaps)}
}

func daysTitle(c answer.Calendar) string {
	switch {
	case c.EveryDays == nil:
		return "Work day by day, one grow of " + words.Many(c.Heads, "head")
	}
	return fmt.Sprintf("One steady week, %s %s %s", words.Many(c.Heads, "head"), report.StartWords(c), words.EveryDays(*c.EveryDays))
}

// growDays are the days of one grow.
func growDays(c answer.Calendar, hues Hues) stackedBars {
	bars := stackedBars{axis: "days after sowing"}
	if c.Gives.Bought {
		bars.axis = "days after setting out"
	}
	of := map[string][]float64{}
	var order []string
	for i, d := range c.Days {
		bars.at = append(bars.at, float64(d.Day))
		for _, job := range d.Tasks {
			if of[job.Step] == nil {
				of[job.Step] = make([]float64, len(c.Days))
				order = append(order, job.Step)
			}
			of[job.Step][i] += job.Hours.Value
		}
	}
	bars.stacks = stacksBySize(order, of, hues)
	return bars
}

// steadyWeek are the days of a steady week, Monday first.
func steadyWeek(c answer.Calendar, hues Hues) stackedBars {
	bars := stackedBars{axis: "a steady week"}
	of := map[string][]float64{}
	var order []string
	for _, s := range c.WeekSteps {
		order, of[s.Step] = append(order, s.Step), s.Hours
	}
	for i := range c.Weekdays {
		bars.at = append(bars.at, float64(i))
		bars.names = append(bars.names, time.Weekday((i + 1) % 7).String()[:3])
	}
	bars.stacks = stacksBySize(order, of, hues)
	return bars
}

// stacksBySize are the hours of steps as stacks, those that take most first and lowest;
// steps that take little share the last.
func stacksBySize(order []string, of map[string][]float64, hues Hues) []stack {
	hours := map[string]float64{}
	var all float64
	for step, days := range of {
		for _, h := range days {
			hours[step] += max(h, 0)
		}
	}
	for _, step := range order {
		all += hours[step]
	}
	order = slices.DeleteFunc(slices.Clone(order), func(step string) bool { return hours[step] == 0 })
	slices.SortStableFunc(order, func(a, b string) int { return cmp.Compare(hours[b], hours[a]) })
	var stacks []stack
	var rest []float64
	for _, step := range order {
		if hours[step] >= littleDay*all {
			stacks = append(stacks, stack{of[step], hues.of(step)})
			continue
		}
		if rest == nil {
			rest = make([]float64, len(of[step]))
		}
		for i, h := range of[step] {
			rest[i] += h
		}
	}
	if rest != nil {
		stacks = append(stacks, stack{rest, stepHue{fill: restFill, name: "smaller steps"}})
	}
	return stacks
}

// keyEntries explains the parts.
func (s stackedBars) keyEntries() []keyEntry {
	entries := make([]keyEntry, len(s.stacks))
	for i, part := range s.stacks {
		entries[i] = keyEntry{letteredSign(part.stepHue), part.name}
	}
	return entries
}
