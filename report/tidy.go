package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/words"
)

// NamedTable is a table with the name of the file that it goes into, without an
// ending. A table without columns is of an answer that the study has no figures
// for.
type NamedTable struct {
	Name string
	Table
}

// Tables gives the whole report as tidy tables: a row a thing, a column a
// figure, the way of working in a column of its own. The names are always the
// same ones, in the same order.
func (w Whole) Tables() []NamedTable {
	return []NamedTable{
		{"compare", workflowsTable(w.Compare)},
		{"steps", stepsTable(w.Compare)},
		{"pairs", pairsTable(w.Compare)},
		{"scale", *Scale(w.Scale).Section("scale").Table},
		{"cost", costTable(w.Cost, "")},
		{"cost_lines", costLines(w.Cost, "")},
		{"improve", w.eachTable(func(o WorkflowAnswers) *Table { return tablePointer(sharesTable(o.Improve)) })},
		{"made", w.eachTable(func(o WorkflowAnswers) *Table { return madeIn(o.Improve) })},
		{"changes", w.eachTable(func(o WorkflowAnswers) *Table { return tablePointer(savingsTable(o.Improve)) })},
		{"sensitivity", w.eachTable(sensitivityOf)},
		{"seeding", w.eachTable(func(o WorkflowAnswers) *Table { return tablePointer(seedingTable(o.Seeding)) })},
		{"calendar", w.eachTable(func(o WorkflowAnswers) *Table { return tablePointer(jobsTable(o.Grow)) })},
		{"steady", w.eachTable(steadyOf)},
		{"fit", fitTable(w.Fit)},
		{"sold", w.soldTable()},
		{"season_sowings", w.ofSeason("sowings")},
		{"season_weeks", w.ofSeason("weeks")},
		{"season_steps", w.ofSeason("steps")},
		{"stands_out", standOuts(w.Fit.Steps)},
		{"voided", VoidedTable(w.Voided)},
		{"grows", measuredTable(w.Measured)},
		{"notes", notesTable(w.Notes)},
		{"settings", SettingsTable(w.Settings)},
		{"files", filesTable(w.Files)},
	}
}

// soldTable is what grows give that is sold, where that is more than heads.
func (w Whole) soldTable() Table {
	if !anyMore(w.Compare) {
		return Table{}
	}
	return soldTable(w.Compare)
}

// ofSeason is a table of the season, where there is one.
func (w Whole) ofSeason(id string) Table {
	if w.Season == nil {
		return Table{}
	}
	return *Season(SeasonAnswer{SeasonPlan: *w.Season}).Section(id).Table
}

// madeIn is what changes that were made have saved; nil where none was.
func madeIn(in answer.Improvement) *Table {
	if len(in.Made) == 0 {
		return nil
	}
	return tablePointer(madeTable(in))
}

func sensitivityOf(o WorkflowAnswers) *Table {
	if o.Sensitivity == nil {
		return nil
	}
	return Sensitivity(*o.Sensitivity).Section("inputs").Table
}

func steadyOf(o WorkflowAnswers) *Table {
	if o.Steady == nil {
		return nil
	}
	return tablePointer(jobsTable(*o.Steady))
}

// eachTable puts a table of every way of working below the other, the way in front.
func (w Whole) eachTable(of func(WorkflowAnswers) *Table) (all Table) {
	for _, workflow := range w.Workflows {
		t := of(workflow)
		if t == nil {
			continue
		}
		all.Columns = append([]Column{{Head: "way", Key: "workflow"}}, t.Columns...)
		for _, row := range t.Rows {
			all.Rows = append(all.Rows, append([]Cell{{words.Show(workflow.Workflow), workflow.Workflow}}, row...))
		}
	}
	return all
}

// measuredTable is the grows as they were timed; none has no columns.
func measuredTable(m answer.Measured) Table {
	if len(m.Grows) == 0 {
		return Table{}
	}
	return *MeasuredGrows(m).Section("measured").Table
}

// MeasuredGrows lays out what whole grows took, without the comparison that
// stands beside it; of pairs only those that can be told.
func MeasuredGrows(m answer.Measured) Doc {
	var pairs []answer.MeasuredPair
	for _, p := range m.Pairs {
		if p.Difference.Known {
			pairs = append(pairs, p)
		}
	}
	m.Pairs = pairs
	doc := Doc{Title: "Grows as they were timed"}
	doc.addMeasured(m)
	return doc
}

// standOuts are the readings that stand out from their step's others.
func standOuts(steps []answer.StepFit) Table {
	t := Table{Title: "Readings that stand out", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "seconds", Key: "time_s", Right: true},
		{Head: "count", Key: "count", Right: true},
		{Head: "file", Key: "file"},
		{Head: "line", Key: "line", Right: true},
		{Head: "p", Key: "p", Right: true},
		{Head: "setup without", Key: "setup_s", Right: true},
		{Head: "a unit without", Key: "unit_s", Right: true},
	}}
	for _, s := range steps {
		for _, out := range s.StandsOut {
			t.Rows = append(t.Rows, []Cell{
				{words.Show(s.Step), s.Step},
				{words.Plain(out.Seconds), out.Seconds}, {words.Count(out.Count), out.Count},
				{words.Show(out.File), out.File}, {fmt.Sprint(out.Line), out.Line},
				{words.Fixed(out.P, 4), out.P}, seconds(out.Setup), seconds(out.Unit),
			})
		}
	}
	return t
}

// VoidedTable is the readings that are not fitted, with their reasons.
func VoidedTable(voided []condense.VoidedReading) Table {
	t := Table{Title: "Voided readings", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "seconds", Key: "time_s", Right: true},
		{Head: "count", Key: "count", Right: true},
		{Head: "why", Key: "reason"},
		{Head: "file", Key: "file"},
		{Head: "line", Key: "line", Right: true},
	}}
	for _, v := range voided {
		t.Rows = append(t.Rows, []Cell{
			{words.Show(v.Step), v.Step}, {words.Plain(v.Seconds), v.Seconds}, voidedCount(v.Count),
			{words.Show(v.Reason), v.Reason}, {words.Show(v.File), v.File}, {fmt.Sprint(v.Line), v.Line},
		})
	}
	return t
}

// voidedCount is a count that may never have been given.
func voidedCount(c study.Maybe) Cell {
	if !c.Known {
		return Cell{"?", nil}
	}
	return Cell{words.Count(c.Value), c.Value}
}

func notesTable(notes []string) Table {
	t := Table{Title: "Notes", Columns: []Column{{Head: "note", Key: "note"}}}
	for _, note := range notes {
		t.Rows = append(t.Rows, []Cell{{words.Show(note), note}})
	}
	return t
}

// SettingsTable is the settings.
func SettingsTable(settings []Setting) Table {
	t := Table{Title: "Settings", Columns: []Column{{Head: "setting", Key: "name"}, {Head: "value", Key: "value"}}}
	for _, s := range settings {
		t.Rows = append(t.Rows, []Cell{{s.Name, s.Name}, {words.Show(s.Value), s.Value}})
	}
	return t
}

// filesTable is the files that were read, with their digests.
func filesTable(files []SourceFile) Table {
	t := Table{Title: "Files", Columns: []Column{
		{Head: "file", Key: "name"}, {Head: "readings", Key: "readings", Right: true}, {Head: "SHA-256", Key: "sha256"},
	}}
	for _, f := range files {
		t.Rows = append(t.Rows, []Cell{{words.Show(f.Name), f.Name}, {fmt.Sprint(f.Readings), f.Readings}, {f.SHA256, f.SHA256}})
	}
	return t
}
