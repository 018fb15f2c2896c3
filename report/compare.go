package report

import (
	"fmt"
	"math"

	"headhours/timing"
)

// Compare lays out workflows side by side.
func Compare(c timing.Comparison) Doc {
	doc := Doc{
		Title: fmt.Sprintf("%d heads, seed to harvest", c.Heads),
		Notes: c.Notes,
	}
	for _, h := range c.Workflows {
		doc.Answer = append(doc.Answer, hoursSentence(h, c.Heads))
	}
	for _, p := range c.Pairs {
		doc.Answer = append(doc.Answer, pairSentence(p, c.Heads)+" "+breakEvenSentence(p))
	}
	if len(c.Workflows) > 1 {
		doc.Tables = append(doc.Tables, waysTable(c))
	}
	doc.Tables = append(doc.Tables, stepsTable(c))
	if len(c.Pairs) > 0 {
		doc.Tables = append(doc.Tables, pairsTable(c))
	}
	doc.Notes = append(doc.Notes, basisNotes(c)...)
	return doc
}

// hoursSentence says what a grow takes, how sure that is, and why not surer.
func hoursSentence(h timing.Hours, n int) string {
	if len(h.Rests.Timed)+len(h.Rests.Judged) == 0 {
		return fmt.Sprintf("%s: nothing it needs was timed or judged yet.", quoted(h.Workflow))
	}
	takes := fmt.Sprintf("%d heads take %s", n, durationWithin(h.Hours, h.Low, h.High))
	if len(h.Gaps) > 0 {
		takes = fmt.Sprintf("%d heads take at least %s: %s %s never timed", n,
			durationWithin(h.Hours, h.Low, h.High), list(h.Gaps), were(h.Gaps))
	}
	text := fmt.Sprintf("%s: %s.", quoted(h.Workflow), takes)
	switch {
	case len(h.Rests.Timed) == 0:
		text += " That is from judged times alone: time a step, any step, to begin to know."
	case !h.Low.Known:
		text += " " + noSpreadSentence(h)
	}
	return text
}

// noSpreadSentence says why an answer stands without an interval.
func noSpreadSentence(h timing.Hours) string {
	why := "Each job was timed once"
	if len(h.Rests.NoSpread) < len(h.Rests.Timed)+len(h.Rests.Judged) {
		why = fmt.Sprintf("%s %s timed too seldom", list(h.Rests.NoSpread), were(h.Rests.NoSpread))
	}
	text := why + ", so how much this varies is not known yet."
	if len(h.TimeNext) > 0 {
		text += fmt.Sprintf(" Most useful next: time %s again.", quoted(h.TimeNext[0]))
	}
	if len(h.Gaps) > 0 {
		text = why + fmt.Sprintf(", so how much this varies is not known yet. Most useful next: time %s.", quoted(h.Gaps[0]))
	}
	return text
}

// pairSentence says which of two ways is quicker, or that it cannot be told.
func pairSentence(p timing.Pair, n int) string {
	quicker, slower := p.B, p.A
	if p.Difference > 0 {
		quicker, slower = p.A, p.B
	}
	less := duration(math.Abs(p.Difference))
	switch {
	case p.Difference == 0 && !p.Low.Known:
		return fmt.Sprintf("%s and %s take the same for %d heads, as far as is known.", quoted(p.A), quoted(p.B), n)
	case len(p.Gaps) > 0:
		return fmt.Sprintf("Which of %s and %s is quicker cannot be told: they differ in %s, never timed. In all that is known %s takes %s less.",
			quoted(p.A), quoted(p.B), list(p.Gaps), quoted(quicker), less)
	case !p.Low.Known:
		return fmt.Sprintf("%s takes %s less than %s for %d heads.%s", quoted(quicker), less, quoted(slower), n, tipsSentence(p))
	case p.Clear():
		low, high := math.Abs(p.Low.Value), math.Abs(p.High.Value)
		return fmt.Sprintf("%s is quicker than %s for %d heads, by %s (%s).", quoted(quicker), quoted(slower), n, less,
			between(min(low, high), max(low, high)))
	case p.Low.Value == p.High.Value:
		return fmt.Sprintf("%s and %s take the same for %d heads.", quoted(p.A), quoted(p.B), n)
	}
	return fmt.Sprintf("No clear difference seen between %s and %s for %d heads: the second may take up to %s less or up to %s more.",
		quoted(p.A), quoted(p.B), n, duration(-p.Low.Value), duration(p.High.Value))
}

