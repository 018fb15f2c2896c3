package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Seeding lays out seeds per cell and cells to sow.
func Seeding(s answer.Seeding) Doc {
	doc := Doc{
		Title: fmt.Sprintf("%s: seeds per cell for %s", words.Show(s.Workflow), words.Many(s.Heads, "head")),
		Notes: slices.Clone(s.Notes),
	}
	if s.Bought {
		doc.Title = fmt.Sprintf("%s: young plants to buy for %s", words.Show(s.Workflow), words.Many(s.Heads, "head"))
		doc.say("seeds", boughtSentence(s))
	} else {
		doc.say("seeds", bestSeedsSentence(s), cellsSentence(s))
	}
	doc.show("seeds", seedingTable(s))
	if s.Bought { // programs have the same columns for all ways
		doc.section("seeds").Table.For = Programs
		doc.show("plants", plantsTable(s))
	}
	if s.Resown != nil && !noneTimed(s) {
		doc.say("resown", resownSentence(s))
	}
	switch {
	case len(s.Unshared) > 0:
		doc.say("gaps", fmt.Sprintf("At least: %s.", whyLacking(s.Gaps, s.Unshared)))
	case noneTimed(s):
		doc.say("gaps", fmt.Sprintf("Neither timed nor judged: %s.", words.Names(s.Gaps)))
	case len(s.Gaps) > 0:
		doc.say("gaps", fmt.Sprintf("At least: %s not counted.", words.Names(s.Gaps)))
	}
	if s.Bought {
		doc.Notes = append(doc.Notes, "plants are taken to be lost independently of each other; a bad batch is worse")
		return doc
	}
	doc.Notes = append(doc.Notes, "seeds are taken to come up independently of each other; a bad lot or a hot tray is worse")
	if s.Tested.Of > 0 {
		doc.Notes = append(doc.Notes, fmt.Sprintf("cells to sow allow for what a germination test of %s leaves open", words.Many(s.Tested.Of, "seed")))
	}
	return doc
}

// boughtSentence says how many young plants to buy.
func boughtSentence(s answer.Seeding) string {
	best := bestOf(s)
	if best.CellsAssured == nil {
		return neverSure("young plants", s)
	}
	return fmt.Sprintf("Buy %s to harvest at least %s %s times in a hundred; on average %s would do.", words.Many(*best.CellsAssured, "young plant"),
		words.Many(s.Heads, "head"), words.Apart(100*s.Assurance, 100), words.Count(words.Rounded(best.CellsExpected, 4)))
}

// neverSure says that no number of something that is looked at is sure enough to do.
func neverSure(what string, s answer.Seeding) string {
	text := fmt.Sprintf("Even %d %s, the most that are looked at, do not give at least %s %s times in a hundred", crop.MaxCells, what, words.Many(s.Heads, "head"), words.Apart(100*s.Assurance, 100))
	if s.Tested.Of > 0 && !s.Bought {
		text += fmt.Sprintf(": %s tested for germination %s too little", words.Many(s.Tested.Of, "seed"), words.Agree(s.Tested.Of, "tells", "tell"))
	}
	return text + "."
}

func bestOf(s answer.Seeding) answer.SeedingChoice {
	for _, c := range s.Choices {
		if c.Best {
			return c
		}
	}
	return answer.SeedingChoice{}
}

// noneTimed says that all of the work is a gap: its minutes are not 0 but not known.
func noneTimed(s answer.Seeding) bool {
	return len(s.Gaps) > 0 && !slices.ContainsFunc(s.Choices, func(c answer.SeedingChoice) bool { return c.MinutesPerHead != 0 })
}

func bestSeedsSentence(s answer.Seeding) string {
	best := bestOf(s)
	if noneTimed(s) {
		return "How many seeds a cell are best cannot be told: nothing that it needs was timed or judged yet."
	}
	if s.NoThinning && best.SeedsPerCell > 1 {
		return noThinningSentence(s)
	}
	if !s.ByCost && best.MinutesPerHead == 0 && len(s.Gaps) == 0 {
		return fmt.Sprintf("With %s a cell there is nothing to do for it, with %s of seeds coming up.", words.Many(best.SeedsPerCell, "seed"), words.Percent(s.Germination, 2))
	}
	if allAlike(s) {
		return allAlikeSentence(s)
	}
	at := ", at "
	if len(s.Gaps) > 0 {
		at = ": at least "
	}
	if len(s.TurnedBy) > 0 {
		at = " in what is known: at least "
	}
	what := fmt.Sprintf("quickest%s%s minutes a head", at, shortMinutes(best))
	if s.ByCost {
		what = fmt.Sprintf("cheapest%s%s a head and %s minutes", at, inMoney(words.Fixed(best.CostPerHead.Value, enough(3, best.CostPerHead)), s.Currency), shortMinutes(best))
	}
	text := fmt.Sprintf("%s a cell is %s, with %s of seeds coming up.", words.Capital(words.Many(best.SeedsPerCell, "seed")), what, words.Percent(s.Germination, 2))
	if s.NoThinning {
		text += " Thinning, which is not counted, would make the others dearer still."
	}
	switch {
	case len(s.TurnedBy) > 0:
		return text + turnedSentence(s)
	case len(s.Rivals) == 0:
		return text + " That is clear of chance in the timings."
	default:
		return text + fmt.Sprintf(" It is not clearly better than %s: the timings leave that open.", seedsList(s.Rivals))
	}
}

