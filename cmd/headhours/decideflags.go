package main

import (
	"math"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"headhours/timing/answer"
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
