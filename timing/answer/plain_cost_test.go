package answer_test

import (
	"math"
	"slices"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestScaleBySecondWay(t *testing.T) {
	forCases(t, 40, func(t *testing.T, p *plain) {
		got, err := p.models().Scale(nil, nil)
		require.NoError(t, err)
		heads := []int{10, 20, 50, 100, 200, 500, 1000, 2000, 5000}
		if p.study.Heads > 0 {
			heads = append(heads, p.study.Heads)
		}
		slices.Sort(heads)
		lines := []any{}
		for _, w := range p.study.Workflows {
			points, line := []any{}, tree{"workflow": w.Name}
			for _, h := range heads {
				q := *p
				q.heads = h
				row := q.hours(w)
				line["gaps"] = row["gaps"]
				points = append(points, tree{"heads": h, "hours_h": row["hours_h"], "low_h": row["low_h"], "high_h": row["high_h"],
					"minutes_per_head": row["minutes_per_head"], "extrapolated": row["extrapolated"]})
			}
			line["points"] = points
			lines = append(lines, line)
		}
		sameJSON(t, tree{"confidence": p.confidence, "common": p.effect.common(), "workflows": lines}, got, "scale")
	})
}

func TestCostBySecondWay(t *testing.T) {
	forCases(t, 80, func(t *testing.T, p *plain) {
		got, err := p.models().Cost(nil, p.heads, answer.WhatIf{})
		require.NoError(t, err)
		rows := []any{}
		for _, w := range p.study.Workflows {
			rows = append(rows, p.cost(w))
		}
		sameJSON(t, tree{"heads": p.heads, "currency": textOr(p.study.Currency), "common": p.effect.common(), "workflows": rows}, got, "cost")
	})
}

// aHarvest is what a grow gives; NaN is what is not known.
type aHarvest struct {
	sale            study.Sale
	kg, units, sold float64
	revenue         float64
}

func (p *plain) saleOf(w study.Workflow) study.Sale {
	switch {
	case w.Sale != nil:
		return *w.Sale
	case p.study.Sale != nil:
		return *p.study.Sale
	}
	return study.Sale{Unit: "head", Heads: 1, Price: p.study.PricePerHead, Share: 1}
}

// kilograms of cuts on days of a grow that are in a season, or of its heads.
func (p *plain) kilograms(w study.Workflow, heads float64, in func(day int) bool) float64 {
	g := p.growing(w)
	var kg, weighed, counted float64
	for _, c := range w.Cuts {
		if in(c.Day) {
			kg += c.Kg * g.whole("plants", c.Day, heads)
		}
	}
	for _, grow := range p.study.Grows {
		if grow.Workflow == w.Name && grow.Weight.Known && grow.Heads.Known {
			weighed, counted = weighed+grow.Weight.Value, counted+grow.Heads.Value
		}
	}
	switch {
	case len(w.Cuts) > 0:
		return kg
	case !in(harvestDay(w)):
		heads = 0
	}
	if w.HeadWeight.Known {
		return heads * w.HeadWeight.Value
	}
	return heads * (weighed / counted)
}

// harvestDay is the first on which a task counts heads, else that of the last task.
func harvestDay(w study.Workflow) int {
	var picked, all []int
	for _, t := range w.Tasks {
		all = append(all, t.Days...)
		if t.Count == "heads" {
			picked = append(picked, t.Days...)
		}
	}
	if len(picked) > 0 {
		return slices.Min(picked)
	}
	return slices.Max(all)
}

func orNaN(m study.Maybe) float64 {
	if m.Known {
		return m.Value
	}
	return math.NaN()
}

func (p *plain) harvest(w study.Workflow, heads, kg float64) aHarvest {
	h := aHarvest{sale: p.saleOf(w), kg: kg}
	if h.units = heads / h.sale.Heads; h.sale.Kg > 0 {
		h.units = kg / h.sale.Kg
	}
	h.sold = h.units * h.sale.Share
	h.revenue = h.sold * orNaN(h.sale.Price)
	return h
}

func always(int) bool { return true }

// supplies and space of a grow.
func (p *plain) bought(w study.Workflow, heads float64) (lines []any, sum float64) {
	g := p.growing(w)
	for _, s := range p.study.Supplies {
		if s.Workflows != nil && !slices.Contains(s.Workflows, w.Name) {
			continue
		}
		day := -1 // before any loss
		if s.Day != nil {
			day = *s.Day
		}
		amount := s.Price * g.whole(s.Count, day, heads) * s.Each / s.Uses
		sum += amount
		lines = append(lines, tree{"name": s.Name, "kind": "supply", "amount": amount, "per_head": amount / heads})
	}
	return lines, sum
}

// squareMetres are those of a grow on each of its days, days outside being left out.
func (p *plain) squareMetres(w study.Workflow, heads float64) map[int]float64 {
	g, use := p.growing(w), map[int]float64{}
	for _, s := range w.Space {
		for day := s.From; day < s.To; day++ {
			use[day] += s.M2 * g.whole(s.Count, s.From, heads)
		}
	}
	return use
}

// choreLoad is a doing of a chore.
func (p *plain) choreLoad(c study.Chore) aLoad {
	i := p.index(c.Step)
	return aLoad{i, 1, setupsFor(p.steps[i].Step, c.Count), c.Count}
}

func (p *plain) cost(w study.Workflow) tree {
	heads := float64(p.heads)
	visits, _ := p.visits(w, heads, p.study.SowEveryDays)
	list, chores := loads(visits), []aLoad{}
	steps := order(list)
	gaps := p.gapsOf(steps)
	addGap := func(name string) {
		if !slices.Contains(gaps, any(name)) {
			gaps = append(gaps, name)
		}
	}
	perHour, lines := math.NaN(), []any{}
	if l := p.study.Labour; l != nil {
		perHour = l.Wage * (1 + l.OnCost)
	}
	line := func(name, kind string, amount float64) {
		lines = append(lines, tree{"name": name, "kind": kind, "amount": amount, "per_head": amount / heads})
	}
	amountOf := func(l aLoad) float64 {
		if p.answering(l.step).gap {
			return math.NaN()
		}
		return p.stepHours(l) * perHour
	}
	for _, l := range list {
		line(p.steps[l.step].Name, "labour", amountOf(l))
	}
	for _, c := range p.study.Chores {
		l := p.choreLoad(c)
		if p.study.SowEveryDays == 0 || p.answering(l.step).gap {
			addGap(c.Step)
			line(c.Step, "chore", math.NaN())
			continue
		}
		f := float64(p.study.SowEveryDays) / float64(c.EveryDays)
		l.setups, l.count = l.setups*f, l.count*f
		chores = append(chores, l)
		line(c.Step, "chore", amountOf(l))
	}
	tasks := p.span(p.form(list), nil).ofTime()
	s := p.span(p.form(append(list, chores...)), nil).ofTime()
	hours, low, high := p.standard(s.value), p.standard(s.low), p.standard(s.high)
	supplyLines, supplies := p.bought(w, heads)
	lines = append(lines, supplyLines...)
	space := 0.0
	if p.study.SpacePrice.Known {
		for _, m2 := range p.squareMetres(w, heads) {
			space += m2 * p.study.SpacePrice.Value
		}
		line("space", "space", space)
	}
	h := p.harvest(w, heads, p.kilograms(w, heads, always))
	total := func(hours float64) float64 { return hours*perHour + supplies + space }
	back := (h.revenue - supplies - space) / hours
	if hours <= 0 {
		back = math.NaN()
	}
	return tree{"workflow": w.Name, "hours_h": p.standard(tasks.value), "chores_h": hours - p.standard(tasks.value), "labour": hours * perHour,
		"supplies": supplies, "space": space, "total": total(hours), "per_head": total(hours) / heads,
		"per_head_low": total(low) / heads, "per_head_high": total(high) / heads, "labour_per_head": hours * perHour / heads,
		"return_per_hour": back, "gaps": gaps, "lines": lines, "crop": textOr(w.Crop), "kg": h.kg, "unit": h.sale.Unit, "units": h.units,
		"per_unit": total(hours) / h.sold, "per_unit_low": total(low) / h.sold, "per_unit_high": total(high) / h.sold,
		"per_kg": total(hours) / h.kg, "minutes_per_unit": p.standard(tasks.value) * 60 / h.sold}
}
