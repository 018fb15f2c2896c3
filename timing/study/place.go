package study

import (
	"math"
	"slices"
	"time"

	"headhours/timing/crop"
)

// Cut is what each plant that is alive on a day gives when it is cut then.
type Cut struct {
	Day int
	Kg  float64
}

// Sale is how a crop is sold: by so many heads or so many kilograms a unit.
type Sale struct {
	Unit  string  // what is sold: head, bag
	Heads float64 // in one unit; 0 where it is sold by weight
	Kg    float64 // in one unit; 0 where it is sold by heads
	Price Maybe   // of one unit, in the study's currency
	Share float64 // of what is harvested that is sold
}

// Overhead is a cost that comes whatever is grown.
type Overhead struct {
	Name    string
	PerYear float64 // in the study's currency
}

// Season is the stretch of days that the whole place is answered for.
type Season struct {
	Start time.Time // zero where days are only numbered
	Days  int       // a multiple of 7; 0 is defaultSeason
}

// defaultSeason is how many days a season has where the study does not say.
const defaultSeason = 364

// Length is how many days the season has.
func (s Season) Length() int {
	if s.Days == 0 {
		return defaultSeason
	}
	return s.Days
}

// Date is the date of a day of the season, or nil where days are only numbered.
func (s Season) Date(day int) *string {
	if s.Start.IsZero() {
		return nil
	}
	date := s.Start.AddDate(0, 0, day).Format(time.DateOnly)
	return &date
}

// Sowing is grows of one workflow that are sown one after another.
type Sowing struct {
	Workflow     string
	Heads, Cells Maybe // of one grow: one of the two
	EveryDays    int   // 0: once
	From         int   // day of the season
	Until        *int  // the last day on which it may be sown, included; nil: the season's last
}

// last is the last day on which a grow may be sown.
func (s Sowing) last(days int) int {
	if s.Until == nil {
		return days - 1
	}
	return min(*s.Until, days-1)
}

// Starts are the days on which grows are sown in a season of so many days.
func (s Sowing) Starts(days int) []int {
	starts := []int{s.From}
	if s.EveryDays == 0 {
		return starts
	}
	for day := s.From + s.EveryDays; day <= s.last(days); day += s.EveryDays {
		starts = append(starts, day)
	}
	return starts
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

// Yield is what a grow gives on one of its days.
type Yield struct {
	Day   int
	Heads float64
	Kg    Maybe
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

// Units are how many units heads and kilograms make.
func (s Sale) Units(heads float64, kg Maybe) Maybe {
	if s.Kg > 0 {
		return kg.Times(1 / s.Kg)
	}
	return Known(heads / s.Heads)
}

// Sold is the part of units that is sold.
func (s Sale) Sold(units Maybe) Maybe { return units.Times(s.Share) }

// Revenue is what units bring that are sold.
func (s Sale) Revenue(sold Maybe) Maybe { return s.Price.By(sold) }

// By is the product of two numbers, unknown where one is.
func (m Maybe) By(o Maybe) Maybe {
	if !o.Known {
		return Maybe{}
	}
	return m.Times(o.Value)
}

// And is the sum of two numbers, unknown where one is.
func (m Maybe) And(o Maybe) Maybe {
	if !o.Known {
		return Maybe{}
	}
	return m.Plus(o.Value)
}

// Over is a quotient, unknown where a part is or it is of nothing.
func (m Maybe) Over(o Maybe) Maybe {
	if !m.Known || !o.Known || o.Value == 0 {
		return Maybe{}
	}
	return Known(m.Value / o.Value)
}

// SharedTask says whether a task of a step, in any workflow, is said to serve several
// grows.
func (s Study) SharedTask(step string) bool {
	return slices.ContainsFunc(s.Workflows, func(w Workflow) bool {
		return slices.ContainsFunc(w.Tasks, func(t Task) bool { return t.Step == step && t.SharedBy > 1 })
	})
}

// Sown are the workflows that the study's sowings name.
func (s Study) Sown() []Workflow {
	workflows := []Workflow{}
	for _, w := range s.Workflows {
		if slices.ContainsFunc(s.Sowings, func(o Sowing) bool { return o.Workflow == w.Name }) {
			workflows = append(workflows, w)
		}
	}
	return workflows
}

// LeavesGermination says that the study's germination is a workflow's.
func (w Workflow) LeavesGermination() bool { return !w.Bought && w.Germination == nil }