// turnedSentence says that steps never timed may make another number of seeds the best.
func turnedSentence(s answer.Seeding) string {
	return fmt.Sprintf(" Whether it is so in all cannot be told: %s, and other numbers of seeds call for less of %s.",
		neverTimed(s.TurnedBy), words.Agree(len(s.TurnedBy), "it", "them"))
}

// alike is the share of an amount below which a difference is but the rounding of sums.
const alike = 1e-9

// allAlike says that every number of seeds a cell takes and costs the same, as where no
// count depends on it.
func allAlike(s answer.Seeding) bool {
	if len(s.Choices) < 2 {
		return false
	}
	first := s.Choices[0]
	return !slices.ContainsFunc(s.Choices, func(c answer.SeedingChoice) bool {
		return math.Abs(c.MinutesPerHead-first.MinutesPerHead) > alike*math.Abs(first.MinutesPerHead) ||
			math.Abs(c.CostPerHead.Value-first.CostPerHead.Value) > alike*math.Abs(first.CostPerHead.Value)
	})
}

// allAlikeSentence says what all numbers of seeds a cell take and cost.
func allAlikeSentence(s answer.Seeding) string {
	c, known, least := s.Choices[0], "", ""
	if len(s.Gaps) > 0 {
		known, least = " in what is known", "at least "
	}
	same := fmt.Sprintf("all take as long%s: %s%s minutes a head", known, least, shortMinutes(c))
	if s.ByCost {
		same = fmt.Sprintf("all cost the same%s: %s%s a head and %s minutes", known, least, inMoney(words.Fixed(c.CostPerHead.Value, enough(3, c.CostPerHead)), s.Currency), shortMinutes(c))
	}
	text := fmt.Sprintf("1 to %d seeds a cell %s, with %s of seeds coming up.", len(s.Choices), same, words.Percent(s.Germination, 2))
	if s.NoThinning {
		text += " Thinning, which is not counted, would make two and more dearer."
	}
	if len(s.TurnedBy) > 0 {
		text += turnedSentence(s)
	}
	return text
}

// noThinningSentence says why no number of seeds is called best: of two and more, the
// time of thinning is missing.
func noThinningSentence(s answer.Seeding) string {
	one, least, what := s.Choices[0], "", "quickest"
	if len(s.Gaps) > 0 {
		least = "at least "
	}
	takes := fmt.Sprintf("takes %s%s minutes a head", least, shortMinutes(one))
	if s.ByCost {
		what = "cheapest"
		takes = fmt.Sprintf("costs %s%s a head and %s minutes", least, inMoney(words.Fixed(one.CostPerHead.Value, enough(3, one.CostPerHead)), s.Currency), shortMinutes(one))
	}
	return fmt.Sprintf("How many seeds a cell are %s cannot be told: two and more call for thinning, which no task of this way does. One seed a cell %s, with %s of seeds coming up.",
		what, takes, words.Percent(s.Germination, 2))
}

// shortMinutes are the minutes of a head in a choice, with enough digits.
func shortMinutes(c answer.SeedingChoice) string {
	return words.Fixed(c.MinutesPerHead, visible(2, study.Known(c.MinutesPerHead)))
}

func seedsList(ks []int) string {
	names := make([]string, len(ks))
	for i, k := range ks {
		names[i] = fmt.Sprint(k)
	}
	return words.Or(names)
}

func cellsSentence(s answer.Seeding) string {
	best := bestOf(s)
	unsure := noneTimed(s) || allAlike(s)
	if s.NoThinning && best.SeedsPerCell > 1 {
		best, unsure = s.Choices[0], true
	}
	if best.CellsAssured == nil {
		return neverSure("cells", s)
	}
	sow := fmt.Sprintf("Sow %s of it", words.Many(*best.CellsAssured, "cell"))
	if unsure {
		sow = fmt.Sprintf("With %s a cell, sow %s", words.Many(best.SeedsPerCell, "seed"), words.Many(*best.CellsAssured, "cell"))
	}
	return fmt.Sprintf("%s to harvest at least %s %s times in a hundred; on average %s would do.",
		sow, words.Many(s.Heads, "head"), words.Apart(100*s.Assurance, 100), words.Numbered(words.Count(best.CellsExpected), "cell"))
}

