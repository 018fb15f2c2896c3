// Package page lays out the whole report of a study: one HTML file that asks
// nothing of any other, needs no script, reads in light and dark and on a phone,
// and prints on A4 and Letter; or the same as Markdown.
//
// It goes in the order in which a person asks: what a head takes and costs, what
// to change, how to sow, when the work falls, how sure this is, what to time
// next. Sentences and tables are those of package report, figures those of
// package plots. The same answers give the same bytes.
package page

import (
	"slices"

	"headhours/report"
)

// section is a part of the page that the contents name.
type section struct {
	ID, Title, Short string
	Parts            []pagePart
}

// sections are the page's, below its first screen.
func sections(w report.Whole) []section {
	all := []section{{"takes", "What a head takes and costs", "Takes and costs", takes(w)}}
	if w.Season != nil {
		all = append(all, section{"season", "The whole place", "Whole place", season(w)})
	}
	return append(all, []section{
		{"change", "What to change", "What to change", change(w)},
		{"sow", sowTitle(w), sowTitle(w), sow(w)},
		{"days", "When the work falls", "When it falls", days(w)},
		{"sure", "How sure this is", "How sure", sure(w)},
		{"next", "What to time next", "Time next", next(w)},
		{"care", "Take care", "Take care", care(w.Definition)},
		{"method", "How it was worked out", "Worked out", slices.Concat(method(w), glossary(), again(w))},
	}...)
}
