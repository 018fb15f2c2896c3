package answer_test

import (
	"math"
	"slices"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

// Another plan of sowings is a season of its own; its hours differ by the span of what is
// asked for more and less, so that what both have alike is sure.
func TestTriedSeasonBySecondWay(t *testing.T) {
	forCases(t, 60, func(t *testing.T, p *plain) {
		m := p.models()
		own, err := answer.PlanSeason(m, p.earn)
		require.NoError(t, err)
		other := *p
		w := p.study.Workflows[len(p.study.Workflows)-1].Name
		tried := study.Sowing{Workflow: w, Heads: study.Known(33), EveryDays: 7}
		other.study.Sowings = slices.DeleteFunc(slices.Clone(p.study.Sowings), func(s study.Sowing) bool { return s.Workflow == w })
		at := slices.IndexFunc(p.study.Sowings, func(s study.Sowing) bool { return s.Workflow == w })
		if at < 0 || at > len(other.study.Sowings) {
			at = len(other.study.Sowings)
		}
		other.study.Sowings = slices.Insert(other.study.Sowings, at, tried)
		got, err := answer.TrySeason(m, own, p.earn, []study.Sowing{tried})
		require.NoError(t, err)
		all := func(int, aPiece) bool { return true }
		before, _ := p.walk().sumForm(all)
		after, _ := other.walk().sumForm(all)
		s := p.span(less(after, before), nil)
		sameJSON(t, tree{"difference": p.standard(s.value), "low": p.standard(s.low), "high": p.standard(s.high)},
			tree{"difference": got.Difference, "low": got.Low, "high": got.High}, "tried")
		if want := other.season(); want["hours_h"].(float64) >= 0 {
			sameJSON(t, want, got.Plan, "tried season")
			margin := want["margin"].(float64) - p.season()["margin"].(float64)
			sameJSON(t, tree{"margin": margin}, tree{"margin": got.Margin}, "tried")
		}
	})
}

// As much more of everything as fits does fit, and a little more does not.
func TestFilledSeasonBySecondWay(t *testing.T) {
	ends := map[string]int{}
	forCases(t, 60, func(t *testing.T, p *plain) {
		got, err := answer.FillSeason(p.models())
		require.NoError(t, err)
		ends[got.EndsBy]++
		if !got.Factor.Known || p.season()["hours_h"].(float64) < 0 {
			return
		}
		f := got.Factor.Value
		if f > 0 { // with 0 chores alone are too much
			require.Empty(t, p.tooFull(f*(1-1e-8)), "%v", f)
			require.Equal(t, got.EndsBy, p.tooFull(f*(1+1e-6)), "%v", f)
		}
	})
	for _, by := range []string{"", "own hours", "space"} {
		require.Positive(t, ends[by], by)
	}
}

// tooFull says by what a season with so many times the heads is too full.
func (p *plain) tooFull(factor float64) string {
	q := *p
	q.study.Sowings = slices.Clone(p.study.Sowings)
	for i := range q.study.Sowings {
		s := &q.study.Sowings[i]
		s.Heads.Value, s.Cells.Value = s.Heads.Value*factor, s.Cells.Value*factor
	}
	a := q.walk()
	for _, m2 := range a.m2 {
		if there := a.study.SpaceM2; there.Known && m2 > there.Value*(1+1e-9) {
			return "space"
		}
	}
	if l := a.study.Labour; l != nil && l.OwnHours.Known {
		for w := range a.days / 7 {
			form, _ := a.sumForm(func(day int, _ aPiece) bool { return day/7 == w })
			if a.standard(a.value(form, nil, asUnit).point) > l.OwnHours.Value*(1+1e-9) {
				return "own hours"
			}
		}
	}
	return ""
}

// A fifth more or less of each input is a study of its own.
func TestSensitivityBySecondWay(t *testing.T) {
	moves := map[string]func(s *study.Study, f float64){
		"wage": func(s *study.Study, f float64) {
			s.Labour = &study.Labour{Wage: s.Labour.Wage * f, OnCost: s.Labour.OnCost}
		},
		"on-costs": func(s *study.Study, f float64) {
			s.Labour = &study.Labour{Wage: s.Labour.Wage, OnCost: s.Labour.OnCost * f}
		},
		"allowance": func(s *study.Study, f float64) { s.Allowance *= f },
		"germination": func(s *study.Study, f float64) {
			moved := func(g crop.Germination) crop.Germination { return crop.Germination{Share: min(1, g.Share*f)} }
			s.Germination = moved(s.Germination)
			for i := range s.Workflows {
				if own := s.Workflows[i].Germination; own != nil {
					g := moved(*own)
					s.Workflows[i].Germination = &g
				}
			}
		},
		"losses": func(s *study.Study, f float64) {
			for i := range s.Workflows {
				s.Workflows[i].Losses = slices.Clone(s.Workflows[i].Losses)
				for k := range s.Workflows[i].Losses {
					s.Workflows[i].Losses[k].Share *= f
				}
			}
		},
		"price of space": func(s *study.Study, f float64) { s.SpacePrice.Value *= f },
	}
	seen := map[string]int{}
	forCases(t, 60, func(t *testing.T, p *plain) {
		w := p.study.Workflows[0]
		got, ok, err := p.models().Sensitivity(w.Name, p.heads)
		require.NoError(t, err)
		require.Equal(t, p.study.Labour != nil, ok)
		perHead := func(move func(*study.Study, float64), f float64) float64 {
			q := *p
			q.study.Workflows = slices.Clone(p.study.Workflows)
			move(&q.study, f)
			return q.cost(q.study.Workflows[0])["per_head"].(float64)
		}
		reach := math.Inf(1)
		for _, in := range got.Inputs {
			require.LessOrEqual(t, math.Abs(in.Higher-in.Lower), reach, "the largest come first")
			reach = math.Abs(in.Higher - in.Lower)
			if move := moves[in.Name]; move != nil {
				seen[in.Name]++
				require.InDelta(t, perHead(move, 0.8), in.Lower, 1e-9, in.Name)
				require.InDelta(t, perHead(move, 1.2), in.Higher, 1e-9, in.Name)
			}
		}
		for name, move := range moves {
			listed := slices.ContainsFunc(got.Inputs, func(in answer.Input) bool { return in.Name == name })
			if ok && !listed {
				require.InDelta(t, perHead(move, 0.8), perHead(move, 1.2), 1e-9, name+" does not matter")
			}
		}
	})
	for name := range moves {
		require.Positive(t, seen[name], name)
	}
}

// What is due in a grow is each visit of its way, by day and then by task, with the count of
// the whole doing, of visits with its own.
func TestDueBySecondWay(t *testing.T) {
	forCases(t, 60, func(t *testing.T, p *plain) {
		w := p.study.Workflows[0]
		got, err := p.models().Due(w.Name, "unheard of")
		require.NoError(t, err)
		visits, doings := p.visits(w, max(1, float64(p.study.Heads)), p.study.SowEveryDays)
		slices.SortStableFunc(visits, func(a, b aVisit) int { return a.day - b.day })
		require.Len(t, got, len(visits))
		for i, v := range visits {
			require.Equal(t, p.steps[v.step].Name, got[i].Step)
			require.Equal(t, v.day, got[i].Day)
			if p.study.Heads > 0 {
				count := doings[v.doing].count
				if p.steps[v.step].Per == "visit" {
					count = v.count
				}
				require.InDelta(t, count, got[i].Count.Value, 1e-9)
			}
		}
	})
}
