package plots

import (
	"fmt"
	"math"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// maxWhy is how many ways are set against the first, so that the figure goes on a page.
const maxWhy = 4

// Why draws why ways differ, each against the first of its crop: a bar for each step that
// takes longer in one than in the other, saved to the left and added to the right, the
// largest first, and the sum with its range. What all have alike is one line. Where there
// is but one way, there is nothing to draw.
func Why(c answer.Comparison, hues Hues) Figure {
	var all Figure
	for _, of := range answer.ByCrop(c) { // ways of other crops are not compared
		if len(of.Workflows) < 2 {
			continue
		}
		all = all.above(whyOf(of.Comparison, hues))
	}
	return all
}

// whyOf is Why of the ways of one crop.
func whyOf(c answer.Comparison, hues Hues) Figure {
	first := c.Workflows[0]
	sentences := []string{fmt.Sprintf("Why the hours differ, against %q, in minutes a grow.", show(first.Workflow))}
	groups := whyGroups(c, hues)
	for _, g := range groups {
		sentence := g.title + ":"
		for _, r := range g.rows {
			sentence += " " + r.name + " " + r.words + ";"
		}
		sentences = append(sentences, sentence)
	}
	blocks := []block{
		paragraph(heading, fmt.Sprintf("Why: minutes against %s, in a grow of %d", quoted(first.Workflow), c.Heads)), space(4),
		whyChart(groups), space(4),
		paragraph(faint, "Left of the line is saved, right of it is added."),
	}
	if left := len(c.Workflows) - 1 - maxWhy; left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "more way", "")))
	}
	if same := sameWords(c); same != "" {
		blocks, sentences = append(blocks, space(3), paragraph(plain, same)), append(sentences, same)
	}
	return Figure{blocks: blocks, alt: spoken(sentences...), lacks: whyLacks(c)}
}

// Compared is why ways differ, and below it what a head takes in each.
func Compared(c answer.Comparison, hues Hues) Figure {
	why, perHead := Why(c, hues), PerHead(c, hues)
	if len(why.blocks) == 0 {
		return perHead
	}
	return why.above(perHead)
}

// whyLacks name the steps never timed that ways do not have alike.
func whyLacks(c answer.Comparison) []string {
	var gaps []string
	for _, h := range c.Workflows[1:] {
		for _, gap := range pairOf(c, c.Workflows[0].Workflow, h.Workflow).Gaps {
			if !slices.Contains(gaps, gap) {
				gaps = append(gaps, gap)
			}
		}
	}
	if gaps == nil {
		return nil
	}
	return []string{"Not timed, so not in the differences: " + list(gaps) + "."}
}

func whyGroups(c answer.Comparison, hues Hues) []whyGroup {
	var groups []whyGroup
	others := c.Workflows[1:]
	for _, h := range others[:min(len(others), maxWhy)] {
		p := pairOf(c, c.Workflows[0].Workflow, h.Workflow)
		g := whyGroup{title: quoted(h.Workflow) + ": " + whyWords(p)}
		for _, d := range joinLittle(stepsThatDiffer(c.Workflows[0], h)) {
			look := hues.of(d.step)
			g.rows = append(g.rows, whyRow{name: show(d.step), words: signed(d.minutes), minutes: d.minutes, fill: look.fill, letter: look.letter})
		}
		sum := whyRow{name: "in all", words: signed(60 * p.Difference), minutes: 60 * p.Difference, fill: sameFill}
		if p.Low.Known && p.Low.Value < p.High.Value {
			sum.low, sum.high = p.Low.Times(60), p.High.Times(60)
		}
		groups = append(groups, whyGroup{g.title, append(g.rows, sum)})
	}
	return groups
}

// whyWords say what a way comes to beside the first.
func whyWords(p answer.Pair) string {
	minutes, more := 60*p.Difference, "more"
	low, high := p.Low.Times(60), p.High.Times(60)
	if minutes < 0 {
		minutes, more, low, high = -minutes, "less", high.Times(-1), low.Times(-1)
	}
	text := words.Fixed(minutes, 1) + " min " + more
	switch {
	case !low.Known:
		return text + ", how surely is not known"
	case low.Value == high.Value && minutes == 0 && len(p.Gaps) > 0:
		return "not known"
	case low.Value == high.Value && minutes == 0:
		return "as long"
	case low.Value == high.Value:
		return text
	case low.Value <= 0:
		return fmt.Sprintf("no clear difference (%s to %s min)", signed(60*p.Low.Value), signed(60*p.High.Value))
	}
	return fmt.Sprintf("%s (%s to %s)", text, words.Fixed(low.Value, 1), words.Fixed(high.Value, 1))
}

func signed(x float64) string {
	text := words.Fixed(math.Abs(x), 1)
	switch {
	case math.Abs(x) < 0.05:
		return text
	case x < 0:
		return "−" + text
	}
	return "+" + text
}

// sameWords name the steps that take as long in every way, and their minutes together.
func sameWords(c answer.Comparison) string {
	same, minutes := sameInAll(c), 0.0
	if len(same) == 0 {
		return ""
	}
	hours := hoursByStep(c.Workflows[0])
	for _, step := range same {
		minutes += 60 * hours[step]
	}
	return fmt.Sprintf("The same in all: %s; %s min.", list(same), words.Fixed(minutes, 1))
}
