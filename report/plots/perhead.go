package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// PerHead draws the minutes that a head takes as a bar for each way, with the interval
// of the total. What all ways have in common is one part; each step that differs between
// them has its colour, and those that differ little share one. Of one way alone every
// step is a part.
func PerHead(c answer.Comparison, hues Hues) Figure {
	crops := answer.ByCrop(c)
	if len(crops) < 2 {
		return perHeadOf(c, hues, "")
	}
	var all Figure
	for _, of := range crops { // which are not compared with each other
		all = all.above(perHeadOf(of.Comparison, hues, ofCrop(of.Crop)))
	}
	return all
}

// perHeadOf is PerHead of the ways of one crop.
func perHeadOf(c answer.Comparison, hues Hues, of string) Figure {
	steps := toShow(c)
	all := make([]bar, len(c.Workflows))
	for i, h := range c.Workflows {
		perHead := 60 / float64(c.Heads)
		all[i] = bar{
			name: show(h.Workflow), parts: steps.barParts(h, hues, perHead),
			low: h.Low.Times(perHead), high: h.High.Times(perHead),
		}
		all[i].words = sumWords(h.Gaps, cents(h.MinutesPerHead)+" min", within(all[i].low, all[i].high, cents))
	}
	title := fmt.Sprintf("Minutes a head%s, in a grow of %d", of, c.Heads)
	interval := percent(c.Confidence) + " interval"
	blocks, alt := bars(title, "minutes of work a head, rest included", interval, all), barsAlt("Minutes a head by step"+of, all)
	for _, sentence := range steps.sentences() {
		blocks, alt = append(blocks, space(3), paragraph(faint, sentence)), spoken(alt, sentence)
	}
	return Figure{blocks: blocks, alt: alt, lacks: lacksOf(c)}
}

// sumWords are a total in words and its interval; of one that lacks a step, at least.
func sumWords(gaps []string, sum, interval string) string {
	if len(gaps) > 0 {
		sum = "≥ " + sum
	}
	return sum + interval
}

// drawnSteps are the steps of ways as bars show them: those that take as long in all, or
// very nearly, those that tell ways apart, the largest first, and the rest.
type drawnSteps struct {
	same, apart, rest []string
	nearly            bool // some of the same differ a little
	much              bool // the rest differ little each, but much together
}

// muchTogether is the share of all changes from which steps that differ little each are
// said to differ much together.
const muchTogether = 2 * littleChange

// hardlyDiffers is the share of a way's hours below which what a step takes more in one
// way than in another is not worth a part of its own.
const hardlyDiffers = 0.005

// toShow sorts the steps of a comparison. Those never timed are in none: they take
// nothing, as far as is known.
func toShow(c answer.Comparison) drawnSteps {
	apart := stepsByDifference(c)
	if len(c.Workflows) == 1 {
		return drawnSteps{apart: stepNames(apart)}
	}
	steps := drawnSteps{same: sameInAll(c)}
	var changes, longest float64
	for _, h := range c.Workflows {
		longest = max(longest, 60*h.Hours)
	}
	apart = slices.DeleteFunc(apart, func(d differs) bool {
		hardly := d.minutes < hardlyDiffers*longest
		if hardly {
			steps.same, steps.nearly = append(steps.same, d.step), true
		}
		return hardly
	})
	for _, d := range apart {
		changes += d.minutes
	}
	little := len(apart)
	for little > 0 && apart[little-1].minutes < littleChange*changes {
		little--
	}
	if len(apart)-little < 2 {
		little = len(apart)
	}
	steps.apart, steps.rest = stepNames(apart[:little]), stepNames(apart[little:])
	var together float64
	for _, d := range apart[little:] {
		together += d.minutes
	}
	steps.much = together >= muchTogether*changes
	return steps
}

func stepNames(all []differs) []string {
	steps := make([]string, len(all))
	for i, d := range all {
		steps[i] = d.step
	}
	return steps
}

// stepsByDifference are the steps that do not take as long in all ways, those between whose
// longest and shortest time the most minutes lie first; of one way all its steps.
func stepsByDifference(c answer.Comparison) []differs {
	same := sameInAll(c)
	hours := make([]map[string]float64, len(c.Workflows))
	var all []differs
	seen := map[string]bool{}
	for i, h := range c.Workflows {
		hours[i] = hoursByStep(h)
		for _, s := range h.Steps {
			if !seen[s.Step] && (len(c.Workflows) == 1 || !slices.Contains(same, s.Step)) {
				all = append(all, differs{step: s.Step})
			}
			seen[s.Step] = true
		}
	}
	for i := range all {
		low, high := hours[0][all[i].step], hours[0][all[i].step]
		for _, h := range hours[1:] {
			low, high = min(low, h[all[i].step]), max(high, h[all[i].step])
		}
		if all[i].minutes = 60 * (high - low); len(hours) == 1 {
			all[i].minutes = 60 * math.Abs(high)
		}
	}
	all = slices.DeleteFunc(all, func(d differs) bool { return d.minutes == 0 })
	slices.SortStableFunc(all, func(a, b differs) int { return cmp.Compare(b.minutes, a.minutes) })
	return all
}

// barParts are a way's minutes a head, as many parts for every way: what all have in common,
// then the steps that tell them apart, then the rest.
func (s drawnSteps) barParts(h answer.Hours, hues Hues, perHead float64) []barPart {
	hours := hoursByStep(h)
	sum := func(steps []string) (minutes float64) {
		for _, step := range steps {
			minutes += perHead * hours[step]
		}
		return minutes
	}
	var parts []barPart
	if len(s.same) > 0 {
		parts = append(parts, barPart{name: s.sameName(), amount: sum(s.same), fill: sameFill})
	}
	for _, step := range s.apart {
		look := hues.of(step)
		parts = append(parts, barPart{name: show(step), amount: perHead * hours[step], fill: look.fill, letter: look.letter})
	}
	if len(s.rest) > 0 {
		parts = append(parts, barPart{name: words.Many(len(s.rest), "other"), amount: sum(s.rest), fill: restFill})
	}
	return parts
}

func (s drawnSteps) sameName() string {
	if s.nearly {
		return "much the same in all"
	}
	return "the same in all"
}

// sentences name the steps that share a part.
func (s drawnSteps) sentences() []string {
	var sentences []string
	if len(s.same) > 0 {
		sentences = append(sentences, words.Capital(s.sameName())+": "+list(s.same)+".")
	}
	if len(s.rest) > 0 {
		which := "which differ little"
		if s.much {
			which = "none of which differs much by itself"
		}
		sentences = append(sentences, "Others, "+which+": "+list(s.rest)+".")
	}
	return sentences
}
