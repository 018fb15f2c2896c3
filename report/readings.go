package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// Readings lays out which further readings would settle an answer: which of two ways is
// quicker, before what one takes.
func Readings(p answer.Plans) Doc {
	doc := readings(p.Plan)
	if p.Pair == nil {
		return doc
	}
	first := readings(*p.Pair)
	for i := range doc.Sections {
		s := &doc.Sections[i]
		s.ID += "-total"
		if s.Table != nil {
			s.Table.Title = words.Show(p.Plan.Workflow) + " alone. " + s.Table.Title
		}
	}
	first.say("and", doc.Title+".")
	first.Sections = append(first.Sections, doc.Sections...)
	first.Notes = union(first.Notes, doc.Notes)
	return first
}

func readings(p answer.Plan) Doc {
	doc := Doc{
		Title: fmt.Sprintf("%s: readings that would settle the time of %s", words.Show(p.Workflow), words.Many(p.Heads, "head")),
		Notes: slices.Clone(p.Notes),
	}
	if p.Other != nil {
		doc.Title = fmt.Sprintf("%s and %s: readings to tell them apart, %s", words.Show(p.Workflow), words.Show(*p.Other), words.Many(p.Heads, "head"))
		if p.Goal == answer.GoalWithin {
			doc.Title = fmt.Sprintf("%s and %s: readings that would settle their difference for %s", words.Show(p.Workflow), words.Show(*p.Other), words.Many(p.Heads, "head"))
		}
	}
	if gaps := gapReadingsSentence(p); gaps != "" {
		doc.say("gaps", gaps)
	}
	doc.say("plan", planSentence(p))
	if worth := worthSentence(p); worth != "" && len(p.Readings) > 0 && !(p.Meets && p.FurtherGrows == 0 && p.Readings[len(p.Readings)-1].Gap) {
		doc.say("plan", worth)
	}
	if simpler := simplerSentence(p); simpler != "" {
		doc.say("plan", simpler)
	}
	if len(p.Readings) > 0 {
		doc.show("plan", plannedTable(p))
	}
	if len(p.Steps) > 0 {
		doc.show("steps", needsTable(p.Steps))
		doc.Notes = append(doc.Notes, whichToGoBy)
	}
	return doc
}

func gapReadingsSentence(p answer.Plan) string {
	var gaps []answer.PlannedReadings
	for _, r := range p.Readings {
		if r.Gap {
			gaps = append(gaps, r)
		}
	}
	if gaps == nil {
		return ""
	}
	what := words.Agree(len(gaps), "what it takes is", "what they take is")
	return fmt.Sprintf("First, once each: %s. Not timed, so %s not in what follows.", plannedList(gaps), what)
}

// planSentence says how many readings meet the goal, or that none do.
func planSentence(p answer.Plan) string {
	rows, n := furtherReadings(p)
	switch {
	case len(p.Steps) == 0 && len(p.Gaps) > 0:
		return "Nothing else that it needs was timed or judged yet."
	case len(p.Steps) == 0 && p.Other != nil:
		return fmt.Sprintf("%s and %s take the same for %s.", words.Quoted(p.Workflow), words.Quoted(*p.Other), words.Many(p.Heads, "head"))
	case len(p.Steps) == 0:
		return fmt.Sprintf("%s: there is nothing to do for it.", words.Many(p.Heads, "head"))
	case p.Goal == answer.GoalClear && len(p.Gaps) > 0:
		text := fmt.Sprintf("%s. Whether that is a clear difference cannot be told: %s.", answerNow(p), neverTimed(p.Gaps))
		if n > 0 {
			text += fmt.Sprintf(" %s would tell most of the rest: %s.", about(n), furtherList(p, rows))
		}
		return text
	case p.Meets && n == 0 && len(p.Gaps) > 0:
		return fmt.Sprintf("%s: what is known of it is %s already, and needs no further reading.", answerNow(p), goalReached(p))
	case p.Meets && n == 0:
		return fmt.Sprintf("%s: that is %s already, no further reading is needed.", answerNow(p), goalReached(p))
	case p.Meets:
		return fmt.Sprintf("%s. %s would make that %s: %s.", answerNow(p), about(n), goalReached(p), furtherList(p, rows))
	case n == 0:
		return fmt.Sprintf("%s. No further reading would narrow that.", answerNow(p))
	case n < answer.MaxPlanned:
		return fmt.Sprintf("%s. %s would make that %s, and further ones no better: %s.", answerNow(p), about(n), reachedWords(p), furtherList(p, rows))
	}
	return fmt.Sprintf("%s. Not within %d readings: they would make that %s, if they went where they tell most: %s.",
		answerNow(p), answer.MaxPlanned, reachedWords(p), furtherList(p, rows))
}

