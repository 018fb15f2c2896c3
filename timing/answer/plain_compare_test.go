package answer_test

import (
	"math"
	"slices"
	"testing"

	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestCompareBySecondWay(t *testing.T) {
	kinds := map[any]int{} // of break-evens, and of what else comes seldom
	forCases(t, 120, func(t *testing.T, p *plain) {
		got, err := p.models().Compare(nil, p.heads)
		require.NoError(t, err)
		want := tree{"heads": p.heads, "confidence": p.confidence, "common": p.effect.common()}
		workflows, pairs := []any{}, []any{}
		for i, a := range p.study.Workflows {
			workflows = append(workflows, p.hours(a))
			for _, b := range p.study.Workflows[i+1:] {
				pair := p.pair(a, b)
				at := len(pairs)
				pair["break_even"] = p.breakEven(a, b, got.Pairs[at].BreakEven)
				kinds[pair["break_even"].(tree)["kind"]]++
				for what, is := range map[string]bool{"p is 1": pair["p"] == 1.0, "tips": pair["tips_at_cv"] != nil, "by " + p.effect.of: true, "assumed same": len(pair["assumed_same"].([]any)) > 0,
					"gap": len(pair["gaps"].([]any)) > 0, "as setup": pair["break_even"].(tree)["heads_as_setup"] != nil} {
					if is {
						kinds[what]++
					}
				}
				pairs = append(pairs, pair)
			}
		}
		want["workflows"], want["pairs"] = workflows, pairs
		sameJSON(t, want, got, "compare")
	})
	for _, kind := range []any{"interval", "outside", "everywhere", "none", nil, "p is 1", "tips", "by ", "by grow", "by worker", "assumed same", "gap", "as setup"} {
		require.Positive(t, kinds[kind], "no pair had %v: %v", kind, kinds)
	}
}

// hours is a way in compare.
func (p *plain) hours(w study.Workflow) tree {
	visits, doings := p.visits(w, float64(p.heads), p.study.SowEveryDays)
	list := loads(visits)
	s := p.span(p.form(list), doings).ofTime()
	row := tree{"workflow": w.Name, "hours_h": p.standard(s.value), "low_h": p.standard(s.low), "high_h": p.standard(s.high),
		"next_low_h": p.standard(s.nextLow), "next_high_h": p.standard(s.nextHigh), "df": s.df,
		"minutes_per_head": p.standard(s.value) * 60 / float64(p.heads), "extrapolated": p.beyond(doings), "gaps": p.gapsOf(order(list))}
	steps := []any{}
	for _, l := range list {
		hours, gap := p.stepHours(l), p.answering(l.step).gap
		steps = append(steps, tree{"step": p.steps[l.step].Name, "visits": l.visits, "setups": l.setups, "count": l.count,
			"hours_h": known(!gap, hours), "share": known(!gap, hours/p.standard(s.value))})
	}
	row["steps"] = steps
	return row
}

func (p *plain) stepHours(l aLoad) float64 {
	return p.standard(p.value(p.form([]aLoad{l}), nil, asUnit).point)
}

// beyond says whether a doing lies more than a quarter outside what was timed.
func (p *plain) beyond(doings []aDoing) bool {
	for _, d := range doings {
		s := p.answering(d.step)
		least, most := math.Inf(1), 0.0
		for _, r := range s.rows {
			if r.m > 0 {
				least, most = min(least, r.n/r.m), max(most, r.n/r.m)
			}
		}
		x := d.count / d.setups
		if !math.IsInf(least, 1) && (x < least/1.25*(1-1e-9) || x > most*1.25*(1+1e-9)) {
			return true
		}
	}
	return false
}

// pair is a pair of ways, but for its break-even.
func (p *plain) pair(a, b study.Workflow) tree {
	va, _ := p.visits(a, float64(p.heads), p.study.SowEveryDays)
	vb, _ := p.visits(b, float64(p.heads), p.study.SowEveryDays)
	la, lb := loads(va), loads(vb)
	d := less(p.form(lb), p.form(la))
	s := p.span(d, nil)
	gaps := []any{}
	for _, i := range append(order(la), order(lb)...) {
		if name := any(p.steps[i].Name); p.answering(i).gap && d[p.steps[i].by] != [2]float64{} && !slices.Contains(gaps, name) {
			gaps = append(gaps, name)
		}
	}
	same := []any{}
	for _, i := range order(la) {
		if !slices.Contains(order(lb), i) {
			continue
		}
		var count, seconds [2]float64
		var readings [2]int
		for _, r := range p.answering(i).rows {
			for k, w := range []string{a.Name, b.Name} {
				if r.way == w {
					count[k], seconds[k], readings[k] = count[k]+r.n, seconds[k]+r.t, readings[k]+1
				}
			}
		}
		if readings[0] > 0 && readings[1] > 0 {
			same = append(same, tree{"step": p.steps[i].Name, "a_unit_s": seconds[0] / count[0], "b_unit_s": seconds[1] / count[1],
				"a_readings": readings[0], "b_readings": readings[1]})
		}
	}
	return tree{"a": a.Name, "b": b.Name, "difference_h": p.standard(s.value), "low_h": p.standard(s.low), "high_h": p.standard(s.high),
		"df": s.df, "p": s.p, "tips_at_cv": p.tips(d), "assumed_same": same, "gaps": gaps}
}

// tips is by how much a job done again may vary until two ways can no longer be told apart.
func (p *plain) tips(d aForm) any {
	timed, shown, unknown := false, false, false
	for i, s := range p.steps {
		if len(s.rows) > 0 && d[i] != [2]float64{} {
			timed, shown = true, shown || s.doubt.d > 0
			unknown = unknown || s.doubt.none
		}
	}
	if p.own && !unknown || !p.own && (!timed || shown) {
		return nil
	}
	least, signs := math.Inf(1), map[int]bool{}
	for _, setting := range []int{smaller, larger} {
		o := p.value(d, nil, setting)
		signs[signOf(o.point)], signs[signOf(o.full)] = true, true
		var variance float64
		for i, s := range p.steps {
			if _, f := s.used(d[i], setting); len(s.rows) > 0 && (!p.own || f.none) {
				variance += f.scatterOf(1) * f.between(d[i], d[i])
			}
		}
		least = min(least, abs(o.full)/(quantile(p.confidence, math.Inf(1))*math.Sqrt(variance)))
	}
	if len(signs) > 1 {
		return 0
	}
	return least
}
