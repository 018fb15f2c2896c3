package answer

import (
	"headhours/timing/condense"
	"headhours/timing/study"
)

// Harvest is what one grow of a way of working gives, as it is sold.
type Harvest struct {
	Crop        string // "" where the study names none
	Bought      bool   // young plants are bought, nothing is sown
	Kg          study.Maybe
	Unit        string      // what is sold
	Units, Sold study.Maybe // harvested; the part of it that is sold
	ByHead      bool        // every head is sold by itself, so a unit says no more than a head
	Weighs      bool        // the study speaks of kilograms: cuts, a head's weight, or sale by weight
	// Minutes of the grow's tasks for a unit that is sold, and their interval.
	Minutes, MinutesLow, MinutesHigh study.Maybe
}

// More says that a harvest is more than so many heads, each sold by itself.
func (h Harvest) More() bool { return !h.ByHead || h.Weighs }

// harvest is what one grow of so many heads gives.
func harvest(s study.Study, w study.Workflow, heads float64) Harvest {
	kg := study.Known(0)
	for _, y := range s.Yields(w, heads) {
		kg = kg.And(y.Kg)
	}
	sale := s.SaleOf(w)
	units := sale.Units(heads, kg)
	return Harvest{
		Crop: w.Crop, Bought: w.Bought, Kg: kg, Unit: sale.Unit, Units: units, Sold: sale.Sold(units),
		ByHead: sale.Unit == "head" && sale.Heads == 1 && sale.Kg == 0 && sale.Share == 1,
		Weighs: len(w.Cuts) > 0 || w.HeadWeight.Known || sale.Kg > 0,
	}
}

// inHours are a harvest's minutes, from the hours that its grow takes.
func (h Harvest) inHours(hours, low, high study.Maybe) Harvest {
	aUnit := func(m study.Maybe) study.Maybe { return m.Times(60).Over(h.Sold) }
	h.Minutes, h.MinutesLow, h.MinutesHigh = aUnit(hours), aUnit(low), aUnit(high)
	return h
}

// Measure is what ways of one crop are fairly compared by: the unit that all of them
// sell, else a kilogram where the weight of all is known. ByHead says that a head is
// that unit in each of them; ok is false where there is no common measure.
type Measure struct {
	Unit   string
	ByHead bool
	amount func(Harvest) study.Maybe
}

// measureOf is the common measure of what ways of one crop give.
func measureOf(all []Harvest) (by Measure, ok bool) {
	oneUnit, weighs, sold := true, true, true
	by = Measure{Unit: all[0].Unit, ByHead: true, amount: func(h Harvest) study.Maybe { return h.Sold }}
	for _, h := range all {
		oneUnit = oneUnit && h.Unit == by.Unit
		by.ByHead = by.ByHead && h.ByHead
		sold = sold && h.Sold.Known && h.Sold.Value > 0
		weighs = weighs && h.Kg.Known && h.Kg.Value > 0
	}
	if oneUnit && (sold || by.ByHead) {
		return by, true
	}
	return Measure{Unit: "kilogram", amount: func(h Harvest) study.Maybe { return h.Kg }}, weighs
}

// aUnitMore sets two ways beside each other by what they sell; nil where a head says it
// already, or nothing does.
func (m *Models) aUnitMore(a, b *comparedWorkflow, givesA, givesB Harvest) *UnitDifference {
	by, ok := measureOf([]Harvest{givesA, givesB})
	if !ok || by.ByHead {
		return nil
	}
	none := make(linear, len(m.Steps))
	d := none.plus(b.loads, 1/by.amount(givesB).Value).plus(a.loads, -1/by.amount(givesA).Value)
	span := m.span(workload{loads: d}).times(m.perHour() * 60)
	return &UnitDifference{by.Unit, span.Value, span.Low, span.High}
}

// crops are the places of harvests by their crop, in order of first mention.
func crops(all []Harvest) [][]int {
	var order condense.Index[string]
	var groups [][]int
	for i, h := range all {
		at := int(order.Of(h.Crop))
		if at == len(groups) {
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], i)
	}
	return groups
}

// CropComparison is the ways of working of one crop, which alone are compared.
type CropComparison struct {
	Crop string // "" of ways without one
	Comparison
}

// ByCrop is a comparison with the ways of each crop apart, in order of first mention:
// one part where the study names no crop.
func ByCrop(c Comparison) []CropComparison {
	gives := make([]Harvest, len(c.Workflows))
	for i, h := range c.Workflows {
		gives[i] = h.Gives
	}
	var parts []CropComparison
	for _, group := range crops(gives) {
		part := CropComparison{Crop: gives[group[0]].Crop, Comparison: c}
		part.Workflows, part.Pairs = nil, nil
		of := map[string]bool{}
		for _, i := range group {
			part.Workflows = append(part.Workflows, c.Workflows[i])
			of[c.Workflows[i].Workflow] = true
		}
		for _, p := range c.Pairs {
			if of[p.A] && of[p.B] {
				part.Pairs = append(part.Pairs, p)
			}
		}
		parts = append(parts, part)
	}
	return parts
}

// OfOneCrop are the pairs of ways that are of one crop.
func OfOneCrop(pairs []Pair) []Pair {
	of := []Pair{}
	for _, p := range pairs {
		if !p.OtherCrop {
			of = append(of, p)
		}
	}
	return of
}

// gave is what a grow gave that was noted, as its way sells it.
func gave(s study.Study, w study.Workflow, g study.Grow) Harvest {
	h := harvest(s, w, g.Heads.Value)
	h.Kg = g.Weight
	h.Units = s.SaleOf(w).Units(g.Heads.Value, h.Kg)
	h.Sold = s.SaleOf(w).Sold(h.Units)
	return h
}

// byUnit compares whole grows by what they sold, where that says more than heads.
func (p *MeasuredPair) byUnit(a, b []MeasuredGrow, confidence float64) {
	var all []Harvest
	for _, g := range append(append([]MeasuredGrow{}, a...), b...) {
		all = append(all, g.Gives)
	}
	if len(a) == 0 || len(b) == 0 {
		return
	}
	by, ok := measureOf(all)
	if !ok || by.ByHead {
		return
	}
	minutes := func(grows []MeasuredGrow) []float64 {
		list := make([]float64, len(grows))
		for i, g := range grows {
			list[i] = g.Minutes / by.amount(g.Gives).Value
		}
		return list
	}
	pair := welch(minutes(a), minutes(b), confidence)
	p.AUnit, p.Unit = &pair, by.Unit
}
