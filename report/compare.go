package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// Compare lays out workflows side by side.
func Compare(c answer.Comparison) Doc {
	doc := Doc{
		Title: fmt.Sprintf("%s, %s to harvest", words.Many(c.Heads, "head"), startsAs(c)),
		Notes: append(slices.Clone(c.Notes), basisNotes(c)...),
	}
	crops := answer.ByCrop(c)
	doc.say("lead", leadSentences(crops)...)
	lines, shared := hoursBlock(c)
	doc.say("hours", strings.Join(lines, "\n"))
	if len(c.Workflows) > 1 {
		doc.show("hours", workflowsTable(c))
	}
	if shared != "" {
		doc.say("shared", shared)
	}
	doc.show("minutes", minutesTable(c))
	doc.show("steps", stepsTable(c))
	doc.sayPairs(c, crops)
	doc.addSold(c)
	return doc
}

// sayPairs says which of two ways is quicker, of the ways of each crop.
func (d *Doc) sayPairs(c answer.Comparison, crops []answer.CropComparison) {
	if len(c.Pairs) == 0 {
		return
	}
	spelledOut, pairs := 0, answer.OfOneCrop(c.Pairs)
	for _, of := range crops {
		quickest := of.Quickest().Workflow
		for _, p := range of.Pairs {
			if len(of.Workflows) <= maxSpelledOut || p.A == quickest || p.B == quickest {
				d.say("pairs", PairWords(p, c.Heads))
				spelledOut++
			}
		}
	}
	if spelledOut < len(pairs) {
		d.say("others", "The other pairs stand in the table of differences; name two with --workflow to have them in words.")
	}
	d.show("pairs", pairsTable(c))
	if len(pairs) < len(c.Pairs) { // programs have all pairs, people those of one crop
		d.section("pairs").Table.For = Programs
		if len(pairs) > 0 {
			c.Pairs = pairs
			d.show("of one crop", pairsTable(c))
			d.section("of one crop").Table.For = onlyPeople
		}
	}
}

// startsAs is what a grow begins with.
func startsAs(c answer.Comparison) string {
	bought := 0
	for _, h := range c.Workflows {
		if h.Gives.Bought {
			bought++
		}
	}
	switch bought {
	case 0:
		return "seed"
	case len(c.Workflows):
		return "young plant"
	}
	return "seed or young plant"
}

// leadSentences name the quickest way of each crop that has several.
func leadSentences(crops []answer.CropComparison) []string {
	var lines []string
	for _, of := range crops {
		what := words.Many(of.Heads, "head")
		if len(crops) > 1 && of.Crop != "" {
			what += " of " + words.Quoted(of.Crop)
		}
		if len(of.Workflows) > 1 {
			lines = append(lines, leadSentence(of.Comparison, what))
		}
	}
	if lines == nil && len(crops) > 1 {
		return []string{"Ways of different crops are not compared: each crop has but one."}
	}
	return lines
}

// PairWords says which of two ways is quicker, and from how many heads on.
func PairWords(p answer.Pair, heads int) string {
	if close := closeSentence(p, heads); close != "" {
		return close
	}
	if len(p.Gaps) > 0 { // so from how many heads on cannot be told either
		return pairSentence(p, heads)
	}
	return pairSentence(p, heads) + " " + breakEvenSentence(p, heads)
}

// PairsTable is the differences of some pairs.
func PairsTable(pairs []answer.Pair) Table {
	return pairsTable(answer.Comparison{Pairs: pairs})
}

