package report

import (
	"headhours/timing/answer"
	"headhours/timing/study"
)

// Gather asks models for every answer. The errors are those of Models.Compare.
func Gather(m *answer.Models, a WholeOptions) (Whole, error) {
	w := Whole{
		Study: m.Study.Name, Heads: a.Heads, Definition: m.Study, Grows: m.CheckGrows(),
		Workflows: []WorkflowAnswers{}, Notes: []string{}, Cautions: a.Cautions,
		Warnings: append(study.Problems{}, a.Warnings...),
		Files:    append([]SourceFile{}, a.Files...),
		Settings: append(settings(m, a), a.Settings...),
	}
	if err := w.gatherWays(m, a); err != nil {
		return Whole{}, err
	}
	w.LastDay = m.LastDay()
	if len(m.Study.Sowings) > 0 {
		season, err := answer.PlanSeason(m, study.Maybe{})
		if err != nil {
			return Whole{}, err
		}
		w.Season = &season
	}
	if err := w.gatherSteps(m, a); err != nil {
		return Whole{}, err
	}
	for _, h := range w.Compare.Workflows {
		workflow, err := gatherWorkflow(m, a, h.Workflow)
		if err != nil {
			return Whole{}, err
		}
		w.Workflows = append(w.Workflows, workflow)
	}
	w.Quickest = w.Compare.Quickest().Workflow
	w.Notes = w.assumptions()
	return w, nil
}

// gatherWays works out what speaks of all ways of working side by side.
func (w *Whole) gatherWays(m *answer.Models, a WholeOptions) (err error) {
	if w.Compare, err = m.Compare(a.Workflows, a.Heads); err != nil {
		return err
	}
	less, err := m.LessSure(a.Workflows, a.Heads)
	if err != nil {
		return err
	}
	w.Compare.Notes = append(w.Compare.Notes, less...)
	if w.Scale, err = m.Scale(a.Workflows, nil); err != nil {
		return err
	}
	heads, err := m.GrowthHeads(a.Workflows)
	if err != nil {
		return err
	}
	if w.Growth, err = m.Scale(a.Workflows, heads); err != nil {
		return err
	}
	if w.Cost, err = m.Cost(a.Workflows, a.Heads, answer.WhatIf{}); err != nil {
		return err
	}
	return nil
}

// gatherSteps works out what speaks of steps, grows and readings.
func (w *Whole) gatherSteps(m *answer.Models, a WholeOptions) (err error) {
	if w.Fit, err = m.Fits(nil); err != nil {
		return err
	}
	if w.Curves, err = m.Curves(nil); err != nil {
		return err
	}
	if w.ByDates, err = m.ByDates(); err != nil {
		return err
	}
	w.Measured, w.Factors = m.Measure(w.Compare), m.GrowFactors()
	for _, s := range m.Steps {
		w.Readings += s.Readings
	}
	if w.Voided, err = m.Voided(); err != nil {
		return err
	}
	w.Voided = append(w.Voided, a.Voided...)
	return nil
}

func gatherWorkflow(m *answer.Models, a WholeOptions, name string) (workflow WorkflowAnswers, err error) {
	workflow.Workflow = name
	if workflow.Improve, err = m.Improve(name, a.Heads, nil); err != nil {
		return workflow, err
	}
	if workflow.Seeding, err = m.Seeding(name, a.Heads, a.Assurance); err != nil {
		return workflow, err
	}
	if workflow.Curves, err = m.SeedingCurves(name, a.Heads); err != nil {
		return workflow, err
	}
	s, ok, err := m.Sensitivity(name, a.Heads)
	if err != nil {
		return workflow, err
	}
	if ok {
		workflow.Sensitivity = &s
	}
	once := 0
	plan := answer.Schedule{Workflow: name, Heads: a.Heads, Every: &once, Rest: a.Schedule.Rest}
	workflow.Grow.Start = plan.Rest.Start
	if workflow.Grow.Calendar, err = m.Calendar(plan); err != nil {
		return workflow, err
	}
	plan.Every = a.Schedule.Every
	steady, err := m.Calendar(plan)
	if steady.EveryDays != nil {
		workflow.Steady = &DatedCalendar{Calendar: steady, Start: plan.Rest.Start}
	}
	return workflow, err
}

// assumptions are what the answers rest on that was not timed: the notes of
// hours, costs and seeding, each once.
func (w Whole) assumptions() []string {
	notes := union(Compare(w.Compare).Notes, Cost(w.Cost).Notes)
	for _, workflow := range w.Workflows {
		notes = union(notes, Seeding(workflow.Seeding).Notes)
	}
	return union([]string{}, notes)
}
