package answer

import (
	"math"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// PlanSeason answers for the whole place: all sowings of the study and its chores, in its
// season. earn is what an hour of one's own is to earn; unknown is what an hour of labour
// costs. The error is ErrNoSowing.
func PlanSeason(m *Models, earn study.Maybe) (SeasonPlan, error) {
	if len(m.Study.Sowings) == 0 {
		return SeasonPlan{}, ErrNoSowing
	}
	s := m.Study
	lay := layOut(m)
	if !earn.Known && s.Labour != nil {
		earn = study.Known(s.Labour.PerHour())
	}
	p := SeasonPlan{
		Start: s.Season.Date(0), Days: lay.days, Confidence: m.Confidence, Common: m.common(), Earn: earn,
		Sowings: lay.sown, Weeks: []SeasonWeek{}, Steps: []SeasonStep{}, Changes: []SeasonSaving{},
		Gaps: []string{}, Notes: m.notes(s.Sown()...), M2: s.SpaceM2, Calendar: lay.calendar(), ByCrop: lay.byCrop(),
	}
	if s.Currency != "" {
		p.Currency = &s.Currency
	}
	if s.Labour != nil {
		p.OwnWeek = s.Labour.OwnHours
	}
	p.loads = lay.total()
	span := m.span(workload{loads: p.loads}).aTime().times(m.perHour())
	p.Hours, p.Low, p.High, p.DF = span.Value, span.Low, span.High, span.DF
	p.weeks(m, lay)
	p.findLongestDay(m, lay)
	p.steps(m, lay)
	p.Kg = study.Known(0)
	for _, sown := range p.Sowings {
		p.Heads += sown.Heads
		p.Kg = p.Kg.And(sown.Kg)
	}
	p.money(m)
	p.changes(m)
	p.space(lay)
	p.Steady = p.steadyWeeks(lay)
	p.Notes = append(p.Notes, lay.notes()...)
	return p, nil
}

func (p *SeasonPlan) weeks(m *Models, lay *seasonLayout) {
	for w := range lay.days / 7 {
		span := m.span(workload{loads: lay.week(w)}).aTime().times(m.perHour())
		week := SeasonWeek{Week: w, Date: m.Study.Season.Date(7 * w), Hours: span.Value, Low: span.Low, High: span.High,
			Heads: lay.heads[w], Kg: lay.kg[w], Revenue: lay.revenue[w]}
		week.Own, week.Hired = p.split(span.Value)
		p.Own += week.Own
		p.Hired += week.Hired
		if week.Hours > p.Busiest.Hours*(1+alikeHours) {
			p.Busiest = BusiestWeek{w, week.Hours}
		}
		p.Weeks = append(p.Weeks, week)
	}
}

func (p *SeasonPlan) findLongestDay(m *Models, lay *seasonLayout) {
	for _, d := range p.Calendar {
		if d.Hours > p.Longest.Hours*(1+alikeHours) {
			p.Longest = LongestDay{Day: d.Day, Hours: d.Hours}
		}
	}
	p.Longest.Date = m.Study.Season.Date(p.Longest.Day)
}

func (p *SeasonPlan) steps(m *Models, lay *seasonLayout) {
	for _, i := range lay.order {
		load := p.loads[i]
		if load == (stepfit.Load{}) {
			continue
		}
		one := m.stepHours(i, 0, load, p.Hours)
		p.Steps = append(p.Steps, SeasonStep{one.Step, one.Setups, one.Count, one.Hours, one.Share})
		if m.Steps[i].isGap() {
			p.Gaps = append(p.Gaps, one.Step)
		}
	}
}

func (p *SeasonPlan) changes(m *Models) {
	for _, c := range m.Study.Changes {
		s := m.saving(c.Name, []study.Change{c}, p.loads, 1)
		saving := SeasonSaving{Name: c.Name, Saved: s.Saved, Low: s.Low, High: s.High, Hygiene: s.Hygiene, Open: s.Open}
		if a := s.Saved.By(p.Earn).Times(1 / float64(p.Days)); c.Outlay.Known && a.Known && s.Saved.Value > 0 {
			saving.Payback = c.Outlay.Over(a)
		}
		p.Changes = append(p.Changes, saving)
	}
}

// steadyWeeks are those from the one in which a first grow of each sowing is done to the last
// one in which each is sown: in them all comes round that does.
func (p *SeasonPlan) steadyWeeks(lay *seasonLayout) SteadyWeeks {
	first, last := 0, math.MaxInt
	for _, g := range lay.grows {
		if g.sowing.EveryDays == 0 {
			continue
		}
		done := g.starts[0]
		for _, v := range g.visits {
			done = max(done, g.starts[0]+v.day)
		}
		first, last = max(first, done), min(last, g.starts[len(g.starts)-1])
	}
	var hours []float64
	sum := 0.0
	for w := first / 7; w <= last/7 && w < len(p.Weeks); w++ {
		hours = append(hours, p.Weeks[w].Hours)
		sum += p.Weeks[w].Hours
	}
	if len(hours) == 0 || last == math.MaxInt { // no sowing comes round
		return SteadyWeeks{}
	}
	return SteadyWeeks{study.Known(sum / float64(len(hours))), study.Known(slices.Min(hours)), study.Known(slices.Max(hours))}
}
