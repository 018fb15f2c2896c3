package study

import (
	"math"

	"headhours/timing/crop"
)

// Yield is what a grow gives on one of its days.
type Yield struct {
	Day   int
	Heads float64
	Kg    Maybe
}

// SaleOf is how a workflow's harvest is sold: by its own sale, else the study's, each
// taken whole.
func (s Study) SaleOf(w Workflow) Sale {
	switch {
	case w.Sale != nil:
		return *w.Sale
	case s.Sale != nil:
		return *s.Sale
	}
	return Sale{Unit: "head", Heads: 1, Price: s.PricePerHead, Share: 1}
}

// kgPerHead is what a head of a workflow weighs, where that is not told by cuts: as the
// study says, else as its grows gave.
func (s Study) kgPerHead(w Workflow) Maybe {
	if w.HeadWeight.Known {
		return w.HeadWeight
	}
	var kg, heads float64
	for _, g := range s.Grows {
		if g.Workflow == w.Name && g.Weight.Known && g.Heads.Known {
			kg, heads = kg+g.Weight.Value, heads+g.Heads.Value
		}
	}
	return Known(kg / heads)
}

// HarvestDay is the first day on which a task counts heads, or the last task's day.
func (w Workflow) HarvestDay() int {
	first, last := math.MaxInt, 0
	for _, t := range w.Tasks {
		for _, day := range t.Days {
			last = max(last, day)
			if t.Count == crop.Heads {
				first = min(first, day)
			}
		}
	}
	if first < math.MaxInt {
		return first
	}
	return last
}

// Yields are what a grow of so many heads gives, day by day. Kilograms are unknown
// where neither cuts nor a weight of heads tell them.
func (s Study) Yields(w Workflow, heads float64) []Yield {
	counts := s.Propagation(w).Counts()
	weight := s.kgPerHead(w).Times(heads)
	if len(w.Cuts) > 0 {
		weight = Known(0)
	}
	list := []Yield{{Day: w.HarvestDay(), Heads: heads, Kg: weight}}
	for _, c := range w.Cuts {
		list = append(list, Yield{Day: c.Day, Kg: Known(c.Kg * counts.Count(crop.Plants, c.Day, heads))})
	}
	return list
}
