package main

import (
	"io"
	"math"
	"strings"
	"time"

	"github.com/spf13/pflag"
	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/folder"
)

// decide are the flags of the commands that end in a decision.
type decide struct {
	changes                              []string
	assurance, hoursPerDay, hoursPerWeek float64
	headsPerYear                         float64
	every                                int
	start, daysOff, ics                  string
	measured, sensitivity                bool
	ofSeason                             bool // which has its first day in the study

	schedule answer.Schedule
}

func (d *decide) define(set *pflag.FlagSet) {
	set.StringArrayVar(&d.changes, "change", nil, "reckon with the what-if of this `NAME` (repeatable: taken together)")
	set.Float64Var(&d.headsPerYear, "heads-per-year", 0, "spread the outlay of changes over `N` heads")
	set.BoolVar(&d.sensitivity, "sensitivity", false, "what a fifth more or less of each input does")
	set.BoolVar(&d.measured, "measured", false, "set beside it what whole grows took")
	set.Float64Var(&d.assurance, "assurance", 0.95, "cells to sow for the heads with probability `P`")
	set.IntVar(&d.every, "every", 0, "a new grow every `N` days; 0: one grow")
	set.StringVar(&d.start, "start", "", "the `DATE` of the first sowing, YYYY-MM-DD")
	set.StringVar(&d.daysOff, "days-off", "", "weekdays without work, such as `sat,sun`")
	set.Float64Var(&d.hoursPerDay, "hours-per-day", 0, "people needed if each works `H` hours a day")
	set.Float64Var(&d.hoursPerWeek, "hours-per-week", 0, "the most heads that `H` hours a week bear")
	set.StringVar(&d.ics, "ics", "", "also write the days to `FILE` as iCalendar")
}

// maxEvery is the most days between sowings that make a schedule.
const maxEvery = 3660

func (d *decide) check(set *pflag.FlagSet) error {
	above := func(name string, x float64) error {
		if set.Changed(name) && !(x > 0 && x < math.MaxInt32) {
			return outOfRange(name, x)
		}
		return nil
	}
	for _, err := range []error{
		above("heads-per-year", d.headsPerYear), above("hours-per-day", d.hoursPerDay), above("hours-per-week", d.hoursPerWeek),
	} {
		if err != nil {
			return err
		}
	}
	if !(d.assurance > 0 && d.assurance < 1) {
		return outOfRange("assurance", d.assurance)
	}
	if d.every < 0 || d.every > maxEvery {
		return outOfRange("every", d.every)
	}
	if set.Changed("every") {
		d.schedule.Every = &d.every
	}
	return d.rest()
}

// rest reads the first day and the days off.
func (d *decide) rest() (err error) {
	if d.schedule.Rest.Start, err = day("start", d.start); err != nil {
		return err
	}
	if d.start == "" && d.daysOff != "" {
		return usagef("--days-off needs --start DATE, the day of the first sowing")
	}
	if d.start == "" && d.ics != "" && !d.ofSeason {
		return usagef("--ics needs --start DATE, the day of the first sowing")
	}
	if d.daysOff == "" {
		return nil
	}
	off := map[time.Weekday]bool{}
	for _, name := range strings.Split(d.daysOff, ",") {
		weekday, ok := weekdayNamed(strings.TrimSpace(name))
		if !ok {
			return usagef("--days-off %q: weekdays are needed, such as sat,sun", name)
		}
		if !off[weekday] {
			off[weekday] = true
			d.schedule.Rest.Off = append(d.schedule.Rest.Off, weekday)
		}
	}
	if len(off) == 7 {
		return usagef("--days-off %s: one day must be left to work on", d.daysOff)
	}
	return nil
}

func weekdayNamed(name string) (time.Weekday, bool) {
	for w := time.Sunday; w <= time.Saturday; w++ {
		if full := strings.ToLower(w.String()); len(name) >= 3 && strings.HasPrefix(full, strings.ToLower(name)) {
			return w, true
		}
	}
	return 0, false
}

var improveCommand = command{
	name: "improve", does: "where the time goes, what a change would save, what to time next",
	flags: append([]string{"change", "plot"}, answerFlags...), run: runImprove,
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
	flags: append([]string{"assurance", "plot"}, answerFlags...), run: runSeeding,
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
	flags: append([]string{"every", "start", "days-off", "hours-per-day", "hours-per-week", "ics", "plot"}, answerFlags...), run: runCalendar,
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
