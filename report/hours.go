package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// maxSpelledOut is how many ways of working have every pair put in words; of more,
// only the pairs with the quickest are.
const maxSpelledOut = 3

// hoursBlock says what a grow takes, a line a workflow, and how sure that is, and apart
// from that what holds for all of them.
func hoursBlock(c answer.Comparison) (lines []string, all string) {
	remarks := make([][]string, len(c.Workflows))
	for i, h := range c.Workflows {
		remarks[i] = hoursRemarks(h)
	}
	var shared []string
	for _, r := range remarks[0] {
		inAll := true
		for _, others := range remarks[1:] {
			inAll = inAll && slices.Contains(others, r)
		}
		if inAll {
			shared = append(shared, r)
		}
	}
	for i, h := range c.Workflows {
		line := hoursLine(h, c.Heads, len(c.Workflows) > 1)
		for _, r := range remarks[i] {
			if !slices.Contains(shared, r) {
				line += " " + r
			}
		}
		lines = append(lines, line)
	}
	return lines, strings.Join(shared, " ")
}

func hoursLine(h answer.Hours, n int, withName bool) string {
	who, verb := words.Many(n, "head"), "take"
	if withName {
		who = words.Quoted(h.Workflow)
	}
	if withName || n == 1 {
		verb = "takes"
	}
	if len(h.Gaps) > 0 {
		verb += " at least"
	}
	switch {
	case nothingKnown(h) && len(h.Gaps) == 0:
		return fmt.Sprintf("%s: there is nothing to do for it.", who)
	case nothingKnown(h):
		return fmt.Sprintf("%s: nothing that it needs was timed or judged yet.", who)
	}
	return fmt.Sprintf("%s %s %s.", who, verb, durationWithin(h.Hours, h.Low, h.High))
}

func nothingKnown(h answer.Hours) bool { return !h.Rests.Known() }

// wide is the width of an interval, as a share of the answer, from which on
// another reading is worth suggesting.
const wide = 0.5

// muchJudged is the share of judged hours from which on they are named at once.
const muchJudged = 0.25

func judgedHours(h answer.Hours) (hours float64) {
	for _, s := range h.Steps {
		if slices.Contains(h.Rests.Judged, s.Step) {
			hours += s.Hours.Value
		}
	}
	return hours
}

// hoursRemarks say what a workflow's hours lack, and why they are not surer.
func hoursRemarks(h answer.Hours) []string {
	if nothingKnown(h) {
		return nil
	}
	var remarks []string
	if len(h.Gaps) > 0 {
		remarks = append(remarks, fmt.Sprintf("At least: %s.", neverTimed(h.Gaps)))
	}
	switch {
	case len(h.Rests.Timed) == 0:
		remarks = append(remarks, "That is from judged times alone, guesses until a step is timed.")
	case !h.Low.Known && len(h.Rests.NoScatter) == len(h.Rests.Timed):
		remarks = append(remarks, "Each job was timed once, so how much this varies is not known yet.")
	case !h.Low.Known:
		remarks = append(remarks, fmt.Sprintf("%s %s timed too seldom, so how much this varies is not known yet.",
			words.Names(h.Rests.NoScatter), words.Agree(len(h.Rests.NoScatter), "was", "were")))
	}
	if judged := judgedHours(h); len(h.Rests.Timed) > 0 && judged > muchJudged*h.Hours {
		remarks = append(remarks, fmt.Sprintf("Of that %s are judged, not timed.", words.Duration(judged)))
	}
	if len(h.TimeNext) > 0 && (!h.Low.Known || len(h.Gaps) > 0 || h.High.Value-h.Low.Value > wide*h.Hours) {
		if h.MostlyGrows && len(h.Gaps) == 0 {
			return append(remarks, "Most useful next: time another grow, since how much grows differ is most of what is not known.")
		}
		if slices.Contains(h.Rests.OneEach, h.TimeNext[0]) {
			return append(remarks, fmt.Sprintf(`Most useful next: %s is always one a visit: if that is all it can be, say form = "setup" for it in the study.`, words.Quoted(h.TimeNext[0])))
		}
		again := " again"
		if len(h.Gaps) > 0 || slices.Contains(h.Rests.Judged, h.TimeNext[0]) {
			again = ""
		}
		remarks = append(remarks, fmt.Sprintf("Most useful next: time %s%s.", words.Quoted(h.TimeNext[0]), again))
	}
	return remarks
}
