package answer_test

import (
	"math"
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/require"
)

// models are the product's, of a case.
func (c anyCase) models() *answer.Models { return answer.Fit(c.study, c.readings, c.options) }

func TestFitsBySecondWay(t *testing.T) {
	forCases(t, 120, func(t *testing.T, p *plain) {
		got, err := p.models().Fits(nil)
		require.NoError(t, err)
		want := tree{"confidence": p.confidence, "common": p.effect.common()}
		var steps []any
		for i := range p.study.Steps {
			steps = append(steps, p.fitRow(i))
		}
		want["steps"] = steps
		sameJSON(t, want, got, "fit")
	})
}

// fitRow is a step of fit.
func (p *plain) fitRow(i int) tree {
	s, asks := p.answering(i), p.steps[i]
	voided := s.voided
	if s != asks {
		voided += asks.voided
	}
	row := tree{"step": asks.Name, "per": textOr(s.Per), "readings": len(s.rows), "voided": voided, "borrowed": false, "stands_out": []any{}}
	for _, key := range []string{"count_min", "count_max", "form", "spread", "setup_s", "setup_se_s", "setup_low_s", "setup_high_s",
		"unit_s", "unit_se_s", "unit_low_s", "unit_high_s", "setup_unit_cov_s2", "residual_sd_s", "df", "r2", "lent_share", "readings_for_10_percent"} {
		row[key] = nil
	}
	if s.gap {
		return row
	}
	row["form"] = s.point.form
	for k, name := range []string{"setup", "unit"} {
		if !s.point.has(k) && !s.doubt.has(k) {
			continue
		}
		c := make(aForm, len(p.steps))
		c[asks.by][k] = asks.factor[k]
		o := p.value(c, nil, asUnit)
		row[name+"_s"] = o.point
		if o.unknown {
			continue
		}
		low, high := p.around(o, o.variance, o.df)
		limits := aSpan{value: o.point, low: low, high: high}.ofTime()
		row[name+"_se_s"], row[name+"_low_s"], row[name+"_high_s"] = math.Sqrt(o.variance), limits.low, limits.high
	}
	if s.doubt.judged {
		return row
	}
	f := &s.doubt
	row["spread"], row["borrowed"] = f.q, f.lambda > 0 || f.guess
	least, most := math.Inf(1), 0.0
	for _, r := range s.rows {
		least, most = min(least, r.n), max(most, r.n)
	}
	row["count_min"], row["count_max"] = least, most
	row["stands_out"] = s.standsOut()
	row["df"], row["residual_sd_s"] = 0, nil
	if !f.none {
		_, df := p.freedom([]part{{1, f.nu, f.lambda}})
		row["df"], row["residual_sd_s"] = df, math.Sqrt(f.s2)
		if m := p.readingsFor10(f); m > 0 {
			row["readings_for_10_percent"] = m
		}
	}
	if !p.own {
		row["lent_share"] = f.lambda
	}
	if f.d > 0 && s.point.tss > 0 {
		row["r2"] = 1 - s.point.rss/s.point.tss
	}
	if f.p == 2 && !f.none {
		cov := f.s2 * f.inv[0][1]
		setup, unit := p.effect.reach(f, s.rows, [2]float64{1, 0}), p.effect.reach(f, s.rows, [2]float64{0, 1})
		for g := range setup {
			cov += p.effect.tau2 * setup[g] * unit[g]
		}
		row["setup_unit_cov_s2"] = cov * asks.factor[0] * asks.factor[1]
	}
	return row
}

// readingsFor10 tries one number of readings after the other.
func (p *plain) readingsFor10(f *aFit) int {
	c := [2]float64{f.m, f.n}
	se, n := math.Sqrt(f.variance(c)), f.d+float64(f.p)
	z := quantile(p.confidence, math.Inf(1))
	for m := f.p + 1; m < 1_000_000 && f.mean() > 0; m++ {
		df, half := float64(m-f.p), se*math.Sqrt(n/float64(m))
		if z*half > 0.10*f.mean() {
			continue // as Student's quantile is larger
		}
		if !p.own {
			lacks := max(3-df, 0)
			share := lacks / (lacks + df)
			df = 1 / (1/(lacks+df) + share*share/p.level)
		}
		if quantile(p.confidence, df)*half <= 0.10*f.mean() {
			return m
		}
	}
	return 0
}

// standsOut leaves out one reading after the other and asks how far it is from the rest.
func (s *aStep) standsOut() []any {
	list := []any{}
	f := &s.point
	if f.d < 2 {
		return list
	}
	for i, r := range s.rows {
		var others []aRow
		var spread bool
		for k, o := range s.rows {
			if k != i {
				others = append(others, o)
				spread = spread || o.n/o.m != s.rows[(i+1)%len(s.rows)].n/s.rows[(i+1)%len(s.rows)].m
			}
		}
		x := f.used(r)
		if h := weight(f.q, r.n) * f.between(x, x); h > 1-1e-9 || f.p == 2 && !spread {
			continue
		}
		w := fitted(others, f.form, f.q)
		s2 := w.rss / (f.d - 1)
		t := (r.t - w.at(x)) / math.Sqrt(s2*(1/weight(f.q, r.n)+w.between(x, x)))
		if p := min(1, float64(len(s.rows))*chanceBeyond(t, f.d-1)); p < 0.05 {
			row := tree{"file": r.place.File, "line": r.place.Line, "count": r.n, "time_s": r.t, "studentised": t, "p": p, "setup_s": nil, "unit_s": nil}
			for k, key := range []string{"setup_s", "unit_s"} {
				if f.has(k) {
					row[key] = w.b[k]
				}
			}
			list = append(list, row)
		}
	}
	return list
}
