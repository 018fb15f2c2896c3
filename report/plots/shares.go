package plots

import (
	"fmt"
	"image/color"
	"math"

	"headhours/report"
	"headhours/timing/answer"
	"headhours/timing/words"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// How many bars the figures have, so that they go on one page.
const (
	maxShares = 16
	maxSwings = 10
)

// Shares draws the minutes of a way of working by step, the largest first: what
// setting up takes and what the units do. Steps never timed are named below.
func Shares(in answer.Improvement, hues Hues) Figure {
	var all []rung
	var gaps, bracketed []string
	low, high := 0.0, 0.0
	for _, s := range in.Steps {
		if !s.Hours.Known {
			gaps = append(gaps, s.Step)
			continue
		}
		if s.Bracketed {
			bracketed = append(bracketed, s.Step)
		}
		setup, unit := 60*s.SetupHours.Value, 60*s.UnitHours.Value
		name := show(s.Step)
		if s.Rework {
			name += " (rework)"
		}
		r := rung{name: name, words: minutesWords(s), spans: setupAndUnits(setup, unit, hues.of(s.Step).fill)}
		for _, span := range r.spans {
			low, high = min(low, span.from, span.to), max(high, span.from, span.to)
		}
		all = append(all, r)
	}
	blocks := []block{paragraph(heading, fmt.Sprintf("Minutes by step, in a grow of %d", in.Heads)), space(4)}
	steps := all[:min(len(all), maxShares)]
	if len(steps) > 0 {
		blocks = append(blocks, key([]keyEntry{
			{hatchedSign, "setup"}, {areaSign(sameFill), "the units"},
		}), space(8), ladder("minutes a grow", low, high, nil, steps))
	}
	if left := len(all) - len(steps); left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "smaller step", "")))
	}
	if len(bracketed) > 0 {
		blocks = append(blocks, paragraph(faint, "Setup and units cannot be told apart, so all is drawn as units: "+list(bracketed)+"."))
	}
	f := Figure{blocks: blocks, alt: sharesAlt(in)}
	if len(gaps) > 0 {
		f.lacks = []string{"Not timed, so not drawn: " + list(gaps) + "."}
	}
	return f
}

func minutesWords(s answer.StepShare) string {
	return fmt.Sprintf("%s min, %s", words.Fixed(60*s.Hours.Value, 1), words.Share(s.Share.Value))
}

// hatchedSign is the sign of getting set.
func hatchedSign(c draw.Canvas, center vg.Point) {
	areaSign(sameFill)(c, center)
	hatch(c, center.X-8, center.Y-5, center.X+8, center.Y+5, sameFill)
}

// setupAndUnits are spans end to end, the first hatched; what is below zero goes left of
// zero.
func setupAndUnits(setup, unit float64, fill color.NRGBA) []stretchOf {
	var spans []stretchOf
	left, right := 0.0, 0.0
	for i, amount := range []float64{setup, unit} {
		switch {
		case amount > 0:
			spans = append(spans, stretchOf{right, right + amount, fill, i == 0})
			right += amount
		case amount < 0:
			spans = append(spans, stretchOf{left + amount, left, fill, i == 0})
			left += amount
		}
	}
	return spans
}

func sharesAlt(in answer.Improvement) string {
	sentences := []string{"Minutes by step, the largest first."}
	for _, s := range in.Steps {
		switch {
		case s.Bracketed:
			sentences = append(sentences, fmt.Sprintf("%s: %s, setup and units not told apart.", show(s.Step), minutesWords(s)))
		case s.Hours.Known:
			sentences = append(sentences, fmt.Sprintf("%s: %s, of which %s min setup.",
				show(s.Step), minutesWords(s), words.Fixed(60*s.SetupHours.Value, 1)))
		default:
			sentences = append(sentences, show(s.Step)+": not timed.")
		}
	}
	return spoken(sentences...)
}

// Swing draws what a fifth less and a fifth more of each input makes of the cost
// of a head, the input that moves it most first.
func Swing(s answer.Sensitivity) Figure {
	money := "money"
	if s.Currency != nil {
		money = show(*s.Currency)
	}
	low, high := s.PerHead, s.PerHead
	var all []rung
	for _, in := range s.Inputs[:min(len(s.Inputs), maxSwings)] {
		low, high = min(low, in.Lower, in.Higher), max(high, in.Lower, in.Higher)
		all = append(all, rung{
			name:  show(in.Name),
			words: fmt.Sprintf("%s or %s", words.Fixed(in.Lower, 3), words.Fixed(in.Higher, 3)),
			spans: swings(s.PerHead, in),
		})
	}
	room := 0.04 * (high - low)
	blocks := []block{paragraph(heading, "What moves the cost of a head"), space(4)}
	if len(all) > 0 {
		blocks = append(blocks, key([]keyEntry{
			{areaSign(lowerFill), "a fifth lower"}, {areaSign(higherFill), "a fifth higher"},
		}), space(8), ladder(money+" a head", low-room, high+room, &s.PerHead, all))
	}
	if left := len(s.Inputs) - len(all); left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "further input", ", of less effect,")))
	}
	return Figure{blocks: blocks, alt: spoken(append([]string{"The cost of a head with each input a fifth lower and a fifth higher."}, report.Sensitivity(s).Words()...)...)}
}

// Greys, since a colour stands for a step.
var lowerFill, higherFill = greys[1], greys[2]

// swings are the spans from the cost as it is to the two ends of an input; the
// shorter stands over the longer where both lie on one side.
func swings(at float64, in answer.Input) []stretchOf {
	lower, higher := stretchOf{at, in.Lower, lowerFill, false}, stretchOf{at, in.Higher, higherFill, false}
	if math.Abs(in.Lower-at) < math.Abs(in.Higher-at) {
		return []stretchOf{higher, lower}
	}
	return []stretchOf{lower, higher}
}
