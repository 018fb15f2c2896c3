package answer

import (
	"slices"

	"headhours/timing/study"
)

// Trial is a plan beside the study's own.
type Trial struct {
	Plan       SeasonPlan
	Difference float64 // hours of the trial less the study's own
	Low, High  study.Maybe
	Margin     study.Maybe // likewise
}

// TrySeason works out the season with other sowings than the study's: of each workflow
// named its sowings are replaced by the one given, or that is added. The study's own plan
// is to be of the same models. The errors are ErrNoSowing and an UnknownName.
func TrySeason(m *Models, own SeasonPlan, earn study.Maybe, sowings []study.Sowing) (Trial, error) {
	st := m.Study
	st.Sowings = slices.Clone(st.Sowings)
	for _, s := range sowings {
		w, err := st.Workflow(s.Workflow)
		if err != nil {
			return Trial{}, err
		}
		s.Workflow = w.Name
		k := slices.IndexFunc(st.Sowings, func(o study.Sowing) bool { return o.Workflow == s.Workflow })
		others := slices.DeleteFunc(st.Sowings, func(o study.Sowing) bool { return o.Workflow == s.Workflow })
		if k < 0 || k > len(others) {
			k = len(others)
		}
		st.Sowings = slices.Insert(others, k, s)
	}
	other := m.with(st)
	plan, err := PlanSeason(other, earn)
	if err != nil {
		return Trial{}, err
	}
	span := m.span(workload{loads: plan.loads.minus(own.loads)}).times(m.perHour())
	return Trial{Plan: plan, Difference: span.Value, Low: span.Low, High: span.High,
		Margin: plan.Margin.And(own.Margin.Times(-1))}, nil
}

// Filled is how much more, or less, of everything fits one's own hours and space.
type Filled struct {
	Factor study.Maybe `json:"factor"`  // on the heads of all sowings; unknown where nothing ends it
	EndsBy string      `json:"ends_by"` // FullHours or FullSpace; "" where nothing does
	Week   *int        `json:"week"`    // the first one that would be too full
	Day    *int        `json:"day"`
}

// What ends a season that is filled.
const (
	fullHours = "own hours"
	fullSpace = "space"
)

// maxFilled is the largest factor that is looked at.
const maxFilled = 1e6

// FillSeason finds the largest factor on all sowings' heads at which no week exceeds the
// own hours and no day the square metres there are. The error is ErrNoSowing.
func FillSeason(m *Models) (Filled, error) {
	if len(m.Study.Sowings) == 0 {
		return Filled{}, ErrNoSowing
	}
	low, high := 0.0, 1.0
	for m.full(high).EndsBy == "" {
		if low, high = high, 2*high; high > maxFilled {
			return Filled{}, nil
		}
	}
	for high-low > 1e-9*high {
		middle := low + (high-low)/2
		if m.full(middle).EndsBy == "" {
			low = middle
		} else {
			high = middle
		}
		if high < 1e-6 {
			low = 0
			break
		}
	}
	end := m.full(high)
	end.Factor = study.Known(low)
	return end, nil
}

// full says what is too full with so many times the heads, and where first.
func (m *Models) full(factor float64) Filled {
	study := m.Study
	study.Sowings = slices.Clone(study.Sowings)
	for k := range study.Sowings {
		s := &study.Sowings[k]
		s.Heads, s.Cells = s.Heads.Times(factor), s.Cells.Times(factor)
	}
	lay := layOut(m.with(study))
	if study.SpaceM2.Known {
		for day, m2 := range lay.m2 {
			if m2 > study.SpaceM2.Value*(1+alikeHours) {
				return Filled{EndsBy: fullSpace, Day: &day}
			}
		}
	}
	if study.Labour == nil || !study.Labour.OwnHours.Known {
		return Filled{}
	}
	for week := range lay.days / 7 {
		if m.evaluate(workload{loads: lay.week(week)}, asModelled).value*m.perHour() > study.Labour.OwnHours.Value*(1+alikeHours) {
			return Filled{EndsBy: fullHours, Week: &week}
		}
	}
	return Filled{}
}