func tipsSentence(p timing.Pair) string {
	switch {
	case !p.TipsAtCV.Known:
		return ""
	case p.TipsAtCV.Value == 0:
		return " Which is quicker hangs on what of a time is setup and what is per unit: it may be either."
	}
	return fmt.Sprintf(" If the same job done again varies by more than %s, that is no longer a clear difference.", share(p.TipsAtCV.Value))
}

// breakEvenSentence says from how many heads on which way is quicker.
func breakEvenSentence(p timing.Pair) string {
	e := p.BreakEven
	// the one that is quicker where heads are few, and where they are many
	few, many := quoted(p.B), quoted(p.B)
	if e.Fixed > 0 {
		few = quoted(p.A)
	}
	if e.PerHead > 0 {
		many = quoted(p.A)
	}
	switch e.Kind {
	case timing.Interval:
		if !e.Heads.Known {
			return fmt.Sprintf("From %s heads on %s is quicker; for fewer no clear difference is seen.", heads(e.High.Value), many)
		}
		if e.Low.Value == e.High.Value {
			return fmt.Sprintf("From %s heads on %s is quicker.", heads(e.Heads.Value), many)
		}
		return fmt.Sprintf("From about %s heads on %s is quicker (the turn is somewhere between %s and %s heads).",
			heads(e.Heads.Value), many, heads(e.Low.Value), heads(e.High.Value))
	case timing.Outside:
		if e.Low.Known {
			return fmt.Sprintf("A clear difference is seen only between %s and %s heads.", heads(e.Low.Value), heads(e.High.Value))
		}
		return fmt.Sprintf("For up to %s heads %s is quicker; for more no clear difference is seen.", heads(e.High.Value), few)
	case timing.Everywhere:
		return "No number of heads shows a clear difference."
	case timing.Never:
		if e.Fixed == 0 {
			few = many
		}
		return fmt.Sprintf("It is %s that is quicker at every number of heads.", few)
	}
	switch {
	case len(e.Bracketed) > 0:
		return fmt.Sprintf("No break-even can be given: %s %s timed at alike counts only. Time it at an unlike count, or its setup alone.",
			list(e.Bracketed), were(e.Bracketed))
	case e.Heads.Known:
		return fmt.Sprintf("As far as can be told, %s is quicker from about %s heads on.", many, heads(e.Heads.Value))
	}
	return "As far as can be told, that holds at every number of heads."
}

func waysTable(c timing.Comparison) Table {
	t := Table{Title: "Hours of one grow", Columns: []Column{
		{Head: "way of working", Key: "workflow"},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "next grow", Key: "next_low_h", Right: true},
		{Head: "", Key: "next_high_h"},
		{Head: "min a head", Key: "minutes_per_head", Right: true},
		{Head: "df", Key: "df", Right: true, Full: true},
		{Head: "beyond what was timed", Key: "extrapolated", Full: true},
		{Head: "never timed", Key: "gaps", Full: true},
	}}
	for _, h := range c.Workflows {
		t.Rows = append(t.Rows, []Cell{
			{show(h.Workflow), h.Workflow},
			{atLeast(h.Gaps, fixed(h.Hours, 2)), h.Hours},
			maybe(h.Low, 2), maybe(h.High, 2),
			maybe(h.NextLow, 2), {"to " + maybe(h.NextHigh, 2).Text, h.NextHigh},
			{atLeast(h.Gaps, fixed(h.MinutesPerHead, 2)), h.MinutesPerHead},
			maybe(h.DF, 1),
			{yes(h.Extrapolated), h.Extrapolated},
			{list(h.Gaps), h.Gaps},
		})
	}
	return t
}

func stepsTable(c timing.Comparison) Table {
	t := Table{Title: "Where the time goes", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "way of working", Key: "workflow"},
		{Head: "visits", Key: "visits", Right: true},
		{Head: "setups", Key: "setups", Right: true},
		{Head: "count", Key: "count", Right: true},
		{Head: "minutes", Key: "hours_h", Right: true},
		{Head: "share", Key: "share", Right: true},
	}}
	if len(c.Workflows) == 1 {
		t.Columns[1].Full = true
	}
	for _, h := range c.Workflows {
		for _, s := range h.Steps {
			minutes, part := Cell{"not timed", s.Hours}, Cell{"", s.Share}
			if s.Hours.Known {
				minutes.Text = fixed(s.Hours.Value*60, 1)
			}
			if s.Share.Known {
				part.Text = share(s.Share.Value)
			}
			t.Rows = append(t.Rows, []Cell{
				{show(s.Step), s.Step},
				{show(h.Workflow), h.Workflow},
				{fmt.Sprint(s.Visits), s.Visits},
				{count(s.Setups), s.Setups},
				{count(s.Count), s.Count},
				minutes, part,
			})
		}
	}
	return t
}