// furtherReadings are those of a plan beside the first of what was never timed, and how many they are.
func furtherReadings(p answer.Plan) (rows []answer.PlannedReadings, n int) {
	for _, r := range p.Readings {
		if !r.Gap {
			rows = append(rows, r)
			n += r.Readings
		}
	}
	return rows, n
}

// reachedWords say how sure an answer would be that does not reach its goal: by what the goal
// is held to, which allows for readings that vary more than is seen yet.
func reachedWords(p answer.Plan) string {
	u := words.UnitFor(p.Surely.Value)
	reached, aim := p.Surely.Value*u.PerHour, p.Aim.Value*u.PerHour
	d := words.Visible(words.PlainDecimals(reached), aim)
	for d < 4 && words.Fixed(reached, d) == words.Fixed(aim, d) {
		d++
	}
	return fmt.Sprintf("give or take %s or less, four times in five, where %s is asked for", u.Of(reached, d), words.Fixed(aim, d))
}

// simplerSentence says what a step that is always one a visit could spare, if anything.
func simplerSentence(p answer.Plan) string {
	s := p.Simpler
	if _, now := furtherReadings(p); s == nil || !s.Meets || p.Meets && s.Readings >= now {
		return ""
	}
	then := "no further reading is needed"
	if s.Readings > 0 {
		then = fmt.Sprintf("%s would do", strings.ToLower(about(s.Readings)))
	}
	return fmt.Sprintf(`But first: %s %s always one a visit. If one is all it can be, say form = "setup" of it in the study: then %s.`,
		words.Names(s.Steps), words.Agree(len(s.Steps), "is", "are"), then)
}

// about says how many readings a plan has, which is no more than a guess.
func about(n int) string { return "About " + words.Many(n, "more reading") }

// furtherList is the readings of a plan, and in how many further grows they are.
func furtherList(p answer.Plan, rows []answer.PlannedReadings) string {
	if p.FurtherGrows == 0 {
		return plannedList(rows)
	}
	return fmt.Sprintf("%s; of these, one of each step in %s", plannedList(rows), words.Many(p.FurtherGrows, "further grow"))
}

// worthSentence says whether a further grow is worth more than a further reading.
func worthSentence(p answer.Plan) string {
	switch p.WorthMore {
	case answer.WorthGrow:
		return "Timing another grow is worth more, reading by reading, than timing more in the grows there are: grows differ."
	case answer.WorthReading:
		return "Grows differ, but a reading of what is named here is worth more than one of each step in another grow."
	}
	return ""
}

