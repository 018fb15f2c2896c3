package plots

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"

	"headhours/timing"
)

// maxWhy is how many ways are set against the first, so that the figure goes on a page.
const maxWhy = 4

// littleChange is the share of all changes below which a step's joins the others.
const littleChange = 0.05

// Greys, since a colour stands for a step: the side of a bar tells saved from added.
var (
	savedFill = color.NRGBA{0xb4, 0xb8, 0xb4, 0xff}
	addedFill = color.NRGBA{0x55, 0x5a, 0x55, 0xff}
)

// differs is what a step takes more in one way than in another, in minutes a grow;
// below zero, what it saves.
type differs struct {
	step    string
	minutes float64
}

// Why draws why ways differ, each against the first: a bar for each step that takes
// longer in one than in the other, saved to the left and added to the right, the largest
// first, and the sum with its range. What all have alike is one line. Where there is but
// one way, there is nothing to draw.
func Why(c timing.Comparison) Figure {
	var all Figure
	for _, of := range timing.ByCrop(c) { // ways of other crops are not compared
		if len(of.Workflows) < 2 {
			continue
		}
		all = all.above(whyOf(of.Comparison))
	}
	return all
}

// whyOf is Why of the ways of one crop.
func whyOf(c timing.Comparison) Figure {
	first := c.Workflows[0]
	sentences := []string{fmt.Sprintf("Why the hours differ, against %q, in minutes a grow.", show(first.Workflow))}
	blocks := []block{
		paragraph(heading, fmt.Sprintf("Why: minutes against %s, in a grow of %d", quoted(first.Workflow), c.Heads)), space(4),
		key([]keyEntry{{areaSign(savedFill), "saved"}, {areaSign(addedFill), "added"}, {areaSign(restFill), "in all"}}), space(6),
	}
	low, high := whySpan(c)
	others := c.Workflows[1:]
	for _, h := range others[:min(len(others), maxWhy)] {
		p := pairOf(c, first.Workflow, h.Workflow)
		all := whyRungs(joinLittle(stepsThatDiffer(first, h)), p)
		blocks = append(blocks, paragraph(bold, quoted(h.Workflow)), space(2), ladder("minutes of work a grow, rest included", low, high, nil, all), space(4))
		sentence := fmt.Sprintf("%q:", show(h.Workflow))
		for _, r := range all {
			sentence += " " + r.name + " " + r.words + ";"
		}
		if len(p.Gaps) > 0 {
			gaps := "Never timed, so not drawn: " + list(p.Gaps) + "."
			blocks, sentence = append(blocks, paragraph(faint, gaps), space(4)), sentence+" "+gaps
		}
		sentences = append(sentences, sentence)
	}
	if left := len(others) - maxWhy; left > 0 {
		blocks = append(blocks, paragraph(faint, fmt.Sprintf("%d more ways are not drawn.", left)))
	}
	if same := sameWords(c); same != "" {
		blocks, sentences = append(blocks, paragraph(plain, same)), append(sentences, same)
	}
	return Figure{blocks, spoken(sentences...)}
}

// Compared is why ways differ, and below it what a head takes in each.
func Compared(c timing.Comparison) Figure {
	why, perHead := Why(c), PerHead(c)
	if len(why.blocks) == 0 {
		return perHead
	}
	return why.above(perHead)
}

// pairOf is the pair of two ways, b − a.
func pairOf(c timing.Comparison, a, b string) timing.Pair {
	for _, p := range c.Pairs {
		if p.A == a && p.B == b {
			return p
		}
	}
	return timing.Pair{}
}

// hoursByStep sums a way's hours by step; a step may stand in it several times.
func hoursByStep(h timing.Hours) map[string]float64 {
	hours := map[string]float64{}
	for _, s := range h.Steps {
		hours[s.Step] += s.Hours.Value
	}
	return hours
}

