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

// gave is what a grow gave that was noted, as its way sells it.
func gave(s study.Study, w study.Workflow, g study.Grow) Harvest {
	h := harvest(s, w, g.Heads.Value)
	h.Kg = g.Weight
	h.Units = s.SaleOf(w).Units(g.Heads.Value, h.Kg)
	h.Sold = s.SaleOf(w).Sold(h.Units)
	return h
}
