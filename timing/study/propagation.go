package study

import "headhours/timing/crop"

// Propagation is what decides the counts of a workflow's grow.
func (s Study) Propagation(w Workflow) crop.Propagation {
	seeds := w.SeedsPerCell
	if w.Bought {
		seeds = 1
	}
	return crop.Propagation{
		Germination:  s.GerminationOf(w).Share,
		Bought:       w.Bought,
		SeedsPerCell: seeds,
		CellsPerTray: w.CellsPerTray,
		Losses:       w.Losses,
	}
}

// GerminationOf is the germination that a workflow is answered for: its own, else the
// study's. Bought plants are all there.
func (s Study) GerminationOf(w Workflow) crop.Germination {
	switch {
	case w.Bought:
		return crop.Germination{Share: 1}
	case w.Germination != nil:
		return *w.Germination
	}
	return s.Germination
}

// LeavesGermination says that the study's germination is a workflow's.
func (w Workflow) LeavesGermination() bool { return !w.Bought && w.Germination == nil }
