package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/words"
)

// studyOf is the study file that logs are the start of.
func studyOf(d folder.Draft, dir string, logs []string) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	var names []string
	for _, log := range logs {
		names = append(names, filepath.Base(log))
	}
	if abs, err := filepath.Abs(dir); err == nil {
		dir = abs
	}
	line("# Started from %s. headhours help study tells of every key;", strings.Join(plainNames(names), ", "))
	line("# headhours check lists every mistake in this file, with its line.")
	line("")
	line("[study]")
	line("name = %s", study.TOMLText(filepath.Base(dir)))
	line(`currency = "EUR"        # three letters: EUR, USD, GBP …`)
	line("# heads = 48            # how many heads does one grow give? Take the first # away and write it")
	line("allowance = 0.10        # rest and personal needs on top of the work. A guess: overwrite with your own")
	line("")
	draftLog(line, d)
	line("# Steps. What else a step may say:")
	line(`#   class = "operation"      # or transport, inspection, delay, storage`)
	line("#   rework = true            # it only undoes an earlier step, as thinning does")
	line(`#   hazards = ["lifting"]    # or fibre-dust, concentrates, blades, wet-electrics, repetition, hygiene`)
	line("#   setup_covers = 6         # one setup serves this many; then it has to be done again")
	for _, s := range d.Steps {
		line("")
		line("[[step]]")
		line("name = %s", study.TOMLText(s.Name))
		if s.Total {
			line("# is this a row of totals? Then take it out of the log, and these lines out of here")
		}
		if s.Heading != "" {
			line("per = %s         # told by the heading %s: is that what this step counts?", study.TOMLText(s.Per), study.TOMLText(s.Heading))
		} else {
			line(`# per = "plant"       # what does its count count: seed, cell, tray, plant, litre, visit …?`)
		}
	}
	line("")
	if len(d.Workers) > 0 {
		line("# Workers, as found: %s. To call them by codes, under [log.workers]: %s = \"w1\"", words.QuoteList(d.Workers, 8), study.TOMLText(d.Workers[0]))
		line("")
	}
	line("# [crop]")
	line("# germination = 0.85    # share of seeds that give a usable seedling")
	line("")
	line("# [labour]")
	line("# wage = 15.00          # what an hour of work costs, your own included; for headhours cost")
	line("")
	draftWorkflows(line, d)
	return b.String()
}

// draftLog writes what the logs show of themselves, and asks what they do not.
func draftLog(line func(string, ...any), d folder.Draft) {
	var unread []folder.UnreadHeading
	var none []string
	for _, u := range d.Unread {
		switch {
		case u.Column != "":
			unread = append(unread, u)
		case d.Undated: // any other may be the one in another language
			unread = append(unread, folder.UnreadHeading{Heading: u.Heading, Column: "date"})
		default:
			none = append(none, words.Quote(u.Heading))
		}
	}
	if d.Dates == "" && len(d.Cautions) == 0 && len(d.Unread) == 0 {
		return
	}
	line("# How your logs are written.")
	line("[log]")
	if d.Dates != "" {
		line("dates = %s   # as the dates in your log show", study.TOMLText(d.Dates))
	}
	for _, caution := range d.Cautions {
		line("# %s", caution)
		line(`# times = "minutes"     # are they minutes? Then take the first # away`)
	}
	if len(none) > 0 {
		line("# Not read: %s", strings.Join(none, ", "))
	}
	if len(unread) > 0 {
		line("# [log.columns]         # is one of these meant? Then take the # away from both lines")
	}
	for _, u := range unread {
		line("# %s = %s", u.Column, study.TOMLText(u.Heading))
	}
	line("")
}

// draftWorkflows writes ways of working, for the grower to complete.
func draftWorkflows(line func(string, ...any), d folder.Draft) {
	if d.Undated {
		line("# Ways, all on day 0, since no reading has a date. Complete one, its days too, and take")
		line("# the # away from its lines. count is one of")
	} else {
		line("# Ways, as the dates of your readings have them. Complete one and take")
		line("# the # away from its lines. day counts from the first that is dated; count is one of")
	}
	line("# seeds, cells, trays, filled, empty, surplus, plants, heads or once.")
	for _, workflow := range d.Workflows {
		name := workflow.Name
		if name == "" {
			name = "my way"
		}
		line("#")
		draftGrows(line, workflow)
		line("# [[workflow]]")
		line("# name = %s", study.TOMLText(name))
		line("# seeds_per_cell = 1")
		line("# cells_per_tray = 24")
		line("# tasks = [")
		for _, task := range workflow.Tasks {
			at := slices.IndexFunc(d.Steps, func(s folder.DraftStep) bool { return s.Name == task.Step })
			count := d.Steps[at].Count()
			ask := ""
			if count == "" {
				count, ask = "plants", "   # how many?"
			}
			if len(task.Days) > 1 && count != "once" {
				ask = "   # so many on each of these days? Else one day is enough"
			}
			line("#   { step = %s, %s, count = %q },%s", study.TOMLText(task.Step), daysOf(task), count, ask)
		}
		line("# ]")
	}
}

// draftGrows says for how many grows readings are taken that name none, where those are
// several.
func draftGrows(line func(string, ...any), w folder.DraftWorkflow) {
	if w.Grows < 2 {
		return
	}
	line("# These readings name no grow, and %s was done on %d days: they are taken for %d", study.TOMLText(w.Begins), w.Grows, w.Grows)
	line("# grows, and each task has the days that one grow would have of it. Put right what is")
	line("# otherwise. A column \"grow\" in the log would tell the grows apart.")
}

// daysOf is the key of a task's days.
func daysOf(task folder.DraftTask) string {
	switch len(task.Days) {
	case 0:
		return "day = 0"
	case 1:
		return fmt.Sprintf("day = %d", task.Days[0])
	}
	return "days = [" + strings.Trim(strings.ReplaceAll(fmt.Sprint(task.Days), " ", ", "), "[]") + "]"
}

// plainNames are names fit for a comment.
func plainNames(names []string) []string {
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = words.Show(name)
	}
	return quoted
}
