package answer

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// WithRemarks is the same models, with notes for every answer that is worked out from them.
func (m *Models) WithRemarks(notes ...string) *Models {
	other := *m
	other.remarks = slices.Concat(m.remarks, notes)
	return &other
}

// notes are what every answer in hours or money says of its basis. Of germination only
// where it matters to one of some workflows, or of all where none are named.
func (m *Models) notes(workflows ...study.Workflow) []string {
	if workflows == nil {
		workflows = m.Study.Workflows
	}
	notes := slices.Clone(m.remarks)
	if notes == nil {
		notes = []string{}
	}
	if a := m.Study.Allowance; a > 0 {
		notes = append(notes, fmt.Sprintf("hours are standard time: basic time and %s for rest and personal needs", words.Percent(a, 3)))
	}
	if m.Study.Germination.Share == 1 {
		notes = append(notes, allComeUp(workflows)...)
	}
	return slices.Concat(notes, m.madeNotes(), m.judgedNotes(workflows), m.commonNotes(workflows...))
}

// judgedNotes say which steps of some workflows and of chores were judged, not timed.
func (m *Models) judgedNotes(workflows []study.Workflow) []string {
	needed := map[string]bool{}
	for _, w := range workflows {
		for _, t := range w.Tasks {
			needed[t.Step] = true
		}
	}
	for _, c := range m.Study.Chores {
		needed[c.Step] = true
	}
	timed := false
	judged := m.stepsWhere(func(s StepModel) bool {
		timed = timed || needed[s.Step.Name] && !s.isJudged()
		return needed[s.Step.Name] && s.isJudged()
	})
	switch {
	case judged == "":
		return nil
	case !timed:
		return []string{"all times are judged: guesses, until a step is timed"}
	}
	return []string{"judged, not timed: " + judged}
}

// allComeUp says of which workflows each seed is counted, where the study's germination is 1.
func allComeUp(workflows []study.Workflow) []string {
	var leave, own []string
	for _, w := range workflows {
		switch {
		case w.LeavesGermination():
			leave = append(leave, words.Quote(w.Name))
		case !w.Bought:
			own = append(own, w.Name)
		}
	}
	switch {
	case leave == nil:
		return nil
	case own == nil:
		return []string{"every seed is counted as coming up: the study gives no germination below 1"}
	}
	return []string{fmt.Sprintf("every seed of %s is counted as coming up: neither [crop] nor the way gives a germination below 1", words.And(leave))}
}

// commonNotes say what the ranges of all answers rest on, of some workflows or, where none are named, of all.
func (m *Models) commonNotes(workflows ...study.Workflow) []string {
	notes := []string{}
	say := func(when bool, format string, args ...any) {
		if when {
			notes = append(notes, fmt.Sprintf(format, args...))
		}
	}
	others := m.onlyOfOthers(workflows)
	where := func(is func(doubtFit) bool) string {
		return m.stepsWhere(func(s StepModel) bool { return is(s.doubt) && !others[s.Step.Name] })
	}
	lent, guessed := where(func(d doubtFit) bool { return d.share > 0 }), where(func(d doubtFit) bool { return d.guess })
	whole, part := where(func(d doubtFit) bool { return d.share == 1 }), where(func(d doubtFit) bool { return d.share > 0 && d.share < 1 })
	l := m.lending
	own := m.options.Scatter == OwnScatter
	say(lent != "" && own, "timed too seldom to show how much they vary, so a spread of %s is borrowed from the other steps: %s", words.Percent(l.cv(), 3), lent)
	often := slices.ContainsFunc(m.Steps, func(s StepModel) bool { return s.Readings > 1 })
	say(lent != "" && !own && l.df == assumedDF && often, "no step was timed often enough to show how much it varies: each is taken to vary by about a fifth, as handwork does (an assumption), so ranges rest on that: %s", lent)
	every := "every step"
	if slices.ContainsFunc(m.Steps[:len(m.Study.Steps)], func(s StepModel) bool { return s.Readings == 0 }) {
		every = "every step that was timed"
	}
	say(lent != "" && !own && l.df == assumedDF && !often, every+" was timed once: each is taken to vary by about a fifth, as handwork does (an assumption), so ranges rest on that: %s", lent)
	if !own && l.df > assumedDF {
		const asOthers = "timed too seldom to show how much they vary, so they are %staken to vary as the other steps and handwork do, by %s (in part an assumption): %s"
		say(whole != "" && part == "", asOthers, "", about(l.cv()), whole)
		say(whole != "" && part != "", asOthers+"; in part so: %s", "", about(l.cv()), whole, part)
		say(whole == "" && part != "", asOthers, "in part ", about(l.cv()), part)
	}
	say(guessed != "", "the spread is the grower's own guess, from the estimate: %s", guessed)
	many := slices.ContainsFunc(m.Steps, func(s StepModel) bool { return s.Kinds.Joined })
	say(many && m.options.Grouping != NoGrouping, "too many grows and workers to tell them apart, so ranges leave out how much they differ; --since answers from the newer readings alone")
	return append(notes, m.effectNotes()...)
}

// onlyOfOthers are the steps that workflows have, but none of these, where some are named.
func (m *Models) onlyOfOthers(these []study.Workflow) map[string]bool {
	others := map[string]bool{}
	if len(these) == 0 {
		return others
	}
	for _, w := range m.Study.Workflows {
		for _, t := range w.Tasks {
			others[t.Step] = true
		}
	}
	for _, w := range these {
		for _, t := range w.Tasks {
			delete(others, t.Step)
		}
	}
	for _, c := range m.Study.Chores {
		delete(others, c.Step)
	}
	return others
}

