package plots

import (
	"fmt"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// maxPanels is how many steps are drawn; a figure of more is too tall for the
// programs that show it.
const maxPanels = 60

// StepTimes draws a panel for each step that was timed: its readings against their
// count, the fitted time with its interval, and apart from each other readings
// with no setup, one and several. A step timed at alike counts has two lines,
// all unit and all setup. What was judged or never timed is named below.
func StepTimes(curves []answer.Curve, hues Hues) Figure {
	var withReadings []answer.Curve
	for _, c := range curves {
		if len(c.Points) > 0 && !Single(c) {
			withReadings = append(withReadings, c)
		}
	}
	drawn := withReadings[:min(len(withReadings), maxPanels)]
	blocks := []block{
		paragraph(heading, "Time of each reading, and the time fitted"),
		space(4), key(stepsKey(drawn)), space(6),
	}
	columns := min(2, len(drawn))
	for i := 0; i < len(drawn); i += columns {
		blocks = append(blocks, panels(drawn[i:min(len(drawn), i+columns)], columns, hues), space(14))
	}
	for _, sentence := range stepsWords(curves, len(withReadings)-len(drawn)) {
		blocks = append(blocks, paragraph(faint, sentence), space(3))
	}
	return Figure{blocks: blocks, alt: stepsAlt(curves)}
}

// Single says that every reading of a step is of a count of one, such as a visit: against
// its count there is nothing to see.
func Single(c answer.Curve) bool {
	return len(c.Points) > 0 && c.CountMin.Value == 1 && c.CountMax.Value == 1
}

// stepsKey explains the signs that occur.
func stepsKey(curves []answer.Curve) []keyEntry {
	var entries []keyEntry
	for _, k := range setupKinds {
		if anyPoint(curves, func(p answer.CurvePoint) bool { return k.holds(p.Setups) }) {
			entries = append(entries, keyEntry{markSign(k.mark, k.hue, true), k.name})
		}
	}
	if anyPoint(curves, func(p answer.CurvePoint) bool { return p.StandsOut }) {
		entries = append(entries, keyEntry{func(c draw.Canvas, center vg.Point) { standOut(c, center) }, "stands out"})
	}
	if len(curves) > 0 {
		entries = append(entries, keyEntry{lineSign(fittedStyle), "fitted"})
	}
	for _, c := range curves {
		if c.Lines[0].At[0].Low.Known {
			return append(entries, keyEntry{areaSign(bandFill), percent(c.Confidence) + " interval of the mean"})
		}
	}
	return entries
}

func anyPoint(curves []answer.Curve, is func(answer.CurvePoint) bool) bool {
	for _, c := range curves {
		for _, p := range c.Points {
			if is(p) {
				return true
			}
		}
	}
	return false
}

// stepsWords say what the panels cannot.
func stepsWords(curves []answer.Curve, left int) []string {
	var judged, never, unknown, thinned, borrowed, guessed, single []string
	bracketed := false
	for _, c := range curves {
		if Single(c) {
			single = append(single, fmt.Sprintf("%s (%s)", show(c.Step), formula(c)))
		}
		switch {
		case c.Form == nil:
			never = append(never, c.Step)
		case len(c.Points) == 0:
			judged = append(judged, fmt.Sprintf("%s (%s)", show(c.Step), formula(c)))
		case !c.Lines[0].At[0].Low.Known:
			unknown = append(unknown, c.Step)
		case c.Borrowed && !c.DF.Known: // a guess has infinite degrees of freedom
			guessed = append(guessed, c.Step)
		case c.Borrowed:
			borrowed = append(borrowed, c.Step)
		}
		if n := len(c.Points); n > 0 && n < c.Readings && !Single(c) {
			thinned = append(thinned, c.Step)
		}
		bracketed = bracketed || c.Bracket != nil
	}
	var words []string
	add := func(names []string, text string) {
		if len(names) > 0 {
			words = append(words, fmt.Sprintf(text, list(names)))
		}
	}
	if bracketed {
		words = append(words, "All unit, all setup: with about the same count each time nobody can tell which; the truth lies between.")
	}
	add(thinned, "Of so many readings only some are drawn, and all that stand out: %s.")
	add(unknown, "No interval, because how much it varies is not known yet: %s.")
	add(borrowed, "Timed too seldom to show how much it varies, so it is taken to vary as other steps and handwork do: %s.")
	add(guessed, "Timed too seldom for an interval of its own, so the grower's own guess of the spread is used: %s.")
	add(single, "Timed one at a time, so not drawn: %s.")
	add(judged, "Judged, not timed: %s.")
	add(never, "Neither timed nor judged: %s.")
	if left > 0 {
		words = append(words, notDrawn(left, "more step", ", timed too,"))
	}
	if len(curves) > 0 {
		words = append(words, "Time of work is that of one person at normal pace, without rest.")
	}
	return words
}

func stepsAlt(curves []answer.Curve) string {
	sentences := []string{"Readings of each step against their count, with the time that is fitted to them."}
	for _, c := range curves {
		if len(c.Points) == 0 {
			continue
		}
		text := fmt.Sprintf("%s: %s", show(c.Step), words.Many(c.Readings, "reading"))
		if c.CountMin == c.CountMax {
			text += " at a count of " + words.InFull(c.CountMin.Value)
		} else {
			text += fmt.Sprintf(" at counts from %s to %s", words.InFull(c.CountMin.Value), words.InFull(c.CountMax.Value))
		}
		text += "; " + formula(c)
		if n := len(c.StandsOut); n > 0 {
			text += fmt.Sprintf("; %s out of line with the others", words.Many(n, "reading"))
		}
		sentences = append(sentences, text+".")
	}
	return spoken(append(sentences, stepsWords(curves, 0)...)...)
}
