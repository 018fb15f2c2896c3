package answer

import "headhours/timing/study"

// daysInYear spreads what is paid by the year.
const daysInYear = 365

// money works out what the season brings and costs, what an own hour earns, and what would
// have to be charged.
func (p *SeasonPlan) money(m *Models) {
	p.Revenue = study.Known(0)
	for _, s := range p.Sowings {
		p.Revenue = p.Revenue.And(s.Revenue)
		p.Supplies += s.Supplies
		p.SpaceCost += s.Space
	}
	for _, o := range m.Study.Overheads {
		p.Overhead += o.PerYear * float64(p.Days) / daysInYear
	}
	perHour := 0.0
	if m.Study.Labour != nil {
		perHour = m.Study.Labour.PerHour()
	}
	p.HiredCost = p.Hired * perHour
	otherCosts := p.Supplies + p.SpaceCost + p.Overhead
	margin := func(hired float64) study.Maybe { return p.Revenue.Plus(-otherCosts - hired*perHour) }
	p.Margin = margin(p.Hired)
	p.PerOwnHour = perOwn(p.Margin, p.Own)
	if p.Low.Known && p.Hours > 0 {
		slowOwn, slowHired := p.stretched(p.High.Value / p.Hours)
		quickOwn, quickHired := p.stretched(p.Low.Value / p.Hours)
		slow, quick := margin(slowHired), margin(quickHired)
		p.MarginLow, p.MarginHigh = outermost(p.Margin, slow, quick)
		p.PerOwnHourLow, p.PerOwnHourHigh = outermost(p.PerOwnHour, perOwn(slow, slowOwn), perOwn(quick, quickOwn))
	}
	work := p.Earn.Times(p.Own).Plus(p.HiredCost)
	p.PriceFactor = work.Plus(otherCosts).Over(p.Revenue)
	for k := range p.Sowings {
		s := &p.Sowings[k]
		s.PriceNeeded = work.Plus(p.Overhead).By(s.Share).Plus(s.Supplies + s.Space).Over(s.Sold)
	}
}

// stretched is the own and hired hours of the season if all weeks took so many times as
// long.
func (p *SeasonPlan) stretched(by float64) (own, hired float64) {
	for _, w := range p.Weeks {
		o, h := p.split(w.Hours * by)
		own, hired = own+o, hired+h
	}
	return own, hired
}

// perOwn is what an own hour earns, unknown where there is none.
func perOwn(margin study.Maybe, own float64) study.Maybe {
	if own <= 0 {
		return study.Maybe{}
	}
	return margin.Times(1 / own)
}

// outermost is the least and the greatest of three, unknown where one is.
func outermost(a, b, c study.Maybe) (low, high study.Maybe) {
	if !a.Known || !b.Known || !c.Known {
		return study.Maybe{}, study.Maybe{}
	}
	return study.Known(min(a.Value, b.Value, c.Value)), study.Known(max(a.Value, b.Value, c.Value))
}

// space finds the day on which most space is in use, and the days on which there is not
// enough.
func (p *SeasonPlan) space(lay *seasonLayout) {
	var over []int
	for day, m2 := range lay.m2 {
		if m2 > p.PeakM2*(1+alikeHours) {
			p.PeakM2, p.PeakDay = m2, &day
		}
		if p.M2.Known && m2 > p.M2.Value*(1+alikeHours) {
			over = append(over, day)
		}
	}
	if p.M2.Known {
		p.Over = &over
		if over == nil {
			p.Over = &[]int{}
		}
	}
}
