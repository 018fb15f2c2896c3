package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing"
)

// Compare lays out workflows side by side.
func Compare(c timing.Comparison) Doc {
	doc := Doc{
		Title:  fmt.Sprintf("%d heads, seed to harvest", c.Heads),
		Answer: []string{hoursBlock(c)},
		Notes:  append(slices.Clone(c.Notes), basisNotes(c)...),
	}
	if len(c.Workflows) > 1 {
		doc.Answer = append([]string{leadSentence(c)}, doc.Answer...)
		doc.Tables = append(doc.Tables, waysTable(c))
	}
	for _, p := range c.Pairs {
		doc.Answer = append(doc.Answer, pairSentence(p, c.Heads)+" "+breakEvenSentence(p))
	}
	doc.Tables = append(doc.Tables, minutesTable(c), stepsTable(c))
	if len(c.Pairs) > 0 {
		doc.Tables = append(doc.Tables, pairsTable(c))
	}
	return doc
}

// leadSentence names the quickest way, or those between which it cannot be told.
func leadSentence(c timing.Comparison) string {
	quickest := c.Workflows[0]
	for _, h := range c.Workflows {
		if h.Hours < quickest.Hours {
			quickest = h
		}
	}
	names, known := []string{quickest.Workflow}, true
	for _, p := range c.Pairs {
		other := p.A
		if p.A == quickest.Workflow {
			other = p.B
		} else if p.B != quickest.Workflow {
			continue
		}
		known = known && p.Low.Known && len(p.Gaps) == 0
		if !p.Clear() {
			names = append(names, other)
		}
	}
	switch {
	case !known:
		return fmt.Sprintf("Shortest for %d heads, as far as can be told: %s.", c.Heads, quoted(quickest.Workflow))
	case len(names) == 1:
		return fmt.Sprintf("Quickest for %d heads: %s.", c.Heads, quoted(quickest.Workflow))
	}
	for i := range names {
		names[i] = quoted(names[i])
	}
	return fmt.Sprintf("Quickest for %d heads: %s; no clear difference between them.", c.Heads, alternatives(names))
}

// hoursBlock says what a grow takes, a line a workflow, and how sure that is. What
// holds for all of them is said once, below.
func hoursBlock(c timing.Comparison) string {
	var lines []string
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
	if len(shared) > 0 {
		lines = append(lines, strings.Join(shared, " "))
	}
	return strings.Join(lines, "\n")
}

func hoursLine(h timing.Hours, n int, named bool) string {
	takes := "take"
	if len(h.Gaps) > 0 {
		takes = "take at least"
	}
	who := fmt.Sprintf("%d heads", n)
	if named {
		who = quoted(h.Workflow)
		takes = strings.Replace(takes, "take", "takes", 1)
	}
	if nothingKnown(h) {
		return fmt.Sprintf("%s: nothing that it needs was timed or judged yet.", who)
	}
	return fmt.Sprintf("%s %s %s.", who, takes, durationWithin(h.Hours, h.Low, h.High))
}

func nothingKnown(h timing.Hours) bool { return len(h.Rests.Timed)+len(h.Rests.Judged) == 0 }

// wide is the width of an interval, as a share of the answer, from which on
// another reading is worth suggesting.
const wide = 0.5

// hoursRemarks say what a workflow's hours lack, and why they are not surer.
func hoursRemarks(h timing.Hours) []string {
	if nothingKnown(h) {
		return nil
	}
	var remarks []string
	if len(h.Gaps) > 0 {
		remarks = append(remarks, fmt.Sprintf("At least: %s %s never timed.", list(h.Gaps), were(h.Gaps)))
	}
	switch {
	case len(h.Rests.Timed) == 0:
		remarks = append(remarks, "That is from judged times alone, guesses until a step is timed.")
	case !h.Low.Known && len(h.Rests.NoSpread) == len(h.Rests.Timed):
		remarks = append(remarks, "Each job was timed once, so how much this varies is not known yet.")
	case !h.Low.Known:
		remarks = append(remarks, fmt.Sprintf("%s %s timed too seldom, so how much this varies is not known yet.",
			list(h.Rests.NoSpread), were(h.Rests.NoSpread)))
	}
	if len(h.TimeNext) > 0 && (!h.Low.Known || len(h.Gaps) > 0 || h.High.Value-h.Low.Value > wide*h.Hours) {
		again := " again"
		if len(h.Gaps) > 0 {
			again = ""
		}
		remarks = append(remarks, fmt.Sprintf("Most useful next: time %s%s.", quoted(h.TimeNext[0]), again))
	}
	return remarks
}