// answerNow is the answer as it stands.
func answerNow(p answer.Plan) string {
	if p.Other == nil {
		text := fmt.Sprintf("%s takes %s%s", words.Quoted(p.Workflow), atLeastWords(p.Gaps), durationWithin(p.Hours, p.Low, p.High))
		if !p.Low.Known {
			text += "; how much that varies is not known yet"
		}
		return text
	}
	quicker, slower := words.Quoted(p.Workflow), words.Quoted(*p.Other)
	known, far := "", " as far as is known"
	if len(p.Gaps) > 0 {
		known, far = "In all that is known ", ""
	}
	less, low, high := p.Hours, p.Low, p.High
	if less < 0 {
		quicker, slower = slower, quicker
		less, low, high = -less, p.High.Times(-1), p.Low.Times(-1)
	}
	switch {
	case !low.Known:
		return fmt.Sprintf("%s%s takes %s less than %s; how much that varies is not known yet", known, quicker, words.Duration(less), slower)
	case low.Value > 0:
		return fmt.Sprintf("%s%s takes less than %s, by %s", known, quicker, slower, durationWithin(less, low, high))
	}
	upMore, upLess := words.Alike(-low.Value, high.Value)
	return fmt.Sprintf("%s%s takes %s less than %s%s, but it may be up to %s less or up to %s more",
		known, quicker, words.Duration(less), slower, far, upLess, upMore)
}

// goalReached is the goal, as what an answer is once it is met.
func goalReached(p answer.Plan) string {
	if p.Goal == answer.GoalClear {
		return "a clear difference"
	}
	return fmt.Sprintf("sure to within %s %%", words.Plain(100*p.Within.Value))
}

// plannedList is readings by step: "transplant 4 at 12 and 4 at 48; harvest 2 at 48".
func plannedList(rows []answer.PlannedReadings) string {
	var steps []string
	counts := map[string][]string{}
	for _, r := range rows {
		if counts[r.Step] == nil {
			steps = append(steps, r.Step)
		}
		text := fmt.Sprintf("%d at %s", r.Readings, words.Count(r.Count))
		switch {
		case r.Count == 0:
			text = fmt.Sprintf("%d of its setup alone", r.Readings)
		case r.Gap:
			text = "at " + words.Count(r.Count)
		}
		counts[r.Step] = append(counts[r.Step], text)
	}
	for i, step := range steps {
		steps[i] = words.Show(step) + " " + words.And(counts[step])
	}
	return strings.Join(steps, "; ")
}

func plannedTable(p answer.Plan) Table {
	t := Table{Title: "Readings to take, most useful first", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "count", Key: "count", Right: true},
		{Head: "setups", Key: "setups", Right: true},
		{Head: "readings", Key: "readings", Right: true},
	}}
	for _, r := range p.Readings {
		t.Rows = append(t.Rows, []Cell{
			{words.Show(r.Step), r.Step}, {words.Count(r.Count), r.Count}, {words.Count(r.Setups), r.Setups}, {fmt.Sprint(r.Readings), r.Readings},
		})
	}
	return t
}

const whichToGoBy = "needed is the one to go by: handbooks count as if it were known how much a step varies, which few readings do not tell"

// needsTable says what each step by itself would need, as handbooks ask it.
func needsTable(steps []answer.StepNeed) Table {
	within := words.Plain(100 * steps[0].Share)
	t := Table{Title: fmt.Sprintf("Each step by itself: readings in all for ± %s %%, and as handbooks count", within), Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "readings so far", Key: "readings", Right: true},
		{Head: "varies by", Key: "cv", Right: true},
		{Head: "needed", Key: "readings_by_t", Right: true},
		{Head: "by handbook", Key: "readings_by_handbook", Right: true},
		{Head: "assumed", Key: "assumed", Full: true},
		{Head: "within", Key: "within", Full: true},
	}}
	for _, s := range steps {
		byT := Cell{"?", ""}
		if s.ByT != nil {
			byT = Cell{fmt.Sprint(*s.ByT), *s.ByT}
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(s.Step), s.Step}, {fmt.Sprint(s.Readings), s.Readings}, {words.Share(s.CV), s.CV},
			byT, {fmt.Sprint(s.Handbook), s.Handbook}, {yes(s.Assumed), s.Assumed}, {within + " %", s.Share},
		})
	}
	return t
}
