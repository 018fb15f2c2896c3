package plots

import (
	"fmt"
	"math"

	"headhours/report"
	"headhours/timing"
)

// How many bars the figures have, so that they go on one page.
const (
	mostShares = 16
	mostSwings = 10
)

// Shares draws the minutes of a way of working by step, the largest first: what
// setting up takes and what the units do. Steps never timed are named below.
func Shares(in timing.Improvement) Figure {
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
		r := rung{name: show(s.Step), words: minutesWords(s), spans: setupAndUnits(setup, unit)}
		for _, span := range r.spans {
			low, high = min(low, span.from, span.to), max(high, span.from, span.to)
		}
		all = append(all, r)
	}
	blocks := []block{paragraph(heading, fmt.Sprintf("Minutes by step, in a grow of %d", in.Heads)), space(4)}
	drawn := all[:min(len(all), mostShares)]
	if len(drawn) > 0 {
		blocks = append(blocks, key([]keyEntry{
			{areaSign(fills[0]), "getting ready"}, {areaSign(fills[1]), "the units"},
		}), space(8), ladder("minutes of work a grow, rest included", low, high, nil, drawn))
	}
	if left := len(all) - len(drawn); left > 0 {
		blocks = append(blocks, paragraph(faint, fmt.Sprintf("%d smaller steps are not drawn.", left)))
	}
	if len(bracketed) > 0 {
		blocks = append(blocks, paragraph(faint, "Getting ready and the units cannot be told apart, so all is drawn as units: "+list(bracketed)+"."))
	}
	if len(gaps) > 0 {
		blocks = append(blocks, paragraph(faint, "Never timed, so not drawn: "+list(gaps)+"."))
	}
	return Figure{blocks, sharesAlt(in)}
}

func minutesWords(s timing.StepShare) string {
	words := fmt.Sprintf("%s min, %s %%", decimals(60*s.Hours.Value, 1), decimals(100*s.Share.Value, 0))
	if s.Rework {
		words = "rework, " + words
	}
	return words
}

// setupAndUnits are spans end to end; what is below zero goes left of zero.
func setupAndUnits(setup, unit float64) []stretchOf {
	var spans []stretchOf
	left, right := 0.0, 0.0
	for i, amount := range []float64{setup, unit} {
		switch {
		case amount > 0:
			spans = append(spans, stretchOf{right, right + amount, fills[i]})
			right += amount
		case amount < 0:
			spans = append(spans, stretchOf{left + amount, left, fills[i]})
			left += amount
		}
	}
	return spans
}

func sharesAlt(in timing.Improvement) string {
	sentences := []string{"Minutes by step, the largest first."}
	for _, s := range in.Steps {
		switch {
		case s.Bracketed:
			sentences = append(sentences, fmt.Sprintf("%s: %s, getting ready and units not told apart.", show(s.Step), minutesWords(s)))
		case s.Hours.Known:
			sentences = append(sentences, fmt.Sprintf("%s: %s, of which %s min getting ready.",
				show(s.Step), minutesWords(s), decimals(60*s.SetupHours.Value, 1)))
		default:
			sentences = append(sentences, show(s.Step)+": never timed.")
		}
	}
	return spoken(sentences...)
}

// Swing draws what a fifth less and a fifth more of each input makes of the cost
// of a head, the input that moves it most first.
func Swing(s timing.Sensitivity) Figure {
	money := "money"
	if s.Currency != nil {
		money = show(*s.Currency)
	}
	low, high := s.PerHead, s.PerHead
	var all []rung
	for _, in := range s.Inputs[:min(len(s.Inputs), mostSwings)] {
		low, high = min(low, in.Lower, in.Higher), max(high, in.Lower, in.Higher)
		all = append(all, rung{
			name:  show(in.Name),
			words: fmt.Sprintf("%s or %s", decimals(in.Lower, 3), decimals(in.Higher, 3)),
			spans: swings(s.PerHead, in),
		})
	}
	room := 0.04 * (high - low)
	blocks := []block{paragraph(heading, "What moves the cost of a head"), space(4)}
	if len(all) > 0 {
		blocks = append(blocks, key([]keyEntry{
			{areaSign(fills[3]), "a fifth lower"}, {areaSign(fills[5]), "a fifth higher"},
		}), space(8), ladder(money+" a head", low-room, high+room, &s.PerHead, all))
	}
	if left := len(s.Inputs) - len(all); left > 0 {
		blocks = append(blocks, paragraph(faint, fmt.Sprintf("%d inputs that move it less are not drawn.", left)))
	}
	return Figure{blocks, spoken(append([]string{"The cost of a head with each input a fifth lower and a fifth higher."}, report.Sensitivity(s).Words()...)...)}
}

// swings are the spans from the cost as it is to the two ends of an input; the
// shorter stands over the longer where both lie on one side.
func swings(at float64, in timing.Input) []stretchOf {
	lower, higher := stretchOf{at, in.Lower, fills[3]}, stretchOf{at, in.Higher, fills[5]}
	if math.Abs(in.Lower-at) < math.Abs(in.Higher-at) {
		return []stretchOf{higher, lower}
	}
	return []stretchOf{lower, higher}
}