// pairSentence says which of two ways is quicker, or that it cannot be told.
func pairSentence(p timing.Pair, n int) string {
	quicker, slower := p.B, p.A
	if p.Difference > 0 {
		quicker, slower = p.A, p.B
	}
	d, low, high := p.Difference, p.Low, p.High
	if d < 0 {
		d, low, high = -d, p.High.Times(-1), p.Low.Times(-1)
	}
	less := duration(d)
	switch {
	case p.Difference == 0 && !p.Low.Known:
		return fmt.Sprintf("%s and %s take the same for %d heads, as far as is known.", quoted(p.A), quoted(p.B), n)
	case len(p.Gaps) > 0:
		return fmt.Sprintf("Which of %s and %s is quicker cannot be told: they differ in %s, never timed. In all that is known %s takes %s less.",
			quoted(p.A), quoted(p.B), list(p.Gaps), quoted(quicker), less)
	case !p.Low.Known:
		return fmt.Sprintf("%s takes %s less than %s for %d heads.%s", quoted(quicker), less, quoted(slower), n, tipsSentence(p))
	case p.Clear():
		return fmt.Sprintf("%s is quicker than %s for %d heads, by %s.", quoted(quicker), quoted(slower), n, durationWithin(d, low, high))
	case p.Low.Value == p.High.Value:
		return fmt.Sprintf("%s and %s take the same for %d heads.", quoted(p.A), quoted(p.B), n)
	}
	less, more := alike(-p.Low.Value, p.High.Value)
	return fmt.Sprintf("No clear difference seen between %s and %s for %d heads: the second may take up to %s less or up to %s more.",
		quoted(p.A), quoted(p.B), n, less, more)
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
			return fmt.Sprintf("From %s on %s is quicker; for fewer no clear difference is seen.", heads(e.High.Value), many)
		}
		from := fmt.Sprintf("From about %s on %s is quicker", heads(e.Heads.Value), many)
		switch {
		case e.Low.Value == e.High.Value:
			return from + "."
		case e.Low.Value == 0:
			return fmt.Sprintf("%s (the turn is somewhere below %s).", from, heads(e.High.Value))
		}
		return fmt.Sprintf("%s (the turn is somewhere between %s and %s).", from, number(e.Low.Value), heads(e.High.Value))
	case timing.Outside:
		if e.Low.Known {
			return fmt.Sprintf("A clear difference is seen only between %s and %s.", number(e.Low.Value), heads(e.High.Value))
		}
		return fmt.Sprintf("For up to %s %s is quicker; for more no clear difference is seen.", heads(e.High.Value), few)
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
		return fmt.Sprintf("As far as can be told, %s is quicker from about %s on.", many, heads(e.Heads.Value))
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
	for i, h := range c.Workflows {
		t.Rows = append(t.Rows, []Cell{
			{wayLetter(i) + "  " + show(h.Workflow), h.Workflow},
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

// minutesTable puts the minutes of each step side by side, for reading.
func minutesTable(c timing.Comparison) Table {
	t := Table{Title: "Where the minutes go", For: People, Columns: []Column{{Head: "step"}}}
	rows := map[string][]Cell{}
	var order []string
	for i, h := range c.Workflows {
		t.Columns = append(t.Columns, Column{Head: wayLetter(i), Right: true})
		if len(c.Workflows) == 1 {
			t.Columns[1].Head = "minutes"
		}
		for _, s := range h.Steps {
			if rows[s.Step] == nil {
				order = append(order, s.Step)
				rows[s.Step] = append([]Cell{{Text: show(s.Step)}}, make([]Cell, len(c.Workflows))...)
			}
			rows[s.Step][i+1] = Cell{Text: "?"}
			if s.Hours.Known {
				rows[s.Step][i+1].Text = fixed(s.Hours.Value*60, 1)
			}
		}
	}
	for _, step := range order {
		t.Rows = append(t.Rows, rows[step])
	}
	if len(c.Workflows) == 1 {
		addShares(&t, c.Workflows[0])
	}
	return t
}

// addShares puts the share of each step beside its minutes, and a bar.
func addShares(t *Table, h timing.Hours) {
	t.Columns = append(t.Columns, Column{Head: "share", Right: true}, Column{})
	longest := 0.0
	for _, s := range h.Steps {
		longest = max(longest, s.Share.Value)
	}
	for i, s := range h.Steps {
		cell := Cell{}
		if s.Share.Known {
			cell.Text = share(s.Share.Value)
		}
		t.Rows[i] = append(t.Rows[i], cell, Cell{Text: bar(s.Share.Value, longest)})
	}
}

// wayLetter is the letter that stands for a way of working in narrow columns.
func wayLetter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return fmt.Sprintf("%c%d", 'A'+i%26, i/26)
}

func stepsTable(c timing.Comparison) Table {
	t := Table{Title: "Where the time goes", For: Programs, Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "way of working", Key: "workflow"},
		{Head: "visits", Key: "visits", Right: true},
		{Head: "setups", Key: "setups", Right: true},
		{Head: "count", Key: "count", Right: true},
		{Head: "minutes", Key: "hours_h", Right: true},
		{Head: "share", Key: "share", Right: true},
	}}
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
			breakEvenCell(p.BreakEven), {string(p.BreakEven.Kind), string(p.BreakEven.Kind)},
			maybe(p.BreakEven.Low, 0), maybe(p.BreakEven.High, 0),
			{list(p.Gaps), p.Gaps},
		})
	}
	return t
}

