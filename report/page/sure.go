package page

import (
	"fmt"
	"strings"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// sure says what the answers rest on: what is not known, what was assumed, which
// readings stand out or were voided, and the time of every step.
func sure(w report.Whole) []pagePart {
	parts := []pagePart{
		{Title: "What is not known", Answer: []string{strings.Join(unknown(w), "\n")}},
		{Fold: "What was assumed", Parts: []pagePart{{Answer: []string{strings.Join(w.Notes, "\n")}}}},
		standsOut(w),
		voided(w),
	}
	if len(w.Warnings) > 0 {
		parts = append(parts, pagePart{Title: "Worth a look", Answer: []string{warnings(w.Warnings)}})
	}
	parts = append(parts, pagePart{Fold: "Time of each step, with its readings", Parts: stepsPart(w)})
	if len(w.Factors) > 1 {
		parts = append(parts, pagePart{Fold: "How grows differ", Parts: []pagePart{{
			Answer: []string{"What each grow took beside what the steps' models expect of it. A grow whose dots all lie to one side was slow, or quick, in everything."},
			Figure: shownFigure(plots.GrowFactors(w.Factors), true),
			Tables: []report.Table{report.FactorsTable(w.Factors)},
		}}})
	}
	if len(w.Measured.Grows) > 0 {
		doc := report.MeasuredGrows(w.Measured)
		grows := partOf(doc, nil)
		grows.Title = ""
		grows.Tables[0] = last(grows.Tables[0], "lacks")
		grows.Answer = append(grows.Answer, "What a grow's own readings add up to, beside what the steps' models say for as many heads; with steps left untimed it is at least so much.")
		parts = append(parts, pagePart{Fold: doc.Title, Parts: []pagePart{grows}})
	}
	return parts
}

// unknown says what no reading and no judgement tells.
func unknown(w report.Whole) []string {
	lines := []string{}
	var vary []string
	for _, s := range w.Fit.Steps {
		if s.Form != nil && !s.UnitLow.Known && !s.SetupLow.Known {
			vary = append(vary, words.Show(s.Step))
		}
	}
	if len(vary) > 0 {
		lines = append(lines, "How much these vary, timed too seldom with nothing to lend a spread: "+strings.Join(vary, ", ")+".")
	}
	for _, c := range w.Definition.Chores {
		if w.Definition.SowEveryDays == 0 {
			lines = append(lines, fmt.Sprintf("A grow's share of %s, which is done for the whole place: the study does not say how often a grow is sown.", words.Show(c.Step)))
		}
	}
	lines = append(lines,
		"Work that is no step of the study: it is in no total here.",
		"How the times differ with season, worker or variety, where the readings are all of one.")
	return lines
}

func standsOut(w report.Whole) pagePart {
	p := pagePart{Title: "Readings that stand out"}
	p.Answer = report.Fit(w.Fit).Section("stands out").Answer
	if len(p.Answer) == 0 {
		p.Answer = []string{fmt.Sprintf("None of the %s that count stands out from its step's others.", words.Many(w.Readings, "reading"))}
		if w.Readings == 0 {
			p.Answer = []string{"There are no readings yet."}
		}
	}
	return p
}

func voided(w report.Whole) pagePart {
	if len(w.Voided) == 0 {
		return pagePart{Title: "Voided readings", Answer: []string{"No reading was voided."}}
	}
	return pagePart{
		Title:  "Voided readings",
		Answer: []string{fmt.Sprintf("%s %s kept and not counted, for the reason that was given.", words.Many(len(w.Voided), "reading"), words.Agree(len(w.Voided), "was", "were"))},
		Tables: []report.Table{report.VoidedTable(w.Voided)}, Tucked: true,
	}
}

// last is a table with a column moved to its end.
func last(t report.Table, key string) report.Table {
	moved := without(t, key)
	for j, c := range t.Columns {
		if c.Key == key {
			moved.Columns = append(moved.Columns, c)
			for i, row := range t.Rows {
				moved.Rows[i] = append(moved.Rows[i], row[j])
			}
		}
	}
	return moved
}

func warnings(problems study.Problems) string {
	var lines []string
	listed, more := problems.Listed()
	for _, p := range listed {
		lines = append(lines, p.Error())
	}
	if more > 0 {
		lines = append(lines, words.More(more))
	}
	return strings.Join(lines, "\n")
}

// perFigure is how many steps one figure holds, so that it stands on one page.
const perFigure = 6

// stepsPart are the time models, a figure for every few steps with their table
// beneath; those with nothing to see in a figure have the table alone.
func stepsPart(w report.Whole) []pagePart {
	var curves []answer.Curve
	var rest []answer.StepFit
	for _, c := range w.Curves {
		if len(c.Points) > 0 && !plots.Single(c) {
			curves = append(curves, c)
		} else {
			rest = append(rest, c.StepFit)
		}
	}
	var parts []pagePart
	add := func(fits []answer.StepFit, figure *plots.Figure) {
		p := pagePart{Figure: figure}
		if len(parts) == 0 {
			p.Title = "Time of each step"
			p.Answer = report.Fit(answer.Fits{}).Section("model").Answer
		}
		few := w.Fit
		few.Steps = fits
		if len(parts) > 0 {
			few.Earlier = nil // said with the first
		}
		doc := report.Fit(few)
		p.Tables, p.Notes = doc.Tables(), report.FitNotes(few)
		parts = append(parts, p)
	}
	for from := 0; from < len(curves); from += perFigure {
		few := curves[from:min(len(curves), from+perFigure)]
		fits := make([]answer.StepFit, len(few))
		for i, c := range few {
			fits[i] = c.StepFit
		}
		add(fits, shownFigure(plots.StepTimes(few, huesOf(w)), true))
	}
	if len(rest) > 0 {
		add(rest, nil)
	}
	return parts
}
