package page

import (
	"slices"

	"headhours/report"
	"headhours/timing/answer"
)

// boughtAndSown says whether young plants are bought in some way of working, and seeds
// sown in some.
func boughtAndSown(w report.Whole) (bought, sown bool) {
	for _, workflow := range w.Workflows {
		bought, sown = bought || workflow.Seeding.Bought, sown || !workflow.Seeding.Bought
	}
	return bought, sown || len(w.Workflows) == 0
}

// sowTitle is the title of what is said of seeds, or of young plants to buy.
func sowTitle(w report.Whole) string {
	switch bought, sown := boughtAndSown(w); {
	case !bought:
		return "How to sow"
	case !sown:
		return "What to buy"
	}
	return "How to sow, what to buy"
}

// countsTerm is how counts come about.
func countsTerm(w report.Whole) term {
	bought, sown := boughtAndSown(w)
	text := ""
	if sown {
		text = "A cell of k seeds, each coming up with chance g, is filled with chance 1 − (1 − g)^k. Heads are filled cells less every loss; counting back from the heads gives the cells to sow. Seeds are taken to come up independently of each other."
	}
	if bought {
		if sown {
			text += " "
		}
		text += "Young plants that are bought are one a cell and all alive; heads are these less every loss."
	}
	return term{"Counts", text}
}

// sureTerm is how many cells or young plants are sure to do.
func sureTerm(w report.Whole) term {
	if _, sown := boughtAndSown(w); !sown {
		return term{"Plants to buy for sure", "The smallest number of young plants that give the heads with the asked probability (binomial)."}
	}
	return term{"Cells to sow for sure", "The smallest number of cells that give the heads with the asked probability (binomial); where germination was counted in a test, averaged over what the test leaves open (beta distribution, Jeffreys' prior)."}
}

// seasonTerms are the formulas of what is sold and of the season, where there are such.
func seasonTerms(w report.Whole) []term {
	var terms []term
	if slices.ContainsFunc(w.Cost.Workflows, func(c answer.GrowCost) bool { return c.Gives.More() }) {
		terms = append(terms, term{"A unit that is sold", "Heads, or kilograms, of a grow over those in one unit, times the share that is sold. Kilograms are those of each cut times the plants alive that day, or heads times the weight of one. What a unit costs or takes is that of the grow over the units sold; ways of one crop are ranked by it, or by the kilogram where units differ."})
	}
	if w.Season != nil {
		terms = append(terms,
			term{"A week", "The sum of what all grows and chores ask for on its seven days. Of a step that is done together one doing a day serves all. Its range comes from the same setup and unit times as a grow's, since all weeks share them."},
			term{"An hour of one's own", "What is sold, less supplies, space, overheads by the day and hired hours, over the hours up to one's own of each week. What goes beyond is hired at wage × (1 + on-costs). Its range is that of the hours."},
			term{"A price that is needed", "((wanted hour × own hours + hired + overheads) × the sowing's share of the hours of all sowings + its supplies + its space) / units sold."})
	}
	return terms
}