// stepsThatDiffer are the steps that take longer in one of two ways than in the other,
// the largest change first.
func stepsThatDiffer(a, b timing.Hours) []differs {
	was, is := hoursByStep(a), hoursByStep(b)
	var all []differs
	seen := map[string]bool{}
	for _, s := range slices.Concat(a.Steps, b.Steps) {
		if seen[s.Step] {
			continue
		}
		seen[s.Step] = true
		if more := is[s.Step] - was[s.Step]; abs(more) > 1e-12*(abs(is[s.Step])+abs(was[s.Step])) {
			all = append(all, differs{s.Step, 60 * more})
		}
	}
	slices.SortStableFunc(all, func(a, b differs) int { return cmp.Compare(abs(b.minutes), abs(a.minutes)) })
	return all
}

// joinLittle puts small changes together, the smallest first, as long as the sum could
// not change its sign without them.
func joinLittle(all []differs) []differs {
	var sum, changes float64
	for _, d := range all {
		sum, changes = sum+d.minutes, changes+abs(d.minutes)
	}
	keep, joined, reach := len(all), 0.0, 0.0
	for keep > 0 {
		d := all[keep-1]
		if abs(d.minutes) >= littleChange*changes || reach+abs(d.minutes) >= abs(sum) {
			break
		}
		joined, reach, keep = joined+d.minutes, reach+abs(d.minutes), keep-1
	}
	if len(all)-keep < 2 {
		return all
	}
	return append(slices.Clone(all[:keep]), differs{fmt.Sprintf("%d others", len(all)-keep), joined})
}

// whyRungs are a bar for each change and one for the sum.
func whyRungs(all []differs, p timing.Pair) []rung {
	rungs := make([]rung, 0, len(all)+1)
	for _, d := range all {
		fill := savedFill
		if d.minutes > 0 {
			fill = addedFill
		}
		rungs = append(rungs, rung{name: show(d.step), words: signed(d.minutes) + " min", spans: []stretchOf{{0, d.minutes, fill}}})
	}
	low, high := p.Low.Times(60), p.High.Times(60)
	sum := rung{name: "in all", words: signed(60*p.Difference) + " min", spans: []stretchOf{{0, 60 * p.Difference, restFill}}}
	if low.Known && low.Value < high.Value {
		sum.words += fmt.Sprintf(" (%s to %s)", signed(low.Value), signed(high.Value))
		sum.low, sum.high = low, high
	}
	return append(rungs, sum)
}

func signed(x float64) string {
	text := decimals(abs(x), 1)
	switch {
	case math.Abs(x) < 0.05:
		return text
	case x < 0:
		return "−" + text
	}
	return "+" + text
}

// whySpan is the axis that all the ways share.
func whySpan(c timing.Comparison) (low, high float64) {
	for _, h := range c.Workflows[1:min(len(c.Workflows), maxWhy+1)] {
		p := pairOf(c, c.Workflows[0].Workflow, h.Workflow)
		for _, r := range whyRungs(stepsThatDiffer(c.Workflows[0], h), p) {
			low, high = min(low, r.spans[0].to), max(high, r.spans[0].to)
			if r.low.Known {
				low, high = min(low, r.low.Value), max(high, r.high.Value)
			}
		}
	}
	return low, high
}

// sameWords name the steps that take as long in every way, and their minutes together.
func sameWords(c timing.Comparison) string {
	var same []string
	minutes := 0.0
	for _, s := range c.Workflows[0].Steps {
		if slices.Contains(same, s.Step) || !s.Hours.Known {
			continue
		}
		at := hoursByStep(c.Workflows[0])[s.Step]
		alike := !slices.ContainsFunc(c.Workflows[1:], func(h timing.Hours) bool {
			other, is := hoursByStep(h)[s.Step]
			return !is || abs(other-at) > 1e-9*abs(at)
		})
		if alike {
			same, minutes = append(same, s.Step), minutes+60*at
		}
	}
	if len(same) == 0 {
		return ""
	}
	return fmt.Sprintf("The same in all: %s; %s min.", list(same), decimals(minutes, 1))
}