func breakEvenCell(e timing.BreakEven) Cell {
	switch {
	case e.Heads.Known:
		return Cell{number(e.Heads.Value), e.Heads}
	case e.Kind == timing.Never:
		return Cell{"none", e.Heads}
	case e.Kind == "":
		return Cell{"?", e.Heads}
	}
	return Cell{"-", e.Heads}
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
	var judged, bracketed []string
	timed := false
	for _, h := range c.Workflows {
		timed = timed || len(h.Rests.Timed) > 0
		judged, bracketed = union(judged, h.Rests.Judged), union(bracketed, h.Rests.Bracketed)
	}
	if timed && len(judged) > 0 {
		add("judged, not timed: %s", list(judged))
	}
	if len(bracketed) > 0 {
		add("timed at alike counts only, so setup and unit time cannot be told apart, and ranges reach from all of the one to all of the other: %s", list(bracketed))
	}
	for _, h := range c.Workflows {
		if len(h.Rests.Beyond) > 0 {
			add("%s: goes more than a quarter beyond the counts that were timed of %s", quoted(h.Workflow), list(h.Rests.Beyond))
		}
	}
	for _, p := range c.Pairs {
		for _, s := range p.AssumedSame {
			if s.Unlike {
				add("counted as the same work in both: %s", sameWork(s, p))
			}
		}
	}
	return notes
}

// union is the names of both lists, each once, in order of first mention.
func union(a, b []string) []string {
	for _, name := range b {
		if !slices.Contains(a, name) {
			a = append(a, name)
		}
	}
	return a
}

func sameWork(s timing.SameWork, p timing.Pair) string {
	readings := fmt.Sprintf("%d and %d readings", s.AReadings, s.BReadings)
	if s.AReadings == 1 && s.BReadings == 1 {
		readings = "one reading each"
	}
	return fmt.Sprintf("%s (%s s in %s, %s s in %s; %s); if it is not, name them apart",
		show(s.Step), fixed(s.AUnit.Value, plainDecimals(s.AUnit.Value)), quoted(p.A),
		fixed(s.BUnit.Value, plainDecimals(s.BUnit.Value)), quoted(p.B), readings)
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
