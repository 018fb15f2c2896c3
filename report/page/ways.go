package page

import (
	"fmt"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/words"
)

// eachWorkflow lays out what is worked out for one way at a time: the quickest first, the
// others folded away, all of them together where they are several.
func eachWorkflow(w report.Whole, lay func(report.WorkflowAnswers) []pagePart) []pagePart {
	var parts, others []pagePart
	for i, workflow := range w.QuickestFirst() {
		own := lay(workflow)
		switch {
		case len(own) == 0:
		case i == 0:
			parts = append(parts, own...)
		default:
			others = append(others, pagePart{Fold: "The same for " + words.Quoted(workflow.Workflow), Parts: own})
		}
	}
	if len(others) > 1 {
		return append(parts, pagePart{Fold: fmt.Sprintf("The same for the %d other ways", len(others)), Parts: others})
	}
	return append(parts, others...)
}

// change says where the time goes, what changes would save and what moves the
// cost of a head.
func change(w report.Whole) []pagePart {
	return eachWorkflow(w, func(workflow report.WorkflowAnswers) []pagePart {
		in := workflow.Improve
		in.Advice = nil // it has a section of its own
		doc := report.Improve(in)
		shares := partOf(doc.Without(notOfShares(in)...), shownFigure(plots.Shares(workflow.Improve, huesOf(w)), hasAnswers(w)))
		shares.Notes, shares.Tucked = only(doc.Notes, in.Notes), true
		parts := append([]pagePart{shares}, changesMade(w, workflow, doc)...)
		if workflow.Sensitivity != nil {
			parts = append(parts, pagePart{Fold: "What moves the cost of a head", Parts: []pagePart{partOf(report.Sensitivity(*workflow.Sensitivity).Without("gaps"), shownFigure(plots.Swing(*workflow.Sensitivity), len(workflow.Sensitivity.Inputs) > 0))}})
		}
		return parts
	})
}

// notOfShares are the sections of an answer about where the time goes that stand by
// themselves: changes that were made and, with them, what-ifs.
func notOfShares(in answer.Improvement) []string {
	if len(in.Made) == 0 {
		return []string{"gaps", "no changes"}
	}
	return []string{"gaps", "no changes", "made", "changes"}
}

// changesMade says what changes that were made have saved, with a figure of their steps by date
// at the way in front, then what others would.
func changesMade(w report.Whole, workflow report.WorkflowAnswers, doc report.Doc) []pagePart {
	if len(workflow.Improve.Made) == 0 {
		return nil
	}
	changes := doc.Only("made")
	changes.Title = "Changes made"
	own := partOf(changes, shownFigure(plots.ByDate(w.ByDates), workflow.Workflow == w.Front() && len(w.ByDates) > 0))
	own.Tucked = true
	if len(workflow.Improve.Changes) == 0 {
		return []pagePart{own}
	}
	others := doc.Only("changes")
	others.Title = "What-ifs"
	ifs := partOf(others, nil)
	ifs.Tucked = true
	return []pagePart{own, ifs}
}

// sow says how many seeds a cell and how many cells.
func sow(w report.Whole) []pagePart {
	return eachWorkflow(w, func(workflow report.WorkflowAnswers) []pagePart {
		doc := report.Seeding(workflow.Seeding)
		seeding := partOf(doc.Without("gaps"), shownFigure(plots.SeedingCost(workflow.Seeding, workflow.Curves), hasAnswers(w) && !workflow.Seeding.Bought))
		seeding.Notes, seeding.Tucked = only(doc.Notes, w.Compare.Notes), true
		return []pagePart{seeding}
	})
}

// season is the season of the whole place.
func season(w report.Whole) []pagePart {
	doc := report.Season(report.SeasonAnswer{SeasonPlan: *w.Season})
	season := partOf(doc.Without("gaps"), shownFigure(plots.Season(*w.Season), hasAnswers(w)))
	season.Notes, season.Tucked = only(doc.Notes, w.Compare.Notes), true
	return []pagePart{season}
}

// days says which day takes how many hours: of a steady week where grows are sown
// regularly, and of one grow.
func days(w report.Whole) []pagePart {
	return eachWorkflow(w, func(workflow report.WorkflowAnswers) []pagePart {
		one := partOf(report.Calendar(workflow.Grow).Without("gaps"), shownFigure(plots.Days(workflow.Grow.Calendar, workflow.Grow.Start, huesOf(w)), hasAnswers(w)))
		if workflow.Steady == nil {
			return []pagePart{one}
		}
		doc := report.Calendar(*workflow.Steady).Without("gaps")
		steady := partOf(doc, shownFigure(plots.Days(workflow.Steady.Calendar, workflow.Steady.Start, huesOf(w)), hasAnswers(w)))
		steady.Tables = people(doc.Only("week").Tables())
		one.Tables = append(one.Tables, people(doc.Only("days").Tables())...)
		one.Tucked = true
		return []pagePart{steady, {Fold: "Day by day, from the first sowing of " + words.Quoted(workflow.Workflow), Parts: []pagePart{one}}}
	})
}

// next says what to time next, and how many readings would do.
func next(w report.Whole) []pagePart {
	parts := eachWorkflow(w, func(workflow report.WorkflowAnswers) []pagePart {
		in := workflow.Improve
		if len(in.Advice) == 0 {
			return nil
		}
		return []pagePart{{Title: words.Show(workflow.Workflow), Answer: report.Improve(in).Section("time next").Answer}}
	})
	if t := readingsTable(w); len(t.Rows) > 0 {
		parts = append(parts, pagePart{Fold: "How many readings would do", Parts: []pagePart{{
			Answer: []string{"Readings in all that would hold the mean time of a step, at its mean count, to a tenth either way."},
			Tables: []report.Table{t},
		}}})
	}
	return parts
}

func readingsTable(w report.Whole) report.Table {
	t := report.Table{Title: "Readings of each step", Columns: []report.Column{
		{Head: "step"}, {Head: "taken", Right: true}, {Head: "enough for ± 10 %", Right: true}, {Head: "still to take", Right: true},
	}}
	for _, s := range w.Fit.Steps {
		enough, more := "?", ""
		if s.ReadingsFor10 != nil {
			enough, more = fmt.Sprint(*s.ReadingsFor10), "-"
			if left := *s.ReadingsFor10 - s.Readings; left > 0 {
				more = fmt.Sprint(left)
			}
		}
		t.Rows = append(t.Rows, []report.Cell{
			{Text: words.Show(s.Step)}, {Text: fmt.Sprint(s.Readings)}, {Text: enough}, {Text: more},
		})
	}
	return t
}
