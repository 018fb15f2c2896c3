package page

import (
	"headhours/report"
	"headhours/report/plots"
)

// pagePart is a heading with what belongs to it: sentences, a figure and the tables
// that say the same in numbers. One with a Fold is folded away behind it.
type pagePart struct {
	Title  string
	Answer []string // paragraphs, those of several lines are lists
	Figure *plots.Figure
	Tables []report.Table
	Tucked bool           // its tables are folded away however short they are
	More   []report.Table // further ones, always folded away
	Notes  []string
	Terms  []term

	Fold  string
	Parts []pagePart // of a folded one
}

// term is a word and what it means here.
type term struct{ Word, Meaning string }

// partOf is a Doc as a part, with its figure where there is one.
func partOf(doc report.Doc, figure *plots.Figure) pagePart {
	return pagePart{Title: doc.Title, Answer: doc.Words(), Tables: people(doc.Tables()), Figure: figure}
}

// people are the tables that are for people.
func people(tables []report.Table) []report.Table {
	var forPeople []report.Table
	for _, t := range tables {
		if t.For != report.Programs && len(t.Rows) > 0 {
			forPeople = append(forPeople, t)
		}
	}
	return forPeople
}

// shownFigure is a figure, or none where there is nothing in it to see.
func shownFigure(f plots.Figure, something bool) *plots.Figure {
	if !something {
		return nil
	}
	f = f.OnPage()
	return &f
}

// huesOf are the colours of the study's steps.
func huesOf(w report.Whole) plots.Hues { return plots.HuesOf(w.Definition) }

// hasAnswers says that a step of some way of working was timed or judged.
func hasAnswers(w report.Whole) bool {
	for _, h := range w.Compare.Workflows {
		if len(h.Rests.Timed)+len(h.Rests.Judged) > 0 {
			return true
		}
	}
	return false
}

// costly says that some way of working costs something that is known.
func costly(w report.Whole) bool {
	for _, c := range w.Cost.Workflows {
		if c.PerHead.Known || c.Supplies+c.Space > 0 {
			return true
		}
	}
	return false
}
