package report

import (
	"fmt"
	"math"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// MeasuredComparison is a comparison with what whole grows took beside it.
type MeasuredComparison struct {
	answer.Comparison
	Measured answer.Measured `json:"measured"`
}

// Measured lays out a comparison with what whole grows took beside it.
func Measured(c MeasuredComparison) Doc {
	doc := Compare(c.Comparison)
	doc.addMeasured(c.Measured)
	return doc
}

// addMeasured adds what whole grows took.
func (d *Doc) addMeasured(m answer.Measured) {
	if len(m.Grows) == 0 {
		d.say("measured", "No grow was timed that says how many heads it gave, so there is nothing measured to set beside this.")
		return
	}
	units := false
	for _, g := range m.Grows {
		units = units || !g.Gives.ByHead
	}
	for _, p := range m.Pairs {
		if !p.OtherCrop {
			d.say("measured", measuredSentence(p, "a head"))
		}
		if p.AUnit != nil {
			byUnit := *p.AUnit
			byUnit.A, byUnit.B = p.A, p.B
			d.say("measured", measuredSentence(byUnit, aUnit(p.Unit)))
		}
	}
	t := Table{Title: "Grows as they were timed", Columns: []Column{
		{Head: "lacks", Key: "lacks"},
		{Head: "grow", Key: "grow"},
		{Head: "way", Key: "workflow", Full: true},
		{Head: "heads", Key: "heads", Right: true},
		{Head: "min a head", Key: "minutes_per_head", Right: true},
		{Head: "model", Long: "by the model, min a head", Key: "model_minutes_per_head", Right: true},
		{Head: "min a kg", Key: "minutes_per_kg", Right: true},
	}}
	if units {
		t.Columns = append(t.Columns, Column{Head: "min a unit", Key: "minutes_per_unit", Right: true}, Column{Head: "unit", Key: "unit"})
	}
	for _, g := range m.Grows {
		lacks := "timed whole"
		if !g.Whole() {
			lacks = "lacks " + lackingWords(g.InPart)
		}
		row := []Cell{
			{lacks, g.Lacks}, {words.Show(g.Grow), g.Grow}, {words.Show(g.Workflow), g.Workflow},
			{words.Count(g.Heads), g.Heads},
			{atLeast(g.Lacks, words.Fixed(g.MinutesPerHead, 2)), g.MinutesPerHead},
			{words.Fixed(g.ModelPerHead, 2), g.ModelPerHead},
			{atLeast(g.Lacks, maybe(g.MinutesPerKg, 2).Text), g.MinutesPerKg},
		}
		if units {
			minutes := maybe(g.Gives.Minutes, 2)
			minutes.Text = atLeast(g.Lacks, minutes.Text)
			row = append(row, minutes, Cell{words.Show(g.Gives.Unit), g.Gives.Unit})
		}
		t.Rows = append(t.Rows, row)
	}
	d.show("measured", t)
}

// lackingWords name what was not timed of a grow: "look over, and 1 of 3 visits of check pH".
func lackingWords(lacking []answer.Lacking) string {
	var wholly, partly []string
	for _, l := range lacking {
		if l.Missing == l.Planned {
			wholly = append(wholly, words.Show(l.Step))
		} else {
			partly = append(partly, fmt.Sprintf("%d of %d visits of %s", l.Missing, l.Planned, words.Show(l.Step)))
		}
	}
	if wholly == nil || partly == nil {
		return words.And(append(wholly, partly...))
	}
	return words.And(wholly) + ", and " + words.And(partly)
}

func measuredSentence(p answer.MeasuredPair, unit string) string {
	switch {
	case !p.Difference.Known:
		return fmt.Sprintf("No whole grow of both %s and %s was timed, so they cannot be set side by side as measured.", words.Quoted(p.A), words.Quoted(p.B))
	case !p.Low.Known:
		return fmt.Sprintf("As measured, %s of %s took %s minutes %s than one of %s (%s against %s): too few grows for a test.",
			unit, words.Quoted(p.B), words.Fixed(math.Abs(p.Difference.Value), 2), moreOrLess(p.Difference.Value), words.Quoted(p.A), words.Many(p.BGrows, "grow"), words.Many(p.AGrows, "grow"))
	}
	text := fmt.Sprintf("As measured over %s and %s, %s of %s took %s minutes %s than one of %s (%s)",
		words.Many(p.BGrows, "grow"), words.Many(p.AGrows, "grow"), unit, words.Quoted(p.B), words.Fixed(math.Abs(p.Difference.Value), 2), moreOrLess(p.Difference.Value), words.Quoted(p.A),
		minutesBetween(p.Low.Value, p.High.Value))
	if p.Low.Value*p.High.Value <= 0 {
		text += ": no clear difference seen"
	}
	if p.Disagrees {
		text += ". The steps' models say otherwise: see whether the grows were alike in all else"
	}
	return text + "."
}

// minutesBetween is the range of a difference in the direction of its words.
func minutesBetween(low, high float64) string {
	switch {
	case low >= 0:
		return fmt.Sprintf("between %s and %s", words.Fixed(low, 2), words.Fixed(high, 2))
	case high <= 0:
		return fmt.Sprintf("between %s and %s", words.Fixed(-high, 2), words.Fixed(-low, 2))
	}
	return fmt.Sprintf("between %s less and %s more", words.Fixed(-low, 2), words.Fixed(high, 2))
}

func moreOrLess(x float64) string {
	if x < 0 {
		return "less"
	}
	return "more"
}

// Sensitivity lays out what a fifth more or less of each input does to the cost
// of a head.
func Sensitivity(s answer.Sensitivity) Doc {
	money := "money"
	if s.Currency != nil {
		money = words.Show(*s.Currency)
	}
	doc := Doc{Title: fmt.Sprintf("%s: what moves the cost of a head", words.Show(s.Workflow)), Notes: s.Notes}
	amounts := []study.Maybe{study.Known(s.PerHead)}
	for _, in := range s.Inputs {
		amounts = append(amounts, study.Known(in.Lower), study.Known(in.Higher))
	}
	d := enough(3, amounts...)
	if len(s.Inputs) > 0 {
		in := s.Inputs[0]
		costs := "A head costs"
		if len(s.Gaps) > 0 {
			costs = "A head costs at least"
		}
		doc.say("inputs", fmt.Sprintf("%s %s %s. What moves it most is %s: a fifth less or more makes it %s or %s.",
			costs, words.Fixed(s.PerHead, d), money, words.Show(in.Name), words.Fixed(in.Lower, d), words.Fixed(in.Higher, d)))
	}
	if len(s.Gaps) > 0 {
		doc.say("gaps", fmt.Sprintf("At least: %s.", whyLacking(s.Gaps, s.Unshared)))
	}
	t := Table{Title: "Cost of a head in " + money + ", with one input a fifth lower or higher", Columns: []Column{
		{Head: "input", Key: "input"},
		{Head: "a fifth lower", Key: "per_head_lower", Right: true},
		{Head: "a fifth higher", Key: "per_head_higher", Right: true},
	}}
	for _, in := range s.Inputs {
		t.Rows = append(t.Rows, []Cell{{words.Show(in.Name), in.Name}, {words.Fixed(in.Lower, d), in.Lower}, {words.Fixed(in.Higher, d), in.Higher}})
	}
	doc.show("inputs", t)
	return doc
}
