// Package crop counts a grow: how many cells to sow for so many heads, how many
// of them fill, what is to thin, what is lost on the way. It knows numbers only.
//
// Seeds come up independently of each other with one chance, so a cell of k
// seeds is filled with probability p = 1 − (1 − g)^k; a bad lot or a hot tray is
// worse than that.
package crop

import "math"

// Germination is the share of seeds that give a usable seedling. Where it
// comes from a test, CameUp of Of seeds did; Of is 0 otherwise.
type Germination struct {
	Share      float64 // above 0, at most 1
	CameUp, Of int
}

// Loss is a share of the plants that is lost, before the tasks of its day.
type Loss struct {
	Day   int
	Share float64 // from 0 to below 1
}

// Word is a count word: what a task, a supply or a stretch of space is
// multiplied by.
type Word string

// The count words.
const (
	Seeds   Word = "seeds"   // sown
	Cells   Word = "cells"   // sown
	Trays   Word = "trays"   // cells ÷ cells per tray, rounded up
	Filled  Word = "filled"  // cells with a seedling
	Empty   Word = "empty"   // cells without
	Surplus Word = "surplus" // seedlings beyond one a cell
	Plants  Word = "plants"  // filled cells less the losses so far
	Heads   Word = "heads"   // filled cells less every loss
	Once    Word = "once"    // 1
)

// Words lists the count words.
var Words = []Word{Seeds, Cells, Trays, Filled, Empty, Surplus, Plants, Heads, Once}

// Propagation is what decides the counts of a grow.
type Propagation struct {
	Germination  float64 // share of seeds that give a usable seedling
	SeedsPerCell int
	CellsPerTray int // needed for Trays
	Losses       []Loss
	Bought       bool // young plants are bought: every cell has one, and nothing is sown
}

// FilledShare is p = 1 − (1 − g)^k, the share of cells with a seedling; 1 where they are
// bought.
func (s Propagation) FilledShare() float64 {
	if s.Bought {
		return 1
	}
	return -math.Expm1(float64(s.SeedsPerCell) * math.Log1p(-s.Germination))
}

// EmptyShare is (1 − g)^k, the share of cells without a seedling; 0 where they are bought.
func (s Propagation) EmptyShare() float64 {
	if s.Bought {
		return 0
	}
	return math.Pow(1-s.Germination, float64(s.SeedsPerCell))
}

// SurplusPerCell is kg − p, the seedlings beyond one a cell; 0 where they are bought.
func (s Propagation) SurplusPerCell() float64 {
	k, g := float64(s.SeedsPerCell), s.Germination
	switch {
	case s.Bought:
		return 0
	case k > 1 && k*g > 0.1:
		return k*g - s.FilledShare()
	}
	// the two are nearly alike: what is left of their difference, by the powers of g
	sum, term := 0.0, k*(k-1)/2*g*g
	for i := 2.0; i < 12; i++ {
		sum += term
		term *= -(k - i) / (i + 1) * g
	}
	return sum
}

// SurvivingShare is the product of (1 − share) over the losses up to and
// including a day.
func (s Propagation) SurvivingShare(day int) float64 {
	left := 1.0
	for _, l := range s.Losses {
		if l.Day <= day {
			left *= 1 - l.Share
		}
	}
	return left
}

// CellsPerHead is how many cells are sown for each head harvested, 1 ÷ (p ×
// product of all (1 − share)). For H heads H times as many are sown, not
// rounded.
func (s Propagation) CellsPerHead() float64 {
	return 1 / (s.FilledShare() * s.SurvivingShare(math.MaxInt))
}

// Amount is a count that may grow with the heads: Fixed + PerHead × heads.
type Amount struct{ Fixed, PerHead float64 }

// at is the amount for a number of heads.
func (a Amount) at(heads float64) float64 { return a.Fixed + a.PerHead*heads }

// RoundUp is the whole number at or above x; one that x exceeds by less than a
// billionth of itself, by rounding alone, is not exceeded.
func RoundUp(x float64) float64 { return math.Ceil(x * (1 - 1e-9)) }
