package page

import (
	"fmt"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
)

// eachWay lays out what is worked out for one way at a time: the quickest first, the
// others folded away, all of them together where they are several.
func eachWay(w report.Whole, lay func(report.Way) []part) []part {
	var parts, others []part
	for i, way := range w.QuickestFirst() {
		own := lay(way)
		switch {
		case len(own) == 0:
		case i == 0:
			parts = append(parts, own...)
		default:
			others = append(others, part{Fold: "The same for " + quoted(way.Workflow), Parts: own})
		}
	}
	if len(others) > 1 {
		return append(parts, part{Fold: fmt.Sprintf("The same for the %d other ways", len(others)), Parts: others})
	}
	return append(parts, others...)
}

// change says where the time goes, what changes would save and what moves the
// cost of a head.
func change(w report.Whole) []part {
	return eachWay(w, func(way report.Way) []part {
		in := way.Improve
		in.Advice = nil // it has a section of its own
		doc := report.Improve(in)
		shares := of(doc.Without(notOfShares(in)...), drawn(plots.Shares(way.Improve, hues(w)), known(w)))
		shares.Notes, shares.Tucked = only(doc.Notes, in.Notes), true
		parts := append([]part{shares}, made(w, way, doc)...)
		if way.Sensitivity != nil {
			parts = append(parts, part{Fold: "What moves the cost of a head", Parts: []part{of(report.Sensitivity(*way.Sensitivity).Without("gaps"), drawn(plots.Swing(*way.Sensitivity), len(way.Sensitivity.Inputs) > 0))}})
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

// made says what changes that were made have saved, with a figure of their steps by date
// at the way in front, then what others would.
func made(w report.Whole, way report.Way, doc report.Doc) []part {
	if len(way.Improve.Made) == 0 {
		return nil
	}
	changes := doc.Only("made")
	changes.Title = "Changes made"
	own := of(changes, drawn(plots.ByDate(w.ByDates), way.Workflow == w.Front() && len(w.ByDates) > 0))
	own.Tucked = true
	if len(way.Improve.Changes) == 0 {
		return []part{own}
	}
	others := doc.Only("changes")
	others.Title = "What-ifs"
	ifs := of(others, nil)
	ifs.Tucked = true
	return []part{own, ifs}
}

// sow says how many seeds a cell and how many cells.
func sow(w report.Whole) []part {
	return eachWay(w, func(way report.Way) []part {
		doc := report.Seeding(way.Seeding)
		seeding := of(doc.Without("gaps"), drawn(plots.SeedingCost(way.Seeding, way.Curves), known(w) && !way.Seeding.Bought))
		seeding.Notes, seeding.Tucked = only(doc.Notes, w.Compare.Notes), true
		return []part{seeding}
	})
}

// place is the season of the whole place.
func place(w report.Whole) []part {
	doc := report.Place(report.PlaceAnswer{SeasonPlan: *w.Season})
	season := of(doc.Without("gaps"), drawn(plots.Season(*w.Season), known(w)))
	season.Notes, season.Tucked = only(doc.Notes, w.Compare.Notes), true
	return []part{season}
}

// days says which day takes how many hours: of a steady week where grows are sown
// regularly, and of one grow.
func days(w report.Whole) []part {
	return eachWay(w, func(way report.Way) []part {
		one := of(report.Calendar(way.Grow).Without("gaps"), drawn(plots.Days(way.Grow.Calendar, way.Grow.Start, hues(w)), known(w)))
		if way.Steady == nil {
			return []part{one}
		}
		doc := report.Calendar(*way.Steady).Without("gaps")
		steady := of(doc, drawn(plots.Days(way.Steady.Calendar, way.Steady.Start, hues(w)), known(w)))
		steady.Tables = people(doc.Only("week").Tables())
		one.Tables = append(one.Tables, people(doc.Only("days").Tables())...)
		one.Tucked = true
		return []part{steady, {Fold: "Day by day, from the first sowing of " + quoted(way.Workflow), Parts: []part{one}}}
	})
}

// next says what to time next, and how many readings would do.
func next(w report.Whole) []part {
	parts := eachWay(w, func(way report.Way) []part {
		in := way.Improve
		if len(in.Advice) == 0 {
			return nil
		}
		return []part{{Title: report.Show(way.Workflow), Answer: report.Improve(in).Section("time next").Answer}}
	})
	if t := readingsTable(w); len(t.Rows) > 0 {
		parts = append(parts, part{Fold: "How many readings would do", Parts: []part{{
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
			{Text: report.Show(s.Step)}, {Text: fmt.Sprint(s.Readings)}, {Text: enough}, {Text: more},
		})
	}
	return t
}
