package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// madeSentence says what a change that was made has saved in each grow.
func madeSentence(c answer.Made, in answer.Improvement) string {
	name := words.Quoted(c.Name)
	switch {
	case !c.Before.Known:
		return fmt.Sprintf("%s, made on %s: %s was not timed or judged before it, so what it saves cannot be told.", name, c.Since, words.Show(c.Step))
	case c.Before.Value == 0:
		return fmt.Sprintf("%s, made on %s, is of %s, which has nothing to do here.", name, c.Since, words.Show(c.Step))
	case c.Drop:
		return fmt.Sprintf("%s: without %s, since %s, a grow takes %s.%s%s", name, words.Show(c.Step), c.Since, durationWithin(c.Saved.Value, c.Low, c.High, "less"), madePayback(c, in), madeDoubts(c))
	case !c.Saved.Known:
		return fmt.Sprintf("%s, from %s %s: %s was not timed %s%s.%s", name, c.Since, upTo(c), words.Show(c.Step), tense(c, "since", "then"), hopedClause(c), showsIt(c))
	case !c.Clear():
		return fmt.Sprintf("%s: no clear change yet; %s (%s%s).%s%s", name, beforeAfter(c), roughly(c), againstHoped(c), showsIt(c), madeDoubts(c))
	case c.Saved.Value < 0:
		return fmt.Sprintf("%s %s %s: %s.%s%s", name, tense(c, "takes", "took"), durationWithin(-c.Saved.Value, c.High.Times(-1), c.Low.Times(-1), "more a grow"), beforeAfter(c), againstSentence(c), madeDoubts(c))
	}
	return fmt.Sprintf("%s %s %s: %s.%s%s%s", name, tense(c, "saves", "saved"), durationWithin(c.Saved.Value, c.Low, c.High, "a grow"), beforeAfter(c), againstSentence(c), madePayback(c, in), madeDoubts(c))
}

// beforeAfter is the times of a step before and after a change, and how often each was
// timed.
func beforeAfter(c answer.Made) string {
	before, after := words.Alike(c.Before.Value, c.After.Value)
	if u := words.UnitFor(max(c.Before.Value, c.After.Value)); c.Low.Known && c.High.Known {
		d := words.Decimals((c.High.Value - c.Low.Value) * u.PerHour / 2) // so that what is saved shows
		before, after = u.Of(c.Before.Value*u.PerHour, d), u.Of(c.After.Value*u.PerHour, d)
	}
	if c.Until != "" {
		after += " from " + c.Since + " " + upTo(c)
	} else {
		after += " since " + c.Since
	}
	return fmt.Sprintf("%s took %s before and %s %s, by %d and %s", words.Show(c.Step), before, tense(c, "takes", "took"), after, c.ReadingsBefore, words.Many(c.ReadingsAfter, "reading"))
}

// upTo is until when a change was the last of its step: "on" of one that still is.
func upTo(c answer.Made) string {
	if c.Until == "" {
		return "on"
	}
	return "until " + words.Show(c.Until)
}

// tense is what is said of a change that is the last of its step, or was.
func tense(c answer.Made, is, was string) string {
	if c.Until == "" {
		return is
	}
	return was
}

func roughly(c answer.Made) string {
	if !c.Low.Known {
		return "how sure that is cannot be told"
	}
	return fmt.Sprintf("between %s more and %s less a grow", words.Duration(max(-c.Low.Value, 0)), words.Duration(max(c.High.Value, 0)))
}

// showsIt says what would show a saving, where that is not clear.
func showsIt(c answer.Made) string {
	if c.Trial == nil || c.Until != "" { // what came next ended its readings
		return ""
	}
	return " " + trialSentence(*c.Trial)
}

func hopedClause(c answer.Made) string {
	if !c.Hoped.Known {
		return ""
	}
	return fmt.Sprintf(" (hoped for: %s less a grow)", words.Duration(c.Hoped.Value))
}

