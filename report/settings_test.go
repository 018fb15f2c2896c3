package report

import (
	"testing"
	"time"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
)

// Each figure of a study that answers rest on stands among the settings, in its unit, and
// none that the study does not have.
func TestSettings(t *testing.T) {
	t.Parallel()
	bare := study.Study{Name: "home\x1b", Germination: crop.Germination{Share: 0.85}}
	sold := study.Sale{Unit: "bag", Kg: 0.15, Share: 0.95, Price: known(3.5)}
	for _, c := range []struct {
		name   string
		change func(s *study.Study, a *WholeOptions)
		want   []Setting
	}{
		{"little", func(s *study.Study, a *WholeOptions) {}, nil},
		{"every week", func(s *study.Study, a *WholeOptions) { s.SowEveryDays = 7 }, []Setting{{"a new grow", "every 7 days"}}},
		{"every day", func(s *study.Study, a *WholeOptions) { s.SowEveryDays = 1 }, []Setting{{"a new grow", "every day"}}},
		{"another interval", func(s *study.Study, a *WholeOptions) { s.SowEveryDays, a.Schedule.Every = 7, ref(1) }, []Setting{{"a new grow", "every day (instead of the study's)"}}},
		{"none after the first", func(s *study.Study, a *WholeOptions) { s.SowEveryDays, a.Schedule.Every = 7, ref(0) }, nil},
		{"a first day", func(s *study.Study, a *WholeOptions) { a.Schedule.Rest.Start = day0 }, []Setting{{"first sowing", "Monday 2026-03-02"}}},
		{"days off", func(s *study.Study, a *WholeOptions) {
			a.Schedule.Rest = answer.Rest{Start: day0, Off: []time.Weekday{time.Saturday, time.Sunday}}
		},
			[]Setting{{"first sowing", "Monday 2026-03-02"}, {"days off", "Saturday, Sunday"}}},
		{"a wage", func(s *study.Study, a *WholeOptions) {
			s.Currency, s.Labour = "EUR", &study.Labour{Wage: 15.5, OnCost: 0.215}
		},
			[]Setting{{"wage", "15.50 EUR an hour, and 21.5 % on top"}}},
		{"own hours", func(s *study.Study, a *WholeOptions) { s.Labour = &study.Labour{Wage: 15, OwnHours: known(22.5)} },
			[]Setting{{"wage", "15.00 an hour, and 0 % on top"}, {"own hours a week", "22.5; what goes beyond is hired"}}},
		{"a price", func(s *study.Study, a *WholeOptions) { s.Currency, s.PricePerHead = "EUR", known(1.6) }, []Setting{{"price of a head", "1.60 EUR"}}},
		{"bags", func(s *study.Study, a *WholeOptions) { s.Currency, s.Sale = "EUR", &sold }, []Setting{{"what is sold", "by the bag of 0.15 kg, 3.50 EUR each, 95 % of it"}}},
		{"overheads and space", func(s *study.Study, a *WholeOptions) {
			s.Currency, s.SpaceM2, s.SpacePrice = "EUR", known(14.5), known(0.0125)
			s.Overheads = []study.Overhead{{Name: "rent", PerYear: 1200}, {Name: "power", PerYear: 99.9}}
		}, []Setting{{"rent", "1200.00 EUR a year"}, {"power", "99.90 EUR a year"}, {"space there is", "14.5 m²"}, {"price of space", "0.0125 EUR a square metre and day"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, a := bare, WholeOptions{Heads: 48, Assurance: 0.999}
			s.Allowance = 0.125
			c.change(&s, &a)
			m := answer.Fit(s, nil, answer.Options{Confidence: 0.95})
			assert.Equal(t, append([]Setting{
				{"study", `home\x1b`}, {"heads a grow", "48"}, {"confidence of intervals", "95 %"}, {"allowance for rest and personal needs", "12.5 %"},
				{"seeds that come up", "85 %"}, {"assurance of cells to sow", "99.9 %"},
			}, c.want...), settings(m, a))
		})
	}
}

// What differs by way: germination, what is bought, and how it is sold.
func TestSettingsOfWays(t *testing.T) {
	t.Parallel()
	own := study.Workflow{Name: "raft", Germination: &crop.Germination{Share: 0.92, CameUp: 92, Of: 100}}
	bought := study.Workflow{Name: "plugs", Bought: true, Sale: &study.Sale{Unit: "pair", Heads: 2, Share: 1}}
	plain := study.Workflow{Name: "tray"}
	of := func(ways ...study.Workflow) study.Study {
		return study.Study{Workflows: ways, Germination: crop.Germination{Share: 0.85}}
	}
	assert.Equal(t, []Setting{{"seeds that come up", "85 %"}, {"seeds that come up, raft", "92 % (92 of 100)"}}, comesUp(of(own, plain)))
	assert.Equal(t, []Setting{{"seeds that come up, raft", "92 % (92 of 100)"}}, comesUp(of(own)), "no way leaves the study's")
	assert.Equal(t, "assurance of cells to sow", assuranceOf(of(plain, own)))
	assert.Equal(t, "assurance of plants to buy", assuranceOf(of(bought)))
	assert.Equal(t, "assurance of cells to sow and plants to buy", assuranceOf(of(plain, bought)))
	m := answer.Fit(of(plain, bought), nil, answer.Options{})
	assert.Contains(t, settings(m, WholeOptions{}), Setting{"sold of plugs", "by the pair of 2 heads"})
	assert.NotContains(t, settings(m, WholeOptions{Workflows: []string{"tray"}}), Setting{"sold of plugs", "by the pair of 2 heads"}, "which is not answered for")
	for want, sale := range map[string]study.Sale{
		"by the head":                            {Unit: "head", Heads: 1, Share: 1},
		"by the bunch of 3 heads, 2.00 EUR each": {Unit: "bunch", Heads: 3, Share: 1, Price: known(2)},
		"by the head, 90 % of it":                {Unit: "head", Heads: 1, Share: 0.9},
		`by the \x1b of 0.002 kg`:                {Unit: "\x1b", Kg: 0.002, Share: 1},
	} {
		assert.Equal(t, want, saleWords(sale, "EUR"))
	}
}
