package timing

// SeasonMoney is a season's money, in the study's currency.
type SeasonMoney struct {
	Revenue        Maybe   `json:"revenue"`
	Supplies       float64 `json:"supplies"`
	SpaceCost      float64 `json:"space"`
	Overhead       float64 `json:"overhead"`
	HiredCost      float64 `json:"hired"`
	Margin         Maybe   `json:"margin"`
	MarginLow      Maybe   `json:"margin_low"`
	MarginHigh     Maybe   `json:"margin_high"`
	PerOwnHour     Maybe   `json:"per_own_hour"`
	PerOwnHourLow  Maybe   `json:"per_own_hour_low"`
	PerOwnHourHigh Maybe   `json:"per_own_hour_high"`
	PriceFactor    Maybe   `json:"price_factor"`
}

// daysInYear spreads what is paid by the year.
const daysInYear = 365

// money works out what the season brings and costs, what an own hour earns, and what would
// have to be charged.
func (p *SeasonPlan) money(m *Models) {
	p.Revenue = Known(0)
	for _, s := range p.Sowings {
		p.Revenue = p.Revenue.and(s.Revenue)
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
	bought := p.Supplies + p.SpaceCost + p.Overhead
	margin := func(hired float64) Maybe { return p.Revenue.Plus(-bought - hired*perHour) }
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
	p.PriceFactor = work.Plus(bought).over(p.Revenue)
	for k := range p.Sowings {
		s := &p.Sowings[k]
		s.PriceNeeded = work.Plus(p.Overhead).by(s.Share).Plus(s.Supplies + s.Space).over(s.Sold)
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
func perOwn(margin Maybe, own float64) Maybe {
	if own <= 0 {
		return Maybe{}
	}
	return margin.Times(1 / own)
}

// outermost is the least and the greatest of three, unknown where one is.
func outermost(a, b, c Maybe) (low, high Maybe) {
	if !a.Known || !b.Known || !c.Known {
		return Maybe{}, Maybe{}
	}
	return Known(min(a.Value, b.Value, c.Value)), Known(max(a.Value, b.Value, c.Value))
}

// space finds the day on which most space is in use, and the days on which there is not
// enough.
func (p *SeasonPlan) space(lay *layout) {
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
