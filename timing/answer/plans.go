package answer

import (
	"cmp"
	"slices"
)

// Plans are the readings that would settle what was asked for, and, where no way of working
// was named, those that would tell the quickest two of a crop apart.
type Plans struct {
	Plan
	Pair *Plan `json:"pair"` // nil where no pair is to be told apart, or a way was named
}

// Plans are the plan of Plan and, where no names are given, one for a clear difference of
// the quickest two ways of a crop, or of the first pair of one that is not clear. The errors are
// those of Plan.
func (m *Models) Plans(names []string, heads int, within float64) (Plans, error) {
	plan, err := m.Plan(names, heads, within)
	if err != nil || len(names) > 0 || len(m.Study.Workflows) < 2 {
		return Plans{Plan: plan}, err
	}
	c, err := m.Compare(nil, heads)
	if err != nil {
		return Plans{}, err
	}
	pair := c.unclear()
	if pair == nil {
		return Plans{Plan: plan}, nil
	}
	apart, err := m.Plan([]string{pair.A, pair.B}, heads, 0)
	return Plans{Plan: plan, Pair: &apart}, err
}

// unclear is the pair of the two quickest ways of a crop where their difference is not clear,
// else the first pair of one crop of which it is not; nil where all are clear.
func (c Comparison) unclear() *Pair {
	isUnclear := func(p Pair) bool { return !p.Clear() }
	for _, crop := range ByCrop(c) {
		quickest := slices.Clone(crop.Workflows)
		slices.SortStableFunc(quickest, func(a, b Hours) int { return cmp.Compare(a.Hours, b.Hours) })
		two := make([]string, 0, 2)
		for _, h := range quickest[:min(2, len(quickest))] {
			two = append(two, h.Workflow)
		}
		i := slices.IndexFunc(crop.Pairs, func(p Pair) bool { return isUnclear(p) && slices.Contains(two, p.A) && slices.Contains(two, p.B) })
		if i >= 0 {
			return &crop.Pairs[i]
		}
	}
	pairs := OfOneCrop(c.Pairs)
	if i := slices.IndexFunc(pairs, isUnclear); i >= 0 {
		return &pairs[i]
	}
	return nil
}
