package timing

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
	Days  int       // a multiple of 7; 0 is DefaultSeason
}

// DefaultSeason is how many days a season has where the study does not say.
const DefaultSeason = 364

// Length is how many days the season has.
func (s Season) Length() int {
	if s.Days == 0 {
		return DefaultSeason
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

// starts are the days on which grows are sown in a season of so many days.
func (s Sowing) starts(days int) []int {
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

// yield is what a grow gives on one of its days.
type yield struct {
	day   int
	heads float64
	kg    Maybe
}

// harvestDay is the first day on which a task counts heads, or the last task's day.
func (w Workflow) harvestDay() int {
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

// yields are what a grow of so many heads gives, day by day. Kilograms are unknown
// where neither cuts nor a weight of heads tell them.
func (s Study) yields(w Workflow, heads float64) []yield {
	counts := s.sowing(w).Counts()
	weight := s.kgPerHead(w).Times(heads)
	if len(w.Cuts) > 0 {
		weight = Known(0)
	}
	list := []yield{{day: w.harvestDay(), heads: heads, kg: weight}}
	for _, c := range w.Cuts {
		list = append(list, yield{day: c.Day, kg: Known(c.Kg * counts.Count(crop.Plants, c.Day, heads))})
	}
	return list
}

// units are how many units heads and kilograms make.
func (s Sale) units(heads float64, kg Maybe) Maybe {
	if s.Kg > 0 {
		return kg.Times(1 / s.Kg)
	}
	return Known(heads / s.Heads)
}

// sold is the part of units that is sold.
func (s Sale) sold(units Maybe) Maybe { return units.Times(s.Share) }

// gives tells what a grow gives, in kilograms and in units.
func (c *GrowCost) gives(s Study, w Workflow, heads float64) {
	c.Gives = s.harvest(w, heads).inHours(Known(c.Hours), Maybe{}, Maybe{})
	c.Kg, c.Unit, c.Units = c.Gives.Kg, c.Gives.Unit, c.Gives.Units
	if w.Crop != "" {
		c.Crop = &w.Crop
	}
}

// revenue is what units bring that are sold.
func (s Sale) revenue(sold Maybe) Maybe { return s.Price.by(sold) }

// by is the product of two numbers, unknown where one is.
func (m Maybe) by(o Maybe) Maybe {
	if !o.Known {
		return Maybe{}
	}
	return m.Times(o.Value)
}

// and is the sum of two numbers, unknown where one is.
func (m Maybe) and(o Maybe) Maybe {
	if !o.Known {
		return Maybe{}
	}
	return m.Plus(o.Value)
}

// over is a quotient, unknown where a part is or it is of nothing.
func (m Maybe) over(o Maybe) Maybe {
	if !m.Known || !o.Known || o.Value == 0 {
		return Maybe{}
	}
	return Known(m.Value / o.Value)
}

// sharedTask says whether a task of a step, in any workflow, is said to serve several
// grows.
func (s Study) sharedTask(step string) bool {
	return slices.ContainsFunc(s.Workflows, func(w Workflow) bool {
		return slices.ContainsFunc(w.Tasks, func(t Task) bool { return t.Step == step && t.SharedBy > 1 })
	})
}

// sown are the workflows that the study's sowings name.
func (s Study) sown() []Workflow {
	workflows := []Workflow{}
	for _, w := range s.Workflows {
		if slices.ContainsFunc(s.Sowings, func(o Sowing) bool { return o.Workflow == w.Name }) {
			workflows = append(workflows, w)
		}
	}
	return workflows
}
