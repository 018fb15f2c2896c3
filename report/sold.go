package report

import (
	"fmt"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// harvestWords is what a grow gives beside heads: "42 bags to sell, 6.6 kg"; "" where
// heads say it all.
func harvestWords(h answer.Harvest, times float64) string {
	var parts []string
	if !h.ByHead && h.Sold.Known {
		parts = append(parts, unitsOf(h.Sold.Value*times, h.Unit)+" to sell")
	}
	if h.Weighs && h.Kg.Known {
		parts = append(parts, words.Count3(h.Kg.Value*times)+" kg")
	}
	return strings.Join(parts, ", ")
}

// unitsOf is so many of what is sold, to three digits: "1 bag", "42.1 bags". A unit that
// is no word of its own, such as "250 g", is counted with a sign.
func unitsOf(n float64, unit string) string {
	text := words.Count3(n)
	if !words.IsWord(unit) {
		return text + " × " + words.Show(unit)
	}
	return words.Numbered(text, words.Show(unit))
}

// aUnit is one of what is sold: "a bag", "an armful", "a unit of 250 g".
func aUnit(unit string) string {
	switch {
	case !words.IsWord(unit):
		return "a unit of " + words.Show(unit)
	case strings.ContainsAny(unit[:1], "aeioAEIO"):
		return "an " + words.Show(unit)
	}
	return "a " + words.Show(unit)
}

// unweighed says why it is not known how much of what is sold by weight there is.
func unweighed(h answer.Harvest) string {
	return fmt.Sprintf("no known number of units: %s is sold by weight, and neither cuts, head_kg nor a [[grow]] tell that", aUnit(h.Unit))
}

// soldLine says what a grow gives that is sold, and the minutes of a unit.
func soldLine(h answer.Hours) string {
	text := fmt.Sprintf("%s gives ", words.Quoted(h.Workflow))
	what := harvestWords(h.Gives, 1)
	switch {
	case what == "" && !h.Gives.ByHead:
		return text + unweighed(h.Gives) + "."
	case what == "": // by heads whose weight is not known
		return text + "heads."
	}
	text += what
	if h.Gives.Minutes.Known && !h.Gives.ByHead && !nothingKnown(h) {
		minutes := study.Known(h.Gives.Minutes.Value / 60)
		text += fmt.Sprintf("; %s takes %s%s", aUnit(h.Gives.Unit), atLeastWords(h.Gaps),
			durationWithin(minutes.Value, h.Gives.MinutesLow.Times(1.0/60), h.Gives.MinutesHigh.Times(1.0/60)))
	}
	return text + "."
}

func atLeastWords(gaps []string) string {
	if len(gaps) > 0 {
		return "at least "
	}
	return ""
}

// anyMore says that some way sells by more than the head.
func anyMore(c answer.Comparison) bool {
	for _, h := range c.Workflows {
		if h.Gives.More() {
			return true
		}
	}
	return false
}

// addSold says what grows give where that is more than heads, and which way is quicker
// for it.
func (d *Doc) addSold(c answer.Comparison) {
	if !anyMore(c) {
		return
	}
	var lines []string
	for _, h := range c.Workflows {
		if h.Gives.More() {
			lines = append(lines, soldLine(h))
		}
	}
	d.say("sold", strings.Join(lines, "\n"))
	for _, p := range c.Pairs {
		if p.AUnit != nil && len(c.Workflows) <= maxSpelledOut {
			d.say("sold", aUnitSentence(p))
		}
	}
	d.show("sold", soldTable(c))
}

// aUnitSentence says which of two ways is quicker for what is sold.
func aUnitSentence(p answer.Pair) string {
	quicker, slower := p.B, p.A
	x, low, high := p.AUnit.Difference, p.AUnit.Low, p.AUnit.High
	if x > 0 {
		quicker, slower = p.A, p.B
	} else {
		x, low, high = -x, p.AUnit.High.Times(-1), p.AUnit.Low.Times(-1)
	}
	hours := func(m study.Maybe) study.Maybe { return m.Times(1.0 / 60) }
	unit := aUnit(p.AUnit.Unit)
	switch {
	case len(p.Gaps) > 0:
		return fmt.Sprintf("For which of %s and %s %s is quicker cannot be told: they differ in %s, not timed.", words.Quoted(p.A), words.Quoted(p.B), unit, words.Names(p.Gaps))
	case !low.Known:
		return fmt.Sprintf("%s of %s takes %s less than one of %s, as far as is known.", words.Capital(unit), words.Quoted(quicker), words.Duration(x/60), words.Quoted(slower))
	case low.Value <= 0:
		return fmt.Sprintf("By the %s no clear difference is seen between %s and %s.", words.Show(p.AUnit.Unit), words.Quoted(p.A), words.Quoted(p.B))
	}
	return fmt.Sprintf("%s of %s is quicker than one of %s, by %s.", words.Capital(unit), words.Quoted(quicker), words.Quoted(slower), durationWithin(x/60, hours(low), hours(high)))
}

func soldTable(c answer.Comparison) Table {
	t := Table{Title: "What a grow gives, and the minutes of a unit that is sold", Columns: []Column{
		{Head: "way", Key: "workflow"},
		{Head: "kg", Key: "kg", Right: true},
		{Head: "unit", Key: "unit"},
		{Head: "sold", Key: "sold", Right: true},
		{Head: "min a unit", Key: "minutes_per_unit", Right: true},
		{Head: "from", Key: "minutes_per_unit_low", Right: true},
		{Head: "to", Key: "minutes_per_unit_high", Right: true},
	}}
	for _, h := range c.Workflows {
		g := h.Gives
		minutes := maybe(g.Minutes, 2)
		minutes.Text = atLeast(h.Gaps, minutes.Text)
		t.Rows = append(t.Rows, []Cell{
			{words.Show(h.Workflow), h.Workflow}, maybe(g.Kg, 1), {words.Show(g.Unit), g.Unit}, maybe(g.Sold, 1),
			minutes, maybe(g.MinutesLow, 2), maybe(g.MinutesHigh, 2),
		})
	}
	return t
}

// aUnitTable is what a unit that is sold costs, and a kilogram.
func aUnitTable(c answer.Costs, money string) Table {
	columns := []Column{
		{Head: "way", Key: "workflow"},
		{Head: "kg", Key: "kg", Right: true},
		{Head: "a kg", Key: "per_kg", Right: true},
		{Head: "unit", Key: "unit"},
		{Head: "sold", Key: "sold", Right: true},
		{Head: "a unit", Key: "per_unit", Right: true},
		{Head: "from", Key: "per_unit_low", Right: true},
		{Head: "to", Key: "per_unit_high", Right: true},
		{Head: "min a unit", Key: "minutes_per_unit", Right: true},
	}
	title := "What is sold of one grow, and its cost"
	if money != "" {
		title += " in " + money
	}
	t := Table{Title: title, Columns: columns}
	d := 2
	for _, w := range c.Workflows {
		d = enough(d, w.PerUnit, w.PerUnitLow, w.PerUnitHigh, w.PerKg)
	}
	for _, w := range c.Workflows {
		cost, minutes := maybe(w.PerUnit, d), maybe(w.MinutesAUnit, 2)
		cost.Text, minutes.Text = atLeast(w.Gaps, cost.Text), atLeast(w.Gaps, minutes.Text)
		t.Rows = append(t.Rows, []Cell{
			{words.Show(w.Workflow), w.Workflow}, maybe(w.Kg, 1), maybe(w.PerKg, d), {words.Show(w.Unit), w.Unit}, maybe(w.Gives.Sold, 1),
			cost, maybe(w.PerUnitLow, d), maybe(w.PerUnitHigh, d), minutes,
		})
	}
	return t
}

// sellsMore says that some way's cost is of more than heads.
func sellsMore(c answer.Costs) bool {
	for _, w := range c.Workflows {
		if w.Gives.More() {
			return true
		}
	}
	return false
}