func againstHoped(c answer.Made) string {
	if !c.Hoped.Known {
		return ""
	}
	return "; hoped for: " + words.Duration(c.Hoped.Value) + " less"
}

func againstSentence(c answer.Made) string {
	if !c.Hoped.Known {
		return ""
	}
	return fmt.Sprintf(" Hoped for were %s.", words.Duration(c.Hoped.Value))
}

// madePayback says whether a change's outlay has come back, or when it will.
func madePayback(c answer.Made, in answer.Improvement) string {
	switch {
	case !c.Outlay.Known || c.Outlay.Value == 0 || !c.Saved.Known || c.Saved.Value <= 0:
		return ""
	case !in.PaidFor:
		return " When its outlay comes back cannot be told without a wage."
	case c.PaidBack:
		return " It has paid for itself."
	case !c.Payback.Known || c.Payback.Value > farPayback:
		return " Its outlay does not come back within 10,000 heads."
	case c.PaybackOn == nil:
		return fmt.Sprintf(" Its outlay comes back after about %s, where the minutes are paid for.", words.Heads(c.Payback.Value))
	case c.Low.Known && c.Low.Value > 0:
		return fmt.Sprintf(" Its outlay comes back about %s%s, where the minutes are paid for.", *c.PaybackOn, betweenDays(c))
	}
	return fmt.Sprintf(" Its outlay would come back about %s, if it saves as much.", *c.PaybackOn)
}

// betweenDays is the range of a payback's day, "" where it is not known.
func betweenDays(c answer.Made) string {
	switch {
	case c.PaybackFrom == nil || c.PaybackTo != nil && *c.PaybackFrom == *c.PaybackTo:
		return ""
	case c.PaybackTo == nil:
		return fmt.Sprintf(" (not before %s)", *c.PaybackFrom)
	}
	return fmt.Sprintf(" (somewhere between %s and %s)", *c.PaybackFrom, *c.PaybackTo)
}

// madeDoubts say why a saving may not be the change's.
func madeDoubts(c answer.Made) string {
	text := ""
	if c.Hygiene {
		text += " It is a hygiene step: see that it is done as well as before."
	}
	if c.Falling {
		text += " Times were falling before it already: practice may explain some of it."
	}
	if c.OneGrow {
		text += " One grow alone was timed on a side of it: the change and that grow cannot be told apart."
	}
	return text
}

// madeTable is the changes that were made.
func madeTable(in answer.Improvement) Table {
	t := Table{Title: "Changes made, for each grow", Columns: []Column{
		{Head: "change", Key: "name"},
		{Head: "since", Key: "since"},
		{Head: "minutes before", Key: "before_h", Right: true},
		{Head: "since then", Key: "after_h", Right: true},
		{Head: "saved", Key: "saved_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "hoped", Key: "hoped_h", Right: true, Full: true},
		{Head: "readings before", Key: "readings_before", Right: true, Full: true},
		{Head: "since", Key: "readings_after", Right: true, Full: true},
		{Head: "paid back", Key: "payback_on", Full: true},
	}}
	minutes := func(m study.Maybe) Cell { return Cell{maybe(m.Times(60), 1).Text, m} }
	for _, c := range in.Made {
		on := Cell{"-", study.Maybe{}}
		if c.PaybackOn != nil {
			on = Cell{*c.PaybackOn, *c.PaybackOn}
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(c.Name), c.Name}, {c.Since, c.Since}, minutes(c.Before), minutes(c.After), minutes(c.Saved), minutes(c.Low), minutes(c.High), minutes(c.Hoped),
			{fmt.Sprint(c.ReadingsBefore), c.ReadingsBefore}, {fmt.Sprint(c.ReadingsAfter), c.ReadingsAfter}, on,
		})
	}
	return t
}

// farPayback is a number of heads beyond which a payback is not worth naming.
const farPayback = 10000
