package folder

import (
	"fmt"
	"math"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

// lookAtHeld warns of logs whose rows hold readings of journals otherwise than the journals
// say them: what was put right in the one is not in the other, and the log's counts.
func (o *opener) lookAtHeld() {
	sessions, recorded := map[string]bool{}, map[string]tasklog.Figures{}
	for _, s := range o.opened.Journals {
		sessions[s.Session.Name] = true
		for _, r := range s.Complete() {
			recorded[r.Journal] = tasklog.FiguresOf(&r)
		}
	}
	for _, l := range o.opened.logs {
		var first study.Problem
		rows := 0
		for _, h := range l.held {
			session, _, _ := strings.Cut(h.Journal, stopwatch.Extension+":")
			now, ok := recorded[h.Journal]
			text := "the journal has no such reading now"
			if ok {
				text = unlike(h.Figures, now)
			}
			if !sessions[session] || text == "" {
				continue
			}
			if rows++; rows == 1 {
				first = study.Problem{Place: h.Place, Text: fmt.Sprintf("journal: %s was put right since in one of the two: %s", words.Quote(h.Journal), text)}
			}
		}
		if rows == 0 {
			continue
		}
		first.Text += ". The log's counts: put the row right, or take it out to have what the journal says"
		if rows > 1 {
			first.Text += fmt.Sprintf("; so with %s of this log", words.Many(rows-1, "more row"))
		}
		o.opened.Warnings = o.opened.Warnings.And(first)
	}
}

// rounded is how many seconds a time may differ by where a spreadsheet has rounded it.
const rounded = 1

// unlike says how the figures of a log's row differ from a journal's; "" where they do not.
func unlike(row, journal tasklog.Figures) string {
	var differ []string
	add := func(same bool, name, here, there string) {
		if !same {
			differ = append(differ, fmt.Sprintf("%s %s in the log, %s in the journal", name, here, there))
		}
	}
	add(row.Step == journal.Step, "step", words.Quote(row.Step), words.Quote(journal.Step))
	add(math.Abs(row.Seconds-journal.Seconds) < rounded, "time", words.UpTo(row.Seconds, 1)+" s", words.UpTo(journal.Seconds, 1)+" s")
	add(row.Count == journal.Count, "count", words.InFull(row.Count), words.InFull(journal.Count))
	add(row.Setups == journal.Setups, "setups", setupsIn(row), setupsIn(journal))
	add(row.People == journal.People, "people", words.InFull(row.People), words.InFull(journal.People))
	add(row.Rating == journal.Rating, "rating", words.InFull(row.Rating), words.InFull(journal.Rating))
	add(row.Voided == journal.Voided, "void", voidIn(row), voidIn(journal))
	return strings.Join(differ, "; ")
}

func setupsIn(f tasklog.Figures) string {
	if !f.Setups.Known {
		return "blank"
	}
	return words.InFull(f.Setups.Value)
}

func voidIn(f tasklog.Figures) string {
	if f.Voided {
		return "yes"
	}
	return "no"
}
