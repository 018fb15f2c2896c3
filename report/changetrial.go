package report

import (
	"fmt"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// ChangeTrial lays out how often to time a step for what a change saves to show.
func ChangeTrial(t answer.ChangeTrial) Doc {
	doc := Doc{
		Title: fmt.Sprintf("%s: readings that would show what it saves, %s of %s", words.Show(t.Change), words.Many(t.Heads, "head"), words.Quoted(t.Workflow)),
		Notes: t.Notes,
	}
	switch {
	case t.Until != "" && !(t.Grows.Known && t.After.Value+t.ToBefore.Value == 0):
		doc.say("plan", fmt.Sprintf("No more readings of it can be had: since %s another change of %s stands in its place.", words.Show(t.Until), words.Show(t.Step)))
	case t.Dropped && t.Grows.Known:
		doc.say("plan", fmt.Sprintf("No further reading is needed: that it saves %s a grow, all of the step's time, is clear already.", words.Duration(t.Saving.Value)))
	case t.Dropped:
		doc.say("plan", fmt.Sprintf("It saves all of the step's time, %s a grow as far as is known; the readings before it do not show clearly that this is more than nothing.", words.Duration(t.Saving.Value)))
	case t.Grows.Known:
		doc.say("plan", trialSentence(t))
	case t.Before.Known && t.Saving.Known && t.Saving.Value > 0 && t.Bracketed:
		doc.say("plan", fmt.Sprintf(`Even %d further grows would not show %s clearly: the readings before it were all at about one count, and do not tell setup from units. `+
			`Where its time is all setup, or all units, say so in the study: form = "setup" or form = "unit".`, answer.MaxTrialGrows, trialGoal(t)))
	case t.Before.Known && t.Saving.Known && t.Saving.Value > 0 && t.Made && t.Had == 0:
		doc.say("plan", fmt.Sprintf("What it saves cannot be shown: %s was not timed before the change, and what was judged of it is too wide to show %s. No reading before it can be had any more.",
			words.Show(t.Step), trialGoal(t)))
	case t.Before.Known && t.Saving.Known && t.Saving.Value > 0 && t.Made:
		doc.say("plan", fmt.Sprintf("Even %d further grows would not show %s clearly: that rests on %s before the change, and no more can be had. A larger saving may show all the same.",
			answer.MaxTrialGrows, trialGoal(t), words.Many(t.Had, "reading")))
	case t.Before.Known && t.Saving.Known && t.Saving.Value > 0:
		doc.say("plan", fmt.Sprintf("Even %d further grows would not show %s clearly: the step varies too much beside it.", answer.MaxTrialGrows, trialGoal(t)))
	default:
		doc.say("plan", "There is nothing to plan; the notes say why.")
	}
	doc.show("plan", trialTable(t))
	return doc
}

// trialGoal is what a trial is to show.
func trialGoal(t answer.ChangeTrial) string {
	if t.IsHoped {
		return fmt.Sprintf("the %s a grow that are hoped for", words.Duration(t.Saving.Value))
	}
	return fmt.Sprintf("a saving of a third (%s a grow)", words.Duration(t.Saving.Value))
}

// trialSentence says how many further readings would show a saving.
func trialSentence(t answer.ChangeTrial) string {
	after, before := int(t.After.Value), int(t.ToBefore.Value)
	if after+before == 0 {
		return fmt.Sprintf("Readings are enough to show, four times in five, %s.", trialGoal(t))
	}
	text := ""
	if before > 0 {
		text = fmt.Sprintf("%s in %s before the change is made", words.Many(before, "more reading"), words.Many(int(t.GrowsTo.Value), "grow"))
	}
	if after > 0 {
		if text != "" {
			text += ", and "
		}
		text += fmt.Sprintf("%s in %s after it", words.Many(after, "more reading"), words.Many(int(t.Grows.Value), "further grow"))
	}
	at := ""
	if len(t.Counts) > 0 {
		at = " (at " + eachCount(t.Counts) + ")"
	}
	return fmt.Sprintf("%s%s would, four times in five, show %s.", words.Capital(text), at, trialGoal(t))
}

// eachCount is the counts of a grow's readings, each once.
func eachCount(counts []float64) string {
	var each []string
	for _, c := range counts {
		if word := words.Count(c); !slices.Contains(each, word) {
			each = append(each, word)
		}
	}
	return words.And(each)
}

func trialTable(t answer.ChangeTrial) Table {
	whole := func(m study.Maybe) Cell { return Cell{maybe(m, 0).Text, m} }
	return Table{Title: "Plan", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "min before", Long: "minutes before", Key: "before_h", Right: true},
		{Head: "to show", Long: "to be shown", Key: "saving_h", Right: true},
		{Head: "had after", Long: "readings after", Key: "readings_after", Right: true},
		{Head: "more before", Key: "plan_before", Right: true},
		{Head: "more after", Key: "plan_after", Right: true},
		{Head: "in grows", Long: "grows after", Key: "grows_after", Right: true},
	}, Rows: [][]Cell{{
		{words.Show(t.Step), t.Step}, {maybe(t.Before.Times(60), 1).Text, t.Before}, {maybe(t.Saving.Times(60), 1).Text, t.Saving},
		{fmt.Sprint(t.Done), t.Done}, whole(t.ToBefore), whole(t.After), whole(t.Grows),
	}}}
}