func pairsTable(c timing.Comparison) Table {
	t := Table{Title: "Differences, second less first", Columns: []Column{
		{Head: "first", Key: "a"},
		{Head: "second", Key: "b"},
		{Head: "minutes", Key: "difference_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "p", Key: "p", Right: true, Full: true},
		{Head: "df", Key: "df", Right: true, Full: true},
		{Head: "bears variation of", Key: "tips_at_cv", Right: true, Full: true},
		{Head: "break-even", Key: "break_even_heads", Right: true},
		{Head: "kind", Key: "break_even_kind", Full: true},
		{Head: "from", Key: "break_even_low", Right: true, Full: true},
		{Head: "to", Key: "break_even_high", Right: true, Full: true},
		{Head: "never timed", Key: "gaps", Full: true},
	}}
	for _, p := range c.Pairs {
		minutes := func(m timing.Maybe) Cell { return Cell{maybe(m.Times(60), 1).Text, m} }
		t.Rows = append(t.Rows, []Cell{
			{show(p.A), p.A}, {show(p.B), p.B},
			minutes(timing.Known(p.Difference)), minutes(p.Low), minutes(p.High),
			maybe(p.P, 4), maybe(p.DF, 1), maybe(p.TipsAtCV, 3),
			maybe(p.BreakEven.Heads, 0), {string(p.BreakEven.Kind), string(p.BreakEven.Kind)},
			maybe(p.BreakEven.Low, 0), maybe(p.BreakEven.High, 0),
			{list(p.Gaps), p.Gaps},
		})
	}
	return t
}

// basisNotes say what the answers rest on that is not plainly timed.
func basisNotes(c timing.Comparison) []string {
	var notes []string
	said := map[string]bool{}
	add := func(format string, args ...any) {
		if note := fmt.Sprintf(format, args...); !said[note] {
			said[note] = true
			notes = append(notes, note)
		}
	}
	for _, h := range c.Workflows {
		if len(h.Rests.Timed) > 0 && len(h.Rests.Judged) > 0 {
			add("judged, not timed: %s", list(h.Rests.Judged))
		}
		if len(h.Rests.Bracketed) > 0 {
			add("timed at alike counts only, so the range reaches from all setup time to all unit time: %s", list(h.Rests.Bracketed))
		}
		if len(h.Rests.Beyond) > 0 {
			add("%s: goes more than a quarter beyond the counts that were timed of %s", quoted(h.Workflow), list(h.Rests.Beyond))
		}
	}
	for _, p := range c.Pairs {
		for _, s := range p.AssumedSame {
			if unlike(s) {
				add("counted as the same work in both: %s", sameWork(s, p))
			}
		}
	}
	return notes
}

// unlikeRatio is how far apart the times of one step under two workflows are
// before it is remarked.
const unlikeRatio = 1.1

func unlike(s timing.SameWork) bool {
	a, b := s.AUnit, s.BUnit
	return a.Known && b.Known && max(a.Value, b.Value) > unlikeRatio*min(a.Value, b.Value)
}

func sameWork(s timing.SameWork, p timing.Pair) string {
	return fmt.Sprintf("%s (%s s in %s, %s s in %s; %d and %d readings). If it is not, name them apart",
		show(s.Step), fixed(s.AUnit.Value, plainDecimals(s.AUnit.Value)), quoted(p.A),
		fixed(s.BUnit.Value, plainDecimals(s.BUnit.Value)), quoted(p.B), s.AReadings, s.BReadings)
}

// maybe is a cell for a number that may not be known.
func maybe(m timing.Maybe, decimals int) Cell {
	if !m.Known {
		return Cell{"?", m}
	}
	return Cell{fixed(m.Value, decimals), m}
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// atLeast marks a figure that lacks a step.
func atLeast(gaps []string, text string) string {
	if len(gaps) > 0 {
		return "≥ " + text
	}
	return text
}
