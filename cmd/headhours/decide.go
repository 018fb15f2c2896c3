package main

import (
	"io"
	"math"
	"time"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/folder"
)

var improveCommand = command{
	name: "improve", does: "where the time goes, what a change would save, what to time next",
	flags: append([]string{"change", "plot"}, answerFlags...), do: runImprove,
	examples: []string{
		"headhours improve # the study's first way",
		`headhours improve --workflow "tray, three seeds" --heads 200 # another, at another scale`,
	},
	next: "seeding says how many seeds and cells to sow",
}

func runImprove(c *call) error {
	models, heads, name, err := c.modelsForOne()
	if err != nil {
		return err
	}
	improvement, err := models.Improve(name, heads, c.changes)
	if err != nil {
		return err
	}
	doc := report.Improve(improvement)
	if name == "" {
		for _, other := range models.Study.Workflows[1:] {
			in, err := models.Improve(other.Name, heads, nil)
			if err != nil {
				return err
			}
			doc.AddWay(in)
		}
	}
	return c.writeAndDraw(doc, improvement, func() (plots.Figure, error) {
		steps, err := models.ByDates()
		return plots.Improved(improvement, steps, plots.HuesOf(models.Study)), err
	})
}

var seedingCommand = command{
	name: "seeding", does: "seeds per cell and cells to sow",
	flags: append([]string{"assurance", "plot"}, answerFlags...), do: runSeeding,
	examples: []string{
		"headhours seeding # one to six seeds a cell, and how many cells of each",
		"headhours seeding --heads 200 --assurance 0.99 # cells that give 200 heads 99 times in a hundred",
	},
	next: "calendar lays the hours out by day",
}

func runSeeding(c *call) error {
	models, heads, name, err := c.modelsForOne()
	if err != nil {
		return err
	}
	seeding, err := models.Seeding(name, heads, c.assurance)
	if err != nil {
		return err
	}
	return c.writeAndDraw(report.Seeding(seeding), seeding, func() (plots.Figure, error) {
		curves, err := models.SeedingCurves(name, heads)
		return plots.SeedingCost(seeding, curves), err
	})
}

var calendarCommand = command{
	name: "calendar", does: "which day takes how many hours, for one grow or one sown every few days",
	flags: append([]string{"every", "start", "days-off", "hours-per-day", "hours-per-week", "ics", "plot"}, answerFlags...), do: runCalendar,
	examples: []string{
		"headhours calendar --every 7 # what a week takes with a new grow every seven days",
		"headhours calendar --every 7 --start 2026-03-02 --days-off sat,sun --hours-per-day 6 # by date, with free days, and for how many people",
	},
	next: "cost says what a head costs",
}

func runCalendar(c *call) error {
	models, heads, name, err := c.modelsForOne()
	if err != nil {
		return err
	}
	s := c.schedule
	s.Heads, s.Workflow = heads, name
	calendar, err := models.Calendar(s)
	if err != nil {
		return err
	}
	season := report.DatedCalendar{Calendar: calendar, Start: s.Rest.Start, HoursPerDay: c.hoursPerDay, HoursWeek: c.hoursPerWeek}
	if c.hoursPerDay > 0 {
		crew := int(math.Ceil(calendar.PeakDay.Value / c.hoursPerDay * (1 - 1e-9)))
		season.Crew = &crew
	}
	if c.hoursPerWeek > 0 {
		if calendar.EveryDays == nil {
			return usagef("--hours-per-week needs a new grow every so many days: --every N")
		}
		maxHeads, perWeek, err := models.MaxHeads(s, c.hoursPerWeek)
		if err != nil {
			return err
		}
		season.MaxHeads, season.MaxPerWeek = &maxHeads, perWeek
	}
	if c.ics != "" {
		fill := func(w io.Writer) error { return report.ICal(w, season, models.Study.Name, time.Now()) }
		if err := folder.WriteFile(c.ics, fill); err != nil {
			return err
		}
	}
	return c.writeAndDraw(report.Calendar(season), season, func() (plots.Figure, error) {
		return plots.Days(calendar, s.Rest.Start, plots.HuesOf(models.Study)), nil
	})
}
