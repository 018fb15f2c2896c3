package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// Lede is what a report says first: cautions, which way is quickest, or what the only one
// takes, and which is cheapest and by how much.
func (w Whole) Lede() []string {
	lines := slices.Clone(w.Cautions)
	if len(w.Compare.Workflows) == 1 {
		return append(lines, hoursLine(w.Compare.Workflows[0], w.Heads, false))
	}
	lines = append(lines, leadSentences(answer.ByCrop(w.Compare))...)
	money := "money"
	if w.Cost.Currency != nil {
		money = words.Show(*w.Cost.Currency)
	}
	for _, rank := range w.Cost.Ranks {
		lines = append(lines, cheapestSentence(rank, money, len(w.Cost.Ranks) > 1))
	}
	return lines
}

// Remarks are what holds for the hours of all ways, but for what was never timed.
func (w Whole) Remarks() []string {
	_, shared := hoursBlock(withoutGaps(w.Compare))
	if shared == "" {
		return nil
	}
	return []string{shared}
}

// withoutGaps is a comparison as if nothing lacked.
func withoutGaps(c answer.Comparison) answer.Comparison {
	c.Workflows = slices.Clone(c.Workflows)
	for i := range c.Workflows {
		c.Workflows[i].Gaps = nil
	}
	return c
}

// NeverTimed says what no total counts, once for a whole report; "" where nothing lacks.
func (w Whole) NeverTimed() string {
	gaps := []string{}
	for _, c := range w.Compare.Workflows {
		gaps = union(gaps, c.Gaps)
	}
	for _, c := range w.Cost.Workflows {
		gaps = union(gaps, c.Gaps)
	}
	untimed := slices.DeleteFunc(slices.Clone(gaps), func(step string) bool { return !w.gap(step) })
	shares := slices.DeleteFunc(slices.Clone(gaps), func(step string) bool { return w.gap(step) })
	var sentences []string
	if len(untimed) > 0 {
		sentences = append(sentences, fmt.Sprintf("Not timed: %s.", words.Names(untimed)))
	}
	if len(shares) > 0 {
		sentences = append(sentences, fmt.Sprintf("Not shared out, since the study does not say how often a grow is sown: %s.", words.Names(shares)))
	}
	if sentences == nil {
		return ""
	}
	return strings.Join(sentences, " ") + " What needs them is more than is said, marked ≥, and what is left less, marked ≤."
}

// gap says that a step was neither timed nor judged.
func (w Whole) gap(step string) bool {
	return slices.ContainsFunc(w.Fit.Steps, func(s answer.StepFit) bool { return s.Step == step && s.Form == nil })
}