func resownSentence(s answer.Seeding) string {
	takes := "takes "
	if len(s.Gaps) > 0 {
		takes += "at least "
	}
	text := fmt.Sprintf("One seed a cell with empty cells sown once more (%s) %s%s minutes a head", words.Show(s.ResowStep), takes, words.Fixed(s.Resown.MinutesPerHead, 2))
	if s.Resown.CostPerHead.Known {
		text += fmt.Sprintf(" and costs %s", inMoney(words.Fixed(s.Resown.CostPerHead.Value, 3), s.Currency))
	}
	return text + "; those plants are some days younger."
}

func seedingTable(s answer.Seeding) Table {
	t := Table{Title: "Choices: seeds and thinning by the cell, minutes and cost by the head", Columns: []Column{
		{Head: "seeds", Key: "seeds_per_cell", Right: true},
		{Head: "empty", Key: "empty_share", Right: true},
		{Head: "thin", Key: "surplus_per_cell", Right: true},
		{Head: "cells", Key: "cells_expected", Right: true},
		{Head: "assured", Key: "cells_assured", Right: true},
		{Head: "minutes", Key: "minutes_per_head", Right: true},
		{Head: "range", Key: "minutes_low", Right: true},
		{Head: "", Key: "minutes_high", Full: true},
		{Head: "cost", Key: "cost_per_head", Right: true},
		{Head: "range", Key: "cost_low", Right: true},
		{Head: "", Key: "cost_high", Full: true},
		{Head: "", Key: "best"},
	}}
	d := seedingDecimals(s)
	for _, c := range s.Choices {
		mark := ""
		minutes := study.Known(c.MinutesPerHead)
		switch none := (study.Maybe{}); {
		case noneTimed(s):
			minutes, c.MinutesLow, c.MinutesHigh = none, none, none
			c.CostPerHead, c.CostLow, c.CostHigh = none, none, none
		case c.Best && !allAlike(s) && !(s.NoThinning && c.SeedsPerCell > 1):
			mark = "best"
		}
		if s.NoThinning && c.SeedsPerCell > 1 {
			mark = strings.TrimPrefix(mark+", + thin", ", ")
		}
		assured := Cell{"?", ""}
		if c.CellsAssured != nil {
			assured = Cell{fmt.Sprint(*c.CellsAssured), *c.CellsAssured}
		}
		t.Rows = append(t.Rows, []Cell{
			{fmt.Sprint(c.SeedsPerCell), c.SeedsPerCell},
			{words.Fixed(100*c.EmptyShare, 1) + " %", c.EmptyShare},
			{words.Fixed(c.SurplusPerCell, 2), c.SurplusPerCell},
			{words.Fixed(c.CellsExpected, 1), c.CellsExpected}, assured,
			maybe(minutes, d.minutes), rangeCell(c.MinutesLow, c.MinutesHigh, d.minutes), full(c.MinutesHigh),
			maybe(c.CostPerHead, d.cost), rangeCell(c.CostLow, c.CostHigh, d.costRange), full(c.CostHigh),
			{mark, c.Best},
		})
	}
	return t
}

// seedingPrecision is how many decimals minutes, costs and their ranges get in a table.
type seedingPrecision struct{ minutes, cost, costRange int }

func seedingDecimals(s answer.Seeding) seedingPrecision {
	d := seedingPrecision{2, 3, 2}
	for _, c := range s.Choices {
		d.minutes = visible(d.minutes, study.Known(c.MinutesPerHead), c.MinutesLow, c.MinutesHigh)
		d.cost = visible(d.cost, c.CostPerHead)
		d.costRange = visible(d.costRange, c.CostLow, c.CostHigh)
	}
	return d
}

// plantsTable is young plants to buy, and what they take and cost by the head.
func plantsTable(s answer.Seeding) Table {
	t := Table{Title: "Young plants to buy, and minutes and cost by the head", For: onlyPeople, Columns: []Column{
		{Head: "on average", Right: true}, {Head: "assured", Right: true},
		{Head: "minutes", Right: true}, {Head: "range", Right: true}, {Head: "cost", Right: true}, {Head: "range", Right: true},
	}}
	c, d := bestOf(s), seedingDecimals(s)
	minutes := study.Known(c.MinutesPerHead)
	if noneTimed(s) {
		minutes, c = study.Maybe{}, answer.SeedingChoice{CellsExpected: c.CellsExpected, CellsAssured: c.CellsAssured}
	}
	assured := "?"
	if c.CellsAssured != nil {
		assured = fmt.Sprint(*c.CellsAssured)
	}
	t.Rows = [][]Cell{{
		{Text: words.Fixed(c.CellsExpected, 1)}, {Text: assured},
		maybe(minutes, d.minutes), rangeCell(c.MinutesLow, c.MinutesHigh, d.minutes), maybe(c.CostPerHead, d.cost), rangeCell(c.CostLow, c.CostHigh, d.costRange),
	}}
	return t
}

func rangeCell(low, high study.Maybe, decimals int) Cell {
	if !low.Known {
		return Cell{"", low}
	}
	return Cell{words.Fixed(low.Value, decimals) + "–" + words.Fixed(high.Value, decimals), low}
}