// leadSentence names the quickest way, or those between which it cannot be told.
func leadSentence(c answer.Comparison, what string) string {
	quickest := c.Quickest()
	if nothingKnown(quickest) {
		return "Nothing that these ways need was timed or judged yet."
	}
	names, ok := []string{quickest.Workflow}, true
	var gaps []string // that not all need alike
	for _, p := range c.Pairs {
		other := p.A
		if p.A == quickest.Workflow {
			other = p.B
		} else if p.B != quickest.Workflow {
			continue
		}
		ok = ok && p.Low.Known && len(p.Gaps) == 0
		gaps = union(gaps, p.Gaps)
		if !p.Clear() {
			names = append(names, other)
		}
	}
	switch {
	case len(gaps) > 0:
		return fmt.Sprintf("Which is quickest for %s cannot be told yet: %s, and not all need as much of %s.",
			what, neverTimed(gaps), words.Agree(len(gaps), "it", "them"))
	case !ok:
		return fmt.Sprintf("Shortest for %s, as far as can be told: %s.", what, words.Quoted(quickest.Workflow))
	case len(names) == 1:
		return fmt.Sprintf("Quickest for %s: %s.", what, words.Quoted(quickest.Workflow))
	}
	for i := range names {
		names[i] = words.Quoted(names[i])
	}
	return fmt.Sprintf("Quickest for %s: %s; no clear difference between them.", what, words.Or(names))
}

// basisNotes say what the answers rest on that is not plainly timed.
func basisNotes(c answer.Comparison) []string {
	var notes []string
	seen := map[string]bool{}
	add := func(format string, args ...any) {
		if note := fmt.Sprintf(format, args...); !seen[note] {
			seen[note] = true
			notes = append(notes, note)
		}
	}
	var bracketed []string
	for _, h := range c.Workflows {
		bracketed = union(bracketed, h.Rests.Bracketed)
	}
	if len(bracketed) > 0 {
		add("always timed at about the same count, so setup and unit time cannot be told apart, and ranges reach from all of the one to all of the other: %s", words.Names(bracketed))
	}
	for _, h := range c.Workflows {
		if len(h.Rests.Beyond) > 0 {
			add("%s: goes more than a quarter beyond the counts that were timed of %s", words.Quoted(h.Workflow), words.Names(h.Rests.Beyond))
		}
	}
	if note := unlikeNote(answer.OfOneCrop(c.Pairs)); note != "" {
		add("%s", note)
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

// maxUnlike is how many steps a note names whose readings look unlike.
const maxUnlike = 4

// unlikeNote names the steps that are counted as the same work in several ways and do not
// look it, each once: with the two ways that are furthest apart, and how many more are.
func unlikeNote(pairs []answer.Pair) string {
	type apart struct {
		words string
		ratio float64
		pairs int
	}
	found := map[string]*apart{}
	var order []string
	for _, p := range pairs {
		for _, s := range p.AssumedSame {
			if !s.Unlike {
				continue
			}
			if found[s.Step] == nil {
				found[s.Step] = &apart{}
				order = append(order, s.Step)
			}
			a, b := s.AUnit, s.BUnit
			if s.AVisit.Known {
				a, b = s.AVisit, s.BVisit
			}
			of := found[s.Step]
			of.pairs++
			if r := max(a.Value, b.Value) / min(a.Value, b.Value); r > of.ratio || of.words == "" {
				of.ratio, of.words = r, sameWork(s, p)
			}
		}
	}
	if order == nil {
		return ""
	}
	var parts []string
	for _, step := range order[:min(len(order), maxUnlike)] {
		text := found[step].words
		if n := found[step].pairs; n > 1 {
			text += fmt.Sprintf("; in %s of ways", words.Many(n, "pair"))
		}
		parts = append(parts, text+")")
	}
	if left := len(order) - len(parts); left > 0 {
		parts = append(parts, words.Many(left, "more step"))
	}
	return "counted as the same work, though timings differ: " + strings.Join(parts, "; ") + ". What is not the same work needs another name"
}

func sameWork(s answer.SameWork, p answer.Pair) string {
	readings := fmt.Sprintf("%d and %d readings", s.AReadings, s.BReadings)
	if s.AReadings == 1 && s.BReadings == 1 {
		readings = "one reading each"
	}
	a, b, of := s.AUnit, s.BUnit, ""
	if s.AVisit.Known {
		a, b, of = s.AVisit, s.BVisit, " a visit"
	}
	return fmt.Sprintf("%s (%s s%s in %s, %s s in %s; %s",
		words.Show(s.Step), words.Plain(a.Value), of, words.Quoted(p.A),
		words.Plain(b.Value), words.Quoted(p.B), readings)
}
