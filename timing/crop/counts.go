package crop

import (
	"cmp"
	"slices"
	"sort"
)

// Counts is the counts of a sowing, for asking for many of them.
type Counts struct {
	sowing        Propagation
	filled, cells float64   // FilledShare and CellsPerHead
	losses        []Loss    // by day
	left          []float64 // the share of plants after so many of them
}

// Counts prepares the counts of a sowing.
func (s Propagation) Counts() Counts {
	c := Counts{sowing: s, filled: s.FilledShare(), cells: s.CellsPerHead(), left: []float64{1}}
	c.losses = slices.Clone(s.Losses)
	slices.SortStableFunc(c.losses, func(a, b Loss) int { return cmp.Compare(a.Day, b.Day) })
	for i, l := range c.losses {
		c.left = append(c.left, c.left[i]*(1-l.Share))
	}
	return c
}

// Count is a count word on a day, for a number of heads. Trays are rounded up.
func (c Counts) Count(w Word, day int, heads float64) float64 {
	if w == Trays {
		return RoundUp(heads * c.cells / float64(c.sowing.CellsPerTray))
	}
	return c.perHead(w, day).at(heads)
}

// Linear is a count word on a day as a straight line in the heads: where Count
// rounds up, half a unit is added, which is what rounding up adds on average.
func (c Counts) Linear(w Word, day int) Amount {
	if w == Trays {
		return Amount{Fixed: 0.5, PerHead: c.cells / float64(c.sowing.CellsPerTray)}
	}
	return c.perHead(w, day)
}

func (c Counts) perHead(w Word, day int) Amount {
	cells, p, k := c.cells, c.filled, float64(c.sowing.SeedsPerCell)
	switch w {
	case Seeds:
		if c.sowing.Bought {
			return Amount{}
		}
		return Amount{PerHead: k * cells}
	case Cells:
		return Amount{PerHead: cells}
	case Filled:
		return Amount{PerHead: p * cells}
	case Empty:
		return Amount{PerHead: c.sowing.EmptyShare() * cells}
	case Surplus:
		return Amount{PerHead: c.sowing.SurplusPerCell() * cells}
	case Plants:
		return Amount{PerHead: p * cells * c.survivingShare(day)}
	case Heads:
		return Amount{PerHead: 1}
	default:
		return Amount{Fixed: 1}
	}
}

// survivingShare is Propagation.SurvivingShare.
func (c Counts) survivingShare(day int) float64 {
	return c.left[sort.Search(len(c.losses), func(i int) bool { return c.losses[i].Day > day })]
}
