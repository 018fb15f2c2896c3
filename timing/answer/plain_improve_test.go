package answer_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestImproveBySecondWay(t *testing.T) {
	forCases(t, 80, func(t *testing.T, p *plain) {
		w := p.study.Workflows[len(p.study.Workflows)-1]
		got, err := p.models().Improve(w.Name, p.heads, nil)
		require.NoError(t, err)
		visits, _ := p.visits(w, float64(p.heads), p.study.SowEveryDays)
		list := loads(visits)
		whole := p.value(p.form(list), nil, asUnit)
		want := tree{"workflow": w.Name, "heads": p.heads, "common": p.effect.common(), "hours_h": p.standard(whole.point),
			"steps": p.shares(list, whole), "changes": p.whatIfs(list), "made": p.made(list), "time_next": p.timeNext(list), "gaps": p.gapsOf(order(list))}
		sameJSON(t, want, got, "improve")
	})
}

// byHours are loads by hours falling, gaps last.
func (p *plain) byHours(list []aLoad) []aLoad {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b aLoad) int {
		rank := func(l aLoad) float64 {
			if p.answering(l.step).gap {
				return math.Inf(-1)
			}
			return p.stepHours(l)
		}
		switch ra, rb := rank(a), rank(b); {
		case ra > rb:
			return -1
		case ra < rb:
			return 1
		}
		return 0
	})
	return list
}

func (p *plain) shares(list []aLoad, whole aValue) []any {
	var all, sum float64
	for _, u2 := range whole.u2 {
		all += u2
	}
	rows := []any{}
	for _, l := range p.byHours(list) {
		s := p.steps[l.step]
		row := tree{"step": s.Name, "class": string(s.Class), "rework": s.Rework, "hours_h": nil, "share": nil, "cumulative_share": nil, "variance_share": nil}
		if !p.answering(l.step).gap {
			hours := p.stepHours(l)
			sum += hours
			row["hours_h"], row["share"], row["cumulative_share"] = hours, hours/p.standard(whole.point), sum/p.standard(whole.point)
			row["variance_share"] = known(!whole.unknown, whole.u2[s.by]/all)
		}
		rows = append(rows, row)
	}
	return rows
}

// saving is what a change takes off a load.
func saving(c study.Change, l aLoad) aLoad {
	if !c.Drop {
		l.setups *= 1 - c.SetupFactor*orOne(c.VisitsFactor)
		l.count *= 1 - c.UnitFactor*orOne(c.CountFactor)
	}
	return l
}

func loadOf(list []aLoad, step int) (l aLoad, found bool) {
	at := slices.IndexFunc(list, func(l aLoad) bool { return l.step == step })
	if at < 0 {
		return aLoad{step: step}, false
	}
	return list[at], true
}

// paidBack is in how many heads an outlay is earned by so many hours a grow.
func (p *plain) paidBack(outlay study.Maybe, hours float64) float64 {
	l := p.study.Labour
	if !outlay.Known || l == nil || !(hours > 0) {
		return math.NaN()
	}
	return outlay.Value / (hours * l.Wage * (1 + l.OnCost) / float64(p.heads))
}

func (p *plain) whatIfs(list []aLoad) []any {
	rows := []any{}
	for _, c := range p.study.Changes {
		l, found := loadOf(list, p.index(c.Step))
		s := p.span(p.form([]aLoad{saving(c, l)}), nil)
		if found && p.answering(l.step).gap {
			s = aSpan{value: math.NaN(), low: math.NaN(), high: math.NaN()}
		}
		rows = append(rows, tree{"name": c.Name, "saved_h": p.standard(s.value), "low_h": p.standard(s.low), "high_h": p.standard(s.high),
			"payback_heads": p.paidBack(c.Outlay, p.standard(s.value))})
	}
	return rows
}

func (p *plain) timeNext(list []aLoad) []any {
	type worth struct {
		step int
		by   float64
	}
	names, unsure, rest := p.gapsOf(order(list)), []worth{}, []worth{}
	for _, l := range p.byHours(list) {
		s := p.answering(l.step)
		if s.gap {
			continue
		}
		c := p.form([]aLoad{l})
		o := p.value(c, nil, asUnit)
		half := (p.value(c, nil, asSetup).point - o.point) / 2
		switch adds := o.variance0() + half*half; {
		case o.unknown:
			unsure = append(unsure, worth{l.step, 0})
		case adds > 0:
			rest = append(rest, worth{l.step, adds})
		}
	}
	slices.SortStableFunc(rest, func(a, b worth) int { return signOf(b.by - a.by) })
	for _, x := range append(unsure, rest...) {
		names = append(names, p.steps[x.step].Name)
	}
	return names[:min(5, len(names))]
}

// variance0 is that of the steps' own fits, without a common effect.
func (o aValue) variance0() (sum float64) {
	for _, u2 := range o.u2 {
		sum += u2
	}
	return sum
}

// made is what changes that were made have saved: the step before each, beside it since.
func (p *plain) made(list []aLoad) []any {
	rows := []any{}
	for _, c := range p.study.Made {
		parts, at := p.parts[c.Step], 0
		for _, m := range p.madeOf(c.Step) {
			if m.Since.Before(c.Since) {
				at++
			}
		}
		before, after := p.steps[parts[at]], p.steps[parts[at+1]]
		l, _ := loadOf(list, p.index(c.Step))
		b, a := p.form([]aLoad{{parts[at], 1, l.setups, l.count}}), p.form([]aLoad{{parts[at+1], 1, l.setups, l.count}})
		row := tree{"name": c.Name, "step": c.Step, "since": c.Since.Format(time.DateOnly), "readings_before": len(before.rows), "readings_after": len(after.rows)}
		for _, key := range []string{"before_h", "after_h", "saved_h", "low_h", "high_h", "p", "payback_heads", "payback_on", "hoped_h"} {
			row[key] = nil
		}
		gap := p.answering(parts[at]).gap && l.count+l.setups > 0
		if !gap {
			row["before_h"] = p.standard(p.value(b, nil, asUnit).point)
			if c.HasHoped {
				hoped := saving(c.Change, l)
				row["hoped_h"] = p.standard(p.value(p.form([]aLoad{{parts[at], 1, hoped.setups, hoped.count}}), nil, asUnit).point)
			}
		}
		if len(after.rows) > 0 {
			row["after_h"] = p.standard(p.value(a, nil, asUnit).point)
		}
		if !gap && len(after.rows) > 0 {
			s := p.span(less(b, a), nil)
			row["saved_h"], row["low_h"], row["high_h"], row["p"] = p.standard(s.value), p.standard(s.low), p.standard(s.high), s.p
			heads := p.paidBack(c.Outlay, p.standard(s.value))
			row["payback_heads"] = heads
			days := math.Ceil(heads / float64(p.heads) * float64(p.study.SowEveryDays))
			if p.study.SowEveryDays > 0 && days <= 100_000 {
				row["payback_on"] = c.Since.AddDate(0, 0, int(days)).Format(time.DateOnly)
			}
		}
		rows = append(rows, row)
	}
	return rows
}
