package answer_test

import (
	"math"
	"slices"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestMeasuredBySecondWay(t *testing.T) {
	tested := 0
	forCases(t, 100, func(t *testing.T, p *plain) {
		if len(p.study.Workflows) < 2 {
			return
		}
		for i, name := range []string{"g1", "g2", "g3", "g4", "g5"} { // more grows than the others have
			w := p.study.Workflows[i%2].Name
			if !slices.ContainsFunc(p.study.Grows, func(g study.Grow) bool { return g.Name == name }) {
				p.study.Grows = append(p.study.Grows, study.Grow{Name: name, Workflow: w, Heads: study.Known(float64(20 + 7*i)), Weight: study.Known(float64(i))})
			}
		}
		p.timeWhole()
		m := p.models()
		compared, err := m.Compare(nil, p.heads)
		require.NoError(t, err)
		want := p.measured()
		for _, pair := range want["pairs"].([]any) {
			if pair.(tree)["p"] != nil {
				tested++
			}
		}
		sameJSON(t, want, m.Measure(compared), "measured")
	})
	require.Greater(t, tested, 3)
}

// timeWhole adds readings of the study's grows, one of each visit, for some of the cases.
func (p *plain) timeWhole() {
	if len(p.study.Made) > 0 || p.heads > 40 {
		return
	}
	c := p.anyCase
	for i, g := range c.study.Grows {
		w, _ := c.study.OneWorkflow(g.Workflow)
		visits, _ := p.visits(w, max(g.Heads.Value, 1), c.study.SowEveryDays)
		for k, v := range visits {
			c.readings = append(c.readings, study.Reading{Step: p.steps[v.step].Name, Grow: g.Name, Worker: "w1", People: 1, Rating: 100,
				Source: study.Watch, Count: v.count, Seconds: 40 + 3*v.count + float64((i*7+k*5)%11)})
		}
	}
	*p = *model(c)
}

// measured are the grows that gave heads, and the ways compared by those that were timed
// whole.
func (p *plain) measured() tree {
	grows, perHead := []any{}, map[string][]float64{}
	for _, g := range p.study.Grows {
		w, _ := p.study.OneWorkflow(g.Workflow)
		var seconds float64
		begun, asked := map[string]int{}, map[string]int{}
		for _, r := range p.readings {
			if r.Grow != g.Name || r.Void != "" {
				continue
			}
			seconds += r.Seconds * r.People * r.Rating / 100
			if !r.Setups.Known || r.Setups.Value > 0 {
				begun[r.Step]++
			}
		}
		if !(g.Heads.Value > 0) || seconds == 0 {
			continue
		}
		visits, _ := p.visits(w, g.Heads.Value, p.study.SowEveryDays)
		list, lacks := loads(visits), []any{}
		for _, l := range list {
			name := p.steps[l.step].Name
			if asked[name] = l.visits; begun[name] < l.visits {
				lacks = append(lacks, name)
			}
		}
		minutes := p.standard(seconds) * 60
		row := tree{"grow": g.Name, "workflow": w.Name, "heads": g.Heads.Value, "minutes": minutes, "minutes_per_head": minutes / g.Heads.Value,
			"minutes_per_kg":         known(g.Weight.Value > 0, minutes/g.Weight.Value),
			"model_minutes_per_head": p.standard(p.value(p.form(list), nil, asUnit).point) * 60 / g.Heads.Value, "lacks": lacks}
		grows = append(grows, row)
		if len(lacks) == 0 {
			perHead[w.Name] = append(perHead[w.Name], minutes/g.Heads.Value)
		}
	}
	pairs := []any{}
	for i, a := range p.study.Workflows {
		for _, b := range p.study.Workflows[i+1:] {
			row := p.welch(perHead[a.Name], perHead[b.Name])
			row["a"], row["b"] = a.Name, b.Name
			pair := p.pair(a, b)
			modelled := pair["difference_h"].(float64)
			clear := len(pair["gaps"].([]any)) == 0 && pair["low_h"].(float64)*pair["high_h"].(float64) > 0
			if d, both := row["difference_minutes_per_head"].(float64); both {
				if low, tested := row["low"].(float64); tested {
					clear = clear || low*row["high"].(float64) > 0
				}
				row["disagrees"] = clear && d*modelled < 0
			}
			pairs = append(pairs, row)
		}
	}
	return tree{"grows": grows, "pairs": pairs}
}

// welch is the t test of two means whose variances differ.
func (p *plain) welch(a, b []float64) tree {
	row := tree{"a_grows": len(a), "b_grows": len(b), "difference_minutes_per_head": nil, "low": nil, "high": nil, "t": nil, "df": nil, "p": nil, "disagrees": false}
	if len(a) == 0 || len(b) == 0 {
		return row
	}
	mean := func(x []float64) (m, v float64) {
		for _, y := range x {
			m += y / float64(len(x))
		}
		for _, y := range x {
			v += (y - m) * (y - m) / float64(len(x)-1) / float64(len(x))
		}
		return m, v
	}
	ma, va := mean(a)
	mb, vb := mean(b)
	d := mb - ma
	row["difference_minutes_per_head"] = d
	if len(a) < 2 || len(b) < 2 {
		return row
	}
	df := (va + vb) * (va + vb) / (va*va/float64(len(a)-1) + vb*vb/float64(len(b)-1))
	se := math.Sqrt(va + vb)
	half := quantile(p.confidence, df) * se
	row["low"], row["high"], row["t"], row["df"], row["p"] = d-half, d+half, d/se, df, chanceBeyond(d/se, df)
	return row
}

// One reading more of any load is as far off as the mean is unsure and a reading scatters.
func TestUsualBySecondWay(t *testing.T) {
	forCases(t, 100, func(t *testing.T, p *plain) {
		m := p.models()
		for i := range p.study.Steps {
			for _, c := range [][2]float64{{1, 30}, {2, 7.5}, {0, 12}, {1, 0}} {
				want, ok := p.usual(i, c)
				got, known := m.Usual(p.steps[i].Name, stepfit.Load{Setups: c[0], Count: c[1]})
				require.Equal(t, ok, known, "%v %v", p.steps[i].Name, c)
				if ok {
					sameJSON(t, want, tree{"seconds": got.Seconds, "low": got.Low, "high": got.High, "readings": got.Readings}, p.steps[i].Name)
				}
			}
		}
	})
}

func (p *plain) usual(i int, c [2]float64) (tree, bool) {
	s, count := p.answering(i), c[1]
	for k := range c {
		c[k] *= p.steps[i].factor[k]
	}
	seconds := s.point.at(c)
	if s.gap || !(seconds > 0) {
		return nil, false
	}
	form := make(aForm, len(p.steps))
	form[p.steps[i].by] = c
	low, high := math.Inf(1), math.Inf(-1)
	for _, setting := range []int{smaller, larger} {
		_, doubt := s.used(c, setting)
		again := doubt.s2 * math.Pow(count, float64(doubt.q))
		if doubt.judged {
			again = 0
		}
		o := p.value(form, nil, setting)
		var reach float64
		for _, h := range p.effect.reach(doubt, s.rows, c) {
			reach += h * h
		}
		variance, df := p.joined([]part{{o.u2[p.steps[i].by] + again, doubt.nu, doubt.lambda}}, reach+o.full*o.full)
		l, h := p.around(o, variance, df)
		low, high = min(low, l), max(high, h)
		if doubt.none || count == 0 && doubt.q > 0 {
			low = math.NaN()
		}
	}
	if math.IsNaN(low) {
		return tree{"seconds": seconds, "low": nil, "high": nil, "readings": len(s.rows)}, true
	}
	limits := aSpan{value: seconds, low: low, high: high}.ofTime()
	return tree{"seconds": seconds, "low": limits.low, "high": limits.high, "readings": len(s.rows)}, true
}

// What-ifs that are taken together multiply each other; the cost with them has their outlay
// spread over the heads of a year.
func TestWhatIfsTogetherBySecondWay(t *testing.T) {
	forCases(t, 80, func(t *testing.T, p *plain) {
		var names []string
		for _, c := range p.study.Changes {
			names = append(names, c.Name)
		}
		if len(names) == 0 {
			return
		}
		w, m := p.study.Workflows[0], p.models()
		visits, _ := p.visits(w, float64(p.heads), p.study.SowEveryDays)
		left := loads(visits)
		for k := range left {
			for _, c := range p.study.Changes {
				if p.index(c.Step) == left[k].step {
					l := saving(c, left[k])
					left[k].setups, left[k].count = left[k].setups-l.setups, left[k].count-l.count
				}
			}
		}
		saved := less(p.form(loads(visits)), p.form(left))
		improved, err := m.Improve(w.Name, p.heads, names)
		require.NoError(t, err)
		if !slices.ContainsFunc(p.study.Changes, func(c study.Change) bool { return p.answering(p.index(c.Step)).gap }) {
			s := p.span(saved, nil)
			got := improved.Together
			sameJSON(t, tree{"saved": p.standard(s.value), "low": p.standard(s.low), "high": p.standard(s.high)}, tree{"saved": got.Saved, "low": got.Low, "high": got.High}, "together")
		}
		cost, err := m.Cost([]string{w.Name}, p.heads, answer.WhatIf{Changes: names, HeadsPerYear: 4000})
		require.NoError(t, err)
		outlay := 0.0
		for _, c := range p.study.Changes {
			if c.Outlay.Known {
				outlay += c.Outlay.Value * float64(p.heads) / 4000
			}
		}
		got := cost.Workflows[0]
		require.InDelta(t, p.standard(p.value(p.form(left), nil, asUnit).point), got.Hours, 1e-9)
		require.InDelta(t, outlay, got.Outlay, 1e-9)
		if got.Total.Known {
			require.InDelta(t, got.Labour.Value+got.Supplies+got.Space+outlay, got.Total.Value, 1e-9)
		}
	})
}
