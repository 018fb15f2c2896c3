package report

import (
	"fmt"

	"headhours/timing"
)

// Check lays out what was read and what is to put right.
func Check(c timing.Check) Doc {
	doc := Doc{Title: "Check", Notes: c.Notes}
	total := 0
	files := Table{Title: "Files", Columns: []Column{
		{Head: "file", Key: "file"}, {Head: "readings", Key: "readings", Right: true},
	}}
	for _, f := range c.Files {
		total += f.Readings
		files.Rows = append(files.Rows, []Cell{{show(f.Name), f.Name}, {fmt.Sprint(f.Readings), f.Readings}})
	}
	switch n := len(c.Problems); {
	case n == 0:
		doc.Answer = []string{fmt.Sprintf("No problem: %s in %s.", many(total, "reading"), many(len(c.Files), "file"))}
	default:
		doc.Answer = []string{fmt.Sprintf("%s to put right; nothing is worked out before that.", many(n, "problem"))}
	}
	if n := len(c.Warnings); n > 0 {
		doc.Answer = append(doc.Answer, many(n, "thing")+" worth a look.")
	}
	if len(files.Rows) > 0 {
		doc.Tables = append(doc.Tables, files)
	}
	for _, list := range []struct {
		title string
		items timing.Problems
	}{{"Problems", c.Problems}, {"Worth a look", c.Warnings}} {
		if len(list.items) > 0 {
			doc.Tables = append(doc.Tables, problemTable(list.title, list.items))
		}
	}
	if len(c.Grows) > 0 {
		doc.Tables = append(doc.Tables, growTable(c.Grows))
	}
	return doc
}

func problemTable(title string, problems timing.Problems) Table {
	t := Table{Title: title, Columns: []Column{
		{Head: "what", Key: "text"},
		{Head: "where", Key: "place"},
	}}
	for _, p := range problems[:min(len(problems), timing.MostProblems)] {
		t.Rows = append(t.Rows, []Cell{{show(p.Text), p.Text}, {show(p.Place.String()), p.Place.String()}})
	}
	return t
}

func growTable(grows []timing.GrowCheck) Table {
	t := Table{Title: "Grows beside their way of working", Columns: []Column{
		{Head: "remark", Key: "remark"},
		{Head: "grow", Key: "grow"},
		{Head: "readings", Key: "readings", Right: true},
		{Head: "way of working", Key: "workflow", Full: true},
	}}
	for _, g := range grows {
		remarks := g.Remarks
		if len(remarks) == 0 {
			remarks = []string{"as the study says"}
		}
		for _, r := range remarks {
			t.Rows = append(t.Rows, []Cell{
				{show(r), r}, {show(g.Grow), g.Grow}, {fmt.Sprint(g.Readings), g.Readings}, {show(g.Workflow), g.Workflow},
			})
		}
	}
	return t
}

// many is a number of things: "1 reading", "12 readings".
func many(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
