package report

import (
	"fmt"
	"path"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// The sections of what is wrong and what is worth a look.
const (
	ProblemsID = "problems"
	WarningsID = "warnings"
)

// Check lays out what was read and what is to put right.
func Check(c answer.Check) Doc {
	doc := Doc{Title: "Check", Notes: c.Notes}
	total, voided, logs := 0, 0, 0
	files := Table{Title: "Files", Columns: []Column{
		{Head: "file", Key: "file"}, {Head: "readings", Key: "readings", Right: true},
	}}
	for _, f := range c.Files {
		total, voided = total+f.Readings, voided+f.Voided
		if path.Base(f.Name) != "study.toml" {
			logs++
		}
		files.Rows = append(files.Rows, []Cell{{words.Show(f.Name), f.Name}, {fmt.Sprint(f.Readings), f.Readings}})
	}
	switch n := c.Problems.Count(); {
	case n == 0:
		beside := ""
		if logs < len(c.Files) {
			beside = " beside study.toml"
		}
		doc.say("found", fmt.Sprintf("No problem: %s in %s%s%s.", words.Many(total, "reading"), words.Many(logs, "file"), beside, voidWords(voided, total)))
	default:
		doc.say("found", fmt.Sprintf("%s to put right; nothing is worked out before that.", words.Many(n, "problem")))
	}
	if n := c.Warnings.Count(); n > 0 {
		doc.say("found", words.Many(n, "thing")+" worth a look.")
	}
	if len(files.Rows) > 0 {
		doc.show("files", files)
	}
	for _, list := range []struct {
		id, title string
		items     study.Problems
	}{{ProblemsID, "Problems", c.Problems}, {WarningsID, "Worth a look", c.Warnings}} {
		if len(list.items) > 0 {
			doc.show(list.id, problemTable(list.title, list.items))
		}
	}
	if len(c.Grows) > 0 {
		doc.show("grows", growTable(c.Grows))
	}
	if len(c.Clock) > 0 {
		doc.say("clock", clockSentence(c.Clock))
		doc.show("clock", clockTable(c.Clock))
	}
	return doc
}

// voidWords say how many of the readings that were read are void, "" where none is.
func voidWords(voided, total int) string {
	switch {
	case voided == 0:
		return ""
	case voided == total:
		return words.Agree(voided, "; it is void and does not count", "; all of them are void, and none counts")
	}
	return fmt.Sprintf("; %d of them %s void and %s not count", voided, words.Agree(voided, "is", "are"), words.Agree(voided, "does", "do"))
}

// clockSentence says how much of the wall clock has no name.
func clockSentence(clock []answer.Reconciliation) string {
	var nameless float64
	var short, overlaps int
	for _, r := range clock {
		if r.Unnamed() {
			short++
			nameless += r.Nameless
		}
		overlaps += len(r.Overlaps)
	}
	text := "The wall clock is accounted for, where starts and ends were noted."
	if short > 0 {
		text = fmt.Sprintf("%s of work that was clocked %s no name, in %s: more than 2 %% of the time between first start and last end.",
			words.Capital(words.Duration(nameless/60)), have(nameless), words.Many(short, "spell"))
	}
	if overlaps > 0 {
		text += fmt.Sprintf(" %s of one worker overlap.", words.Capital(pairs(overlaps)))
	}
	return text
}

func pairs(n int) string {
	return words.Agree(n, "two readings", words.Many(n, "pair")+" of readings")
}

func have(minutes float64) string {
	if strings.HasPrefix(words.Duration(minutes/60), "1 ") {
		return "has"
	}
	return "have"
}

func clockTable(clock []answer.Reconciliation) Table {
	t := Table{Title: "Wall clock, from first start to last end", Columns: []Column{
		{Head: "remark", Key: "remark"},
		{Head: "date", Key: "date"},
		{Head: "worker", Key: "worker"},
		{Head: "minutes", Key: "minutes", Right: true},
		{Head: "named", Key: "named_share", Right: true},
		{Head: "no name", Key: "nameless_minutes", Right: true},
		{Head: "session", Key: "session", Full: true},
	}}
	for _, r := range clock {
		remarks := r.Overlaps
		if len(remarks) == 0 {
			remarks = []string{"accounted for"}
			if r.Unnamed() {
				remarks = []string{fmt.Sprintf("%s minutes have no name", words.Plain(r.Nameless))}
			}
		}
		for _, remark := range remarks {
			t.Rows = append(t.Rows, []Cell{
				{words.Show(remark), remark}, {r.Date, r.Date}, {words.Show(r.Worker), r.Worker},
				{words.Fixed(r.Minutes, 1), r.Minutes}, {words.Share(r.Named), r.Named}, {words.Fixed(r.Nameless, 1), r.Nameless}, {words.Show(r.Session), r.Session},
			})
		}
	}
	return t
}

func problemTable(title string, problems study.Problems) Table {
	t := Table{Title: title, Columns: []Column{
		{Head: "what", Key: "text"},
		{Head: "where", Key: "place"},
	}}
	listed, more := problems.Listed()
	for _, p := range listed {
		t.Rows = append(t.Rows, []Cell{{words.Show(p.Text), p.Text}, {words.Show(p.Place.String()), p.Place.String()}})
	}
	if more > 0 {
		t.Rows = append(t.Rows, []Cell{{words.More(more), words.More(more)}, {}})
	}
	return t
}

func growTable(grows []answer.GrowCheck) Table {
	t := Table{Title: "Grows beside their way", Columns: []Column{
		{Head: "remark", Key: "remark"},
		{Head: "grow", Key: "grow"},
		{Head: "readings", Key: "readings", Right: true},
		{Head: "way", Key: "workflow", Full: true},
	}}
	for _, g := range grows {
		remarks := g.Remarks
		if len(remarks) == 0 {
			remarks = []string{"as the study says"}
		}
		for _, r := range remarks {
			t.Rows = append(t.Rows, []Cell{
				{words.Show(r), r}, {words.Show(g.Grow), g.Grow}, {fmt.Sprint(g.Readings), g.Readings}, {words.Show(g.Workflow), g.Workflow},
			})
		}
	}
	return t
}