// effectNotes say what is known of how much grows, or workers, differ.
func (m *Models) effectNotes() []string {
	e := m.effect
	switch grow, only, unnamed := m.oneGrow(); {
	case m.options.Grouping == NoGrouping:
	case !e.none() && e.groups == growsAlone && e.by == byGrow:
		return []string{fmt.Sprintf("two grows were timed, which say little of how much grows differ: they are taken to differ by %s (in part an assumption), and ranges allow for it", about(math.Sqrt(e.square)))}
	case !e.none() && e.square == 0:
		return []string{fmt.Sprintf("%s were timed; that %s differ in all their times together is not seen, and ranges allow for what so many may hide", words.Many(e.groups, string(e.by)), words.Plural(string(e.by)))}
	case !e.none():
		return []string{fmt.Sprintf("%s were timed; %s differ by %s in all their times together, and ranges allow for it", words.Many(e.groups, string(e.by)), words.Plural(string(e.by)), about(math.Sqrt(e.square)))}
	case !only:
	case grow == "" && unnamed:
		return []string{"no reading names its grow: how much grows differ is not known, and ranges leave it out; a column grow in the log would tell"}
	case grow != "" && unnamed:
		return []string{fmt.Sprintf("readings name one grow, %s, or none: how much grows differ is not known, and ranges leave it out", words.Quote(grow))}
	case grow != "":
		return []string{fmt.Sprintf("all readings are of one grow, %s: ranges are of that grow only, since how much grows differ is not known", words.Quote(grow))}
	}
	return nil
}

// oneGrow is the only grow that readings name that count, "" where they name none, and whether
// some name none; not only where they name more, or are too many to tell.
func (m *Models) oneGrow() (grow string, only, unnamed bool) {
	for _, s := range m.Steps {
		for k := range s.Kinds.All() {
			switch {
			case s.Kinds.Joined || grow != "" && k.Grow != "" && k.Grow != grow:
				return "", false, false
			case k.Grow == "":
				unnamed = true
			default:
				grow = k.Grow
			}
		}
	}
	return grow, true, unnamed
}

func (m *Models) stepsWhere(is func(StepModel) bool) string {
	var names []string
	for _, s := range m.Steps {
		if !s.isGap() && is(s) {
			names = append(names, s.Step.Name)
		}
	}
	return shortList(names)
}

// stepNotes say in words what a step's figures rest on.
func (m *Models) stepNotes(s StepModel) []string {
	switch {
	case s.isGap():
		return nil
	case s.isJudged():
		return []string{"judged, not timed"}
	}
	var notes []string
	say := func(when bool, format string, args ...any) {
		if when {
			notes = append(notes, fmt.Sprintf(format, args...))
		}
	}
	f := s.Model
	say(f.Refused != "", "these readings cannot tell form %q: the form is chosen from the readings instead", f.Refused)
	say(f.LeftSetup, "setup and unit time together gave a setup time below zero: taken as all unit time")
	say(f.LeftUnit, "setup and unit time together gave a unit time below zero: taken as all setup time")
	say(f.Asked && (f.SetupSec < 0 || f.UnitSec < 0), "a time below zero: the form was asked for and is kept")
	minCount, maxCount, _ := s.Sums.CountPerSetup()
	say(f.Bracket != nil && s.alwaysOne(), "always one a visit, so setup and unit time cannot be told apart: if one is all it can be, say form = \"setup\"")
	say(f.Bracket != nil && !s.alwaysOne(), "always timed at about the same count (%s): setup and unit time cannot be told apart, so totals reach from all unit to all setup; "+
		"time it at a very different count, or its setup alone", countRange(minCount, maxCount))
	own := m.options.Scatter == OwnScatter
	say(s.doubt.share > 0 && own, "too few readings to show how much that varies: a spread of %s is borrowed from the other steps", words.Percent(m.lending.cv(), 3))
	// by how much, and as what, is said once for all steps
	say(s.doubt.share == 1 && !own && s.Readings == 1, "timed once, so how much that varies is lent")
	say(s.doubt.share == 1 && !own && s.Readings > 1, "too few readings to show how much that varies, so it is lent")
	say(s.doubt.share > 0 && s.doubt.share < 1, "few readings show poorly how much that varies: %s of it is lent", words.Percent(s.doubt.share, 2))
	say(s.doubt.guess, "too few readings to show how much that varies: the spread is the grower's own guess")
	say(s.doubt.unknown, "too few readings to show how much that varies, and no other step can lend a spread")
	say(f.Spread == 1, "larger counts vary more: variance taken to grow with the count")
	say(f.Spread == 2, "larger counts vary more: variance taken to grow with the square of the count")
	say(s.Guessed > 0, "%d of %d readings were judged, not timed", s.Guessed, s.Readings)
	say(s.Step.Estimate != nil, "timed by now, so the estimate no longer gives the time")
	return append(notes, s.apartNotes()...)
}

// shortList names a few, and says how many more there are.
func shortList(names []string) string {
	var few []string
	for _, name := range names[:min(len(names), study.MaxKnown)] {
		few = append(few, words.Show(words.Short(name)))
	}
	if more := len(names) - len(few); more > 0 {
		few = append(few, words.More(more))
	}
	return strings.Join(few, ", ")
}

func countRange(minCount, maxCount float64) string {
	if minCount == maxCount {
		return words.Digits(minCount, 4) + " a setup"
	}
	return words.Digits(minCount, 4) + " to " + words.Digits(maxCount, 4) + " a setup"
}

// about is a share that is an estimate.
func about(share float64) string { return "about " + words.Percent(share, 2) }
