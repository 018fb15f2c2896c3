package answer_test

import "math"

// aPurse is what a season's sowings share in.
type aPurse struct{ own, hired, overhead float64 }

// money works out weeks and money: all weeks' hours once as they are, and with so much less
// and more.
func (a *aPlace) money(row tree, hours, low, high, earn float64) aPurse {
	weeks, busy := []any{}, []float64{}
	free := math.Inf(1)
	if l := a.study.Labour; l != nil && l.OwnHours.Known {
		free = l.OwnHours.Value
	}
	var heads, kg, revenue float64
	for w := range a.days / 7 {
		form, _ := a.sumForm(func(day int, _ aPiece) bool { return day/7 == w })
		s := a.span(form, nil).ofTime()
		worked := a.standard(s.value)
		busy = append(busy, worked)
		var weekHeads, weekKg, weekRevenue float64
		for g := range a.grows {
			for day, h := range a.gives[g] {
				if day/7 == w {
					weekHeads, weekKg, weekRevenue = weekHeads+a.headsOn(g, day), weekKg+h.kg, weekRevenue+h.revenue
				}
			}
			if !a.weighs(g) {
				weekKg = math.NaN()
			}
			if !a.sells(g) {
				weekRevenue = math.NaN()
			}
		}
		heads, kg, revenue = heads+weekHeads, kg+weekKg, revenue+weekRevenue
		weeks = append(weeks, tree{"week": w, "date": a.date(7 * w), "hours_h": worked, "low_h": a.standard(s.low), "high_h": a.standard(s.high),
			"own_h": min(worked, free), "hired_h": max(0, worked-free), "heads": weekHeads, "kg": weekKg, "revenue": weekRevenue})
	}
	row["weeks"], row["heads"], row["kg"], row["revenue"] = weeks, heads, kg, revenue
	at := firstGreatest(busy)
	row["busiest_week"] = tree{"week": at, "hours_h": busy[at]}
	supplies, space, overhead := 0.0, 0.0, 0.0
	for i, g := range a.grows {
		_, bought := a.bought(g.way, g.heads)
		supplies += bought
		if a.study.SpacePrice.Known {
			space += a.grow2[i] * a.study.SpacePrice.Value
		}
	}
	for _, o := range a.study.Overheads {
		overhead += o.PerYear * float64(a.days) / 365
	}
	earned := func(f float64) (own, hired, margin float64) {
		var hiredHours float64
		for _, h := range busy {
			own, hiredHours = own+min(f*h, free), hiredHours+max(0, f*h-free)
		}
		if a.study.Labour != nil {
			hired = hiredHours * a.perHour()
		}
		return own, hired, revenue - supplies - space - overhead - hired
	}
	own, hired, margin := earned(1)
	perOwn := func(own, margin float64) float64 {
		if !(own > 0) {
			return math.NaN()
		}
		return margin / own
	}
	ownLow, _, marginLow := earned(low)
	ownHigh, _, marginHigh := earned(high)
	if math.IsNaN(low + high) { // without limits
		marginLow, marginHigh = math.NaN(), math.NaN()
	}
	least := func(x, y, z float64) float64 { return math.Min(math.Min(x, y), z) }
	most := func(x, y, z float64) float64 { return math.Max(math.Max(x, y), z) }
	row["own_h"], row["hired_h"], row["hired"], row["overhead"], row["supplies"], row["space"] = own, hours-own, hired, overhead, supplies, space
	row["margin"], row["margin_low"], row["margin_high"] = margin, least(margin, marginLow, marginHigh), most(margin, marginLow, marginHigh)
	all := []float64{perOwn(own, margin), perOwn(ownLow, marginLow), perOwn(ownHigh, marginHigh)}
	row["per_own_hour"], row["per_own_hour_low"], row["per_own_hour_high"] = all[0], least(all[0], all[1], all[2]), most(all[0], all[1], all[2])
	row["price_factor"] = (earn*own + hired + supplies + space + overhead) / revenue
	return aPurse{own, hired, overhead}
}

// weighs says whether a grow's kilograms are known, sells whether what they bring is.
func (a *aPlace) weighs(g int) bool {
	w := a.grows[g].way
	return !math.IsNaN(a.kilograms(w, a.grows[g].heads, always))
}

func (a *aPlace) sells(g int) bool {
	w := a.grows[g].way
	return !math.IsNaN(a.harvest(w, a.grows[g].heads, a.kilograms(w, a.grows[g].heads, always)).revenue)
}

func (a *aPlace) sowings(purse aPurse, earn float64) []any {
	var rows []any
	var worked []float64
	var all float64
	for i := range a.study.Sowings {
		form, _ := a.sumForm(func(_ int, x aPiece) bool { return x.grow >= 0 && a.grows[x.grow].sowing == i })
		worked = append(worked, a.standard(a.value(form, nil, asUnit).point))
		all += worked[i]
	}
	for i, s := range a.study.Sowings {
		w, _ := a.study.OneWorkflow(s.Workflow)
		row := tree{"workflow": w.Name, "crop": textOr(w.Crop), "every_days": known(s.EveryDays > 0, float64(s.EveryDays)), "unit": a.saleOf(w).Unit,
			"hours_h": worked[i], "share": worked[i] / all}
		var heads, cells, units, sold, kg, revenue, supplies, space float64
		grows, short, first, last := 0, 0, -1, 0
		for g, grow := range a.grows {
			if grow.sowing != i {
				continue
			}
			grows, last = grows+1, grow.start
			if first < 0 {
				first = grow.start
			}
			if a.short[g] {
				short++
			}
			cells += a.growing(w).cells(grow.heads)
			for day, h := range a.gives[g] {
				heads, units, sold, kg, revenue = heads+a.headsOn(g, day), units+h.units, sold+h.sold, kg+h.kg, revenue+h.revenue
			}
			if !a.weighs(g) {
				kg = math.NaN()
			}
			if !a.sells(g) {
				revenue = math.NaN()
			}
			if a.saleOf(w).Kg > 0 && !a.weighs(g) {
				units, sold = math.NaN(), math.NaN()
			}
			_, bought := a.bought(w, grow.heads)
			supplies += bought
			if a.study.SpacePrice.Known {
				space += a.grow2[g] * a.study.SpacePrice.Value
			}
		}
		row["heads"], row["cells"], row["units"], row["sold"], row["kg"], row["revenue"] = heads, cells, units, sold, kg, revenue
		row["supplies"], row["space"] = supplies, space
		row["grows"], row["cut_short"], row["first_day"], row["last_day"] = grows, short, first, last
		row["price_needed"] = ((earn*purse.own+purse.hired+purse.overhead)*worked[i]/all + supplies + space) / sold
		rows = append(rows, row)
	}
	return rows
}
