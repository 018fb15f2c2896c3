package report

import (
	"fmt"
	"math"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// bar is a small bar beside a figure, of at most eight blocks; none for a figure
// below zero, as a model may give one.
func bar(x, longest float64) string {
	if x <= 0 || longest <= 0 {
		return ""
	}
	return strings.Repeat("▇", int(math.Round(8*x/longest)))
}

// maybe is a cell for a number that may not be known.
func maybe(m study.Maybe, decimals int) Cell {
	if !m.Known {
		return Cell{"?", m}
	}
	return Cell{words.Fixed(m.Value, decimals), m}
}

// chance is a cell for a probability: one that is too small to show is below what would.
func chance(p study.Maybe) Cell {
	const decimals, least = 4, 0.0001
	c := maybe(p, decimals)
	if p.Known && p.Value < least/2 {
		c.Text = "below " + words.Fixed(least, decimals)
	}
	return c
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// atLeast marks a figure that lacks a step; one that is not known needs no mark.
func atLeast(gaps []string, text string) string {
	if len(gaps) > 0 && text != "?" {
		return "≥ " + text
	}
	return text
}

func tablePointer(t Table) *Table { return &t }

// textOr is a text that may be missing.
func textOr(s *string) Cell {
	if s == nil {
		return Cell{"", nil}
	}
	return Cell{words.Show(*s), *s}
}

// wholeOr is a whole number that may be missing, and the word for that.
func wholeOr(n *int, none string) Cell {
	if n == nil {
		return Cell{none, study.Maybe{}}
	}
	return Cell{fmt.Sprint(*n), *n}
}
