package answer

import (
	"errors"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// SeasonPlan is what the whole place takes and gives in a season, in person-hours of
// standard time and the study's currency. What rests on something unknown is unknown.
type SeasonPlan struct {
	Start      *string        `json:"start"` // nil where days are only numbered
	Days       int            `json:"days"`
	Currency   *string        `json:"currency"`
	Confidence float64        `json:"confidence"`
	Common     Common         `json:"common"`
	Earn       study.Maybe    `json:"earn"` // what an own hour is to earn
	Sowings    []SownInAll    `json:"sowings"`
	Weeks      []SeasonWeek   `json:"weeks"`
	Steps      []SeasonStep   `json:"steps"`
	Changes    []SeasonSaving `json:"changes"`
	Hours      float64        `json:"hours_h"`
	Low        study.Maybe    `json:"low_h"`
	High       study.Maybe    `json:"high_h"`
	DF         study.Maybe    `json:"df"`
	Own        float64        `json:"own_h"`
	Hired      float64        `json:"hired_h"`
	Busiest    BusiestWeek    `json:"busiest_week"`
	Longest    LongestDay     `json:"longest_day"`
	Heads      float64        `json:"heads"`
	Kg         study.Maybe    `json:"kg"`
	SeasonMoney
	PeakM2  float64  `json:"space_peak_m2"`
	PeakDay *int     `json:"space_peak_day"` // nil where nothing is in use
	Over    *[]int   `json:"space_over"`     // nil where the study does not say how much there is
	Gaps    []string `json:"gaps"`
	Notes   []string `json:"notes"`

	M2       study.Maybe   `json:"-"` // what there is
	OwnWeek  study.Maybe   `json:"-"` // own hours of a week
	Steady   study.Maybe   `json:"-"` // hours of a week in the steady part, see steadyWeek
	Calendar []CalendarDay `json:"-"` // days with work
	ByCrop   []CropWeeks   `json:"-"`
	loads    linear
}

// SownInAll is what all grows of one sowing come to.
type SownInAll struct {
	Workflow    string      `json:"workflow"`
	Crop        *string     `json:"crop"`
	Heads       float64     `json:"heads"` // harvested within the season
	Cells       float64     `json:"cells"`
	EveryDays   *int        `json:"every_days"` // nil for once
	FirstDay    int         `json:"first_day"`
	LastDay     int         `json:"last_day"`
	Grows       int         `json:"grows"`
	CutShort    int         `json:"cut_short"`
	Hours       float64     `json:"hours_h"`
	Share       study.Maybe `json:"share"`
	Unit        string      `json:"unit"`
	Units       study.Maybe `json:"units"`
	Sold        study.Maybe `json:"sold"`
	Kg          study.Maybe `json:"kg"`
	Revenue     study.Maybe `json:"revenue"`
	Supplies    float64     `json:"supplies"`
	Space       float64     `json:"space"`
	PriceNeeded study.Maybe `json:"price_needed"`
	Price       study.Maybe `json:"-"` // of a unit, as the study has it
}

// SeasonWeek is one week of a season.
type SeasonWeek struct {
	Week    int         `json:"week"`
	Date    *string     `json:"date"`
	Hours   float64     `json:"hours_h"`
	Low     study.Maybe `json:"low_h"`
	High    study.Maybe `json:"high_h"`
	Own     float64     `json:"own_h"`
	Hired   float64     `json:"hired_h"`
	Heads   float64     `json:"heads"`
	Kg      study.Maybe `json:"kg"`
	Revenue study.Maybe `json:"revenue"`
}

// SeasonStep is one step's part of a season, chores in it.
type SeasonStep struct {
	Step   string      `json:"step"`
	Setups float64     `json:"setups"`
	Count  float64     `json:"count"`
	Hours  study.Maybe `json:"hours_h"`
	Share  study.Maybe `json:"share"`
}

// SeasonSaving is what a change would save in the season.
type SeasonSaving struct {
	Name    string      `json:"name"`
	Saved   study.Maybe `json:"saved_h"`
	Low     study.Maybe `json:"low_h"`
	High    study.Maybe `json:"high_h"`
	Payback study.Maybe `json:"payback_days"`
	Hygiene bool        `json:"-"`
}

// BusiestWeek is the first of the weeks with the most hours.
type BusiestWeek struct {
	Week  int     `json:"week"`
	Hours float64 `json:"hours_h"`
}

// LongestDay is the first of the days with the most hours.
type LongestDay struct {
	Day   int     `json:"day"`
	Date  *string `json:"date"`
	Hours float64 `json:"hours_h"`
}

// CropWeeks is a crop's hours week by week; chores are one of their own, named "chores".
type CropWeeks struct {
	Crop  string
	Hours []float64
}

// ErrNoSowing says that the study has no sowing to answer for.
var ErrNoSowing = errors.New("the study has no [[sowing]], so there is no season to answer for")

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
	p.Steady = p.steadyWeek()
	p.Notes = append(p.Notes, lay.notes()...)
	return p, nil
}

// alikeHours is within what part two hours count as the same.
const alikeHours = 1e-9

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

// split tells the hours of a week that are one's own from those that are hired.
func (p *SeasonPlan) split(hours float64) (own, hired float64) {
	if p.OwnWeek.Known {
		hired = max(0, hours-p.OwnWeek.Value)
	}
	return hours - hired, hired
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
		saving := SeasonSaving{Name: c.Name, Saved: s.Saved, Low: s.Low, High: s.High, Hygiene: s.Hygiene}
		if a := s.Saved.By(p.Earn).Times(1 / float64(p.Days)); c.Outlay.Known && a.Known && s.Saved.Value > 0 {
			saving.Payback = c.Outlay.Over(a)
		}
		p.Changes = append(p.Changes, saving)
	}
}

// steadyWeek is the middle one of the weeks from the one in which all sowings are under
// way to the last one in which any is sown: that is the part that goes on alike. Unknown
// where no week is such.
func (p *SeasonPlan) steadyWeek() study.Maybe {
	first, last := 0, 0
	for _, s := range p.Sowings {
		if s.EveryDays != nil {
			first, last = max(first, s.FirstDay), max(last, s.LastDay)
		}
	}
	for _, w := range p.Weeks {
		if w.Heads > 0 {
			first = max(first, 7*w.Week)
			break
		}
	}
	var hours []float64
	for w := (first + 6) / 7; w <= last/7 && w < len(p.Weeks); w++ {
		hours = append(hours, p.Weeks[w].Hours)
	}
	if len(hours) == 0 {
		return study.Maybe{}
	}
	slices.Sort(hours)
	return study.Known(hours[len(hours)/2])
}

// seasonLayout is a season day by day: what falls on it, and what it gives.
type seasonLayout struct {
	models  *Models
	days    int
	sown    []SownInAll
	grows   []sowingGrows
	loads   []linear // by day: what is done apart, for grows and as chores
	apart   []linear // by day: of that, what is for grows
	joint   []linear // by day: counts of joint steps, setups once all is known
	order   []int    // steps in order of first use
	used    []bool   // by step
	heads   []float64
	kg      []study.Maybe
	revenue []study.Maybe
	m2      []float64 // by day
}
