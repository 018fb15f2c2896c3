package page

import (
	"fmt"

	"headhours/report"
	"headhours/report/plots"
)

// eachWay lays out what is worked out for one way of working at a time: the
// quickest first, the others folded away.
func eachWay(w report.Whole, lay func(report.Way) []part) []part {
	var parts []part
	for i, way := range w.QuickestFirst() {
		own := lay(way)
		switch {
		case len(own) == 0:
		case i == 0:
			parts = append(parts, own...)
		default:
			parts = append(parts, part{Fold: "The same for " + quoted(way.Workflow), Parts: own})
		}
	}
	return parts
}

// change says where the time goes, what changes would save and what moves the
// cost of a head.
func change(w report.Whole) []part {
	return eachWay(w, func(way report.Way) []part {
		in := way.Improve
		in.Advice = nil // it has a section of its own
		doc := report.Improve(in)
		shares := of(doc, drawn(plots.Shares(way.Improve), known(w)))
		shares.Notes = only(doc.Notes, in.Notes)
		parts := []part{shares}
		if way.Sensitivity != nil {
			parts = append(parts, of(report.Sensitivity(*way.Sensitivity), drawn(plots.Swing(*way.Sensitivity), len(way.Sensitivity.Inputs) > 0)))
		}
		return parts
	})
}

// sow says how many seeds a cell and how many cells.
func sow(w report.Whole) []part {
	return eachWay(w, func(way report.Way) []part {
		doc := report.Seeding(way.Seeding)
		seeding := of(doc, drawn(plots.SeedingCost(way.Seeding, way.Curves), known(w) && !way.Seeding.Bought))
		seeding.Notes = only(doc.Notes, w.Compare.Notes)
		return []part{seeding}
	})
}

// place is the season of the whole place.
func place(w report.Whole) []part {
	doc := report.Place(report.PlaceAnswer{SeasonPlan: *w.Season})
	season := of(doc, drawn(plots.Season(*w.Season), known(w)))
	season.Notes = only(doc.Notes, w.Compare.Notes)
	return []part{season}
}

// days says which day takes how many hours.
func days(w report.Whole) []part {
	return eachWay(w, func(way report.Way) []part {
		parts := []part{of(report.Calendar(way.Grow), drawn(plots.Days(way.Grow.Calendar, way.Grow.Start), known(w)))}
		if way.Steady != nil {
			doc := report.Calendar(*way.Steady)
			steady := of(doc, drawn(plots.Days(way.Steady.Calendar, way.Steady.Start), known(w)))
			// the steady week says more than its days
			steady.Tables = people(append(doc.Only("week").Tables(), doc.Without("week").Tables()...))
			parts = append(parts, steady)
		}
		return parts
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
		parts = append(parts, part{
			Title:  "How many readings would do",
			Answer: []string{"Readings in all that would hold the mean time of a step, at its mean count, to a tenth either way."},
			Tables: []report.Table{t},
		})
	}
	return parts
}

func readingsTable(w report.Whole) report.Table {
	t := report.Table{Title: "Readings so far, and enough for a tenth either way", Columns: []report.Column{
		{Head: "step"}, {Head: "readings", Right: true}, {Head: "enough", Right: true}, {Head: "more", Right: true},
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
