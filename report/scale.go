package report

import (
	"fmt"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// Scale lays out hours against heads.
func Scale(s answer.Scale) Doc {
	doc := Doc{Title: "Hours against heads, for one grow", Notes: slices.Clone(s.Notes)}
	t := Table{Title: "Hours, one grow of so many heads", Columns: []Column{
		{Head: "way", Key: "workflow"},
		{Head: "heads", Key: "heads", Right: true},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "min a head", Key: "minutes_per_head", Right: true},
		{Head: "", Key: "extrapolated"},
		{Head: "not timed", Key: "gaps", Full: true},
	}}
	for _, line := range s.Workflows {
		if len(line.Points) > 0 {
			doc.say("scale", scaleSentence(line))
		}
		for _, p := range line.Points {
			beyond := ""
			if p.Extrapolated {
				beyond = "beyond"
			}
			known := p.Hours > 0 || len(line.Gaps) == 0
			t.Rows = append(t.Rows, []Cell{
				{words.Show(line.Workflow), line.Workflow},
				{fmt.Sprint(p.Heads), p.Heads},
				Cell{atLeast(line.Gaps, words.Fixed(p.Hours, hourDecimals(p.Hours))), p.Hours}.where(known),
				maybe(p.Low, hourDecimals(p.Hours)).where(known), maybe(p.High, hourDecimals(p.Hours)).where(known),
				Cell{atLeast(line.Gaps, words.Fixed(p.MinutesPerHead, 2)), p.MinutesPerHead}.where(known),
				{beyond, p.Extrapolated},
				{words.Names(line.Gaps), line.Gaps},
			})
		}
	}
	doc.show("scale", t)
	for _, row := range t.Rows {
		if row[6].Text != "" {
			doc.Notes = append(doc.Notes, "beyond: more than a quarter outside the counts that were timed, so a projection rather than a measurement")
			break
		}
	}
	return doc
}

// hourDecimals is how many decimals hours get in a table.
func hourDecimals(hours float64) int {
	if hours < 9.995 {
		return 2
	}
	return 1
}

// scaleSentence says what the smallest and the largest number of heads take.
func scaleSentence(line answer.ScaleLine) string {
	say := func(p answer.ScalePoint) string {
		return fmt.Sprintf("%s %s %s", words.Many(p.Heads, "head"), words.Agree(p.Heads, "takes", "take"), durationWithin(p.Hours, p.Low, p.High))
	}
	first, last := line.Points[0], line.Points[len(line.Points)-1]
	switch {
	case last.Hours == 0 && len(line.Gaps) == 0:
		return fmt.Sprintf("%s: there is nothing to do for it.", words.Quoted(line.Workflow))
	case last.Hours == 0:
		return fmt.Sprintf("%s: nothing that it needs was timed or judged yet.", words.Quoted(line.Workflow))
	}
	text := fmt.Sprintf("%s: %s", words.Quoted(line.Workflow), say(first))
	if first.Heads != last.Heads {
		text += "; " + say(last)
	}
	if len(line.Gaps) > 0 {
		text += fmt.Sprintf("; at least, since %s", neverTimed(line.Gaps))
	}
	return text + "."
}
