package main

import (
	"fmt"
	"math/rand/v2"

	"headhours/timing/answer"
	"headhours/timing/stepfit"
)

// The parts of the table.
const (
	given    = "Form and spread given"
	readings = "Form and spread left to the readings (auto)"
	awkward  = "Readings that are skewed, or hang together"
	few      = "Few readings, by rule"
	grownup  = "As growers have them"
)

// scenarios are all that are simulated, in the order of the table.
func scenarios() []scenario {
	list := append(textbook(), byReadings()...)
	list = append(list, hardships()...)
	list = append(list, asGrown()...)
	return append(list, fewReadings()...)
}

// newAndOld are the rules there are now and those there were: a step's own scatter, and
// readings taken as independent.
func newAndOld() []rule {
	return []rule{{name: "now"}, {"before", answer.Options{Scatter: answer.OwnScatter, Grouping: answer.NoGrouping}}}
}

// asGrown is what growers bring: one to four readings a step, scatters around 15 %, grows
// that are slow in everything, cells that nobody timed. Nine intervals in ten and three
// more in a hundred are the goal.
func asGrown() []scenario {
	base := scenario{group: grownup, cv: around15, rules: newAndOld()}
	var list []scenario
	for _, counts := range []struct {
		name string
		of   func(k, n int) float64
	}{{"unlike counts", unlike}, {"alike counts", alike}} {
		for n := 1; n <= 4; n++ {
			list = append(list, base.with(fmt.Sprintf("%d a step, %s, one grow", n, counts.name), func(s *scenario) {
				s.times, s.counts = always(n), counts.of
			}))
		}
	}
	for _, c := range []struct {
		grows         int
		slow, missing float64
	}{{2, 0.1, 0}, {3, 0, 0}, {4, 0.05, 0}, {4, 0.1, 0.5}, {8, 0.1, 0.5}, {8, 0.15, 0}} {
		name := fmt.Sprintf("once in each of %d grows slow by %g %%", c.grows, 100*c.slow)
		if c.missing > 0 {
			name += ", half missing"
		}
		list = append(list, base.with(name, func(s *scenario) {
			s.times, s.counts, s.grows, s.growCV, s.together, s.missing = always(c.grows), alike, c.grows, c.slow, true, c.missing
		}))
	}
	list = append(list, base.with("4 a step, unlike counts, harvest by 40 %", func(s *scenario) { s.times, s.counts, s.cv = always(4), unlike, harvestMost }))
	return append(list, base.with("2 a step, alike counts, harvest by 40 %", func(s *scenario) { s.times, s.counts, s.cv = always(2), alike, harvestMost }))
}

// with is the scenario under another name, changed.
func (s scenario) with(name string, change func(*scenario)) scenario {
	s.name = name
	change(&s)
	return s
}

// asItIs is the rule that answers are worked out by unless told otherwise.
func asItIs() []rule { return []rule{{name: "lent"}} }

// byScatter are the rules of --scatter.
func byScatter() []rule {
	var rules []rule
	for _, s := range answer.Scatters {
		rules = append(rules, rule{string(s), answer.Options{Scatter: s}})
	}
	return rules
}

// byGrouping are the rules of --grouping: taken for independent, and as it is.
func byGrouping() []rule {
	return []rule{{"grouping none", answer.Options{Grouping: answer.NoGrouping}}, {"grouping auto", answer.Options{}}}
}

// textbook has two or more degrees of freedom a step, normal errors and the true
// form and spread: 93 to 97 % is the goal.
func textbook() []scenario {
	base := scenario{group: given, counts: unlike, cv: same(0.12), form: stepfit.SetupUnit, spread: q(0), rules: asItIs()}
	return []scenario{
		base.with("4 readings a step", func(s *scenario) { s.times = always(4) }),
		base.with("8 readings", func(s *scenario) { s.times = always(8) }),
		base.with("40 readings", func(s *scenario) { s.times = always(40) }),
		base.with("8, scatter growing with count", func(s *scenario) { s.times, s.growing, s.spread = always(8), 1, q(1) }),
		base.with("8, with its square", func(s *scenario) { s.times, s.growing, s.spread = always(8), 2, q(2) }),
		base.with("8, scatters drawn", func(s *scenario) { s.times, s.cv = always(8), drawn }),
		base.with("4, longest step scatters most", func(s *scenario) { s.times, s.cv = always(4), longestMost }),
		base.with("4, longest step scatters least", func(s *scenario) { s.times, s.cv = always(4), longestLeast }),
	}
}

func byReadings() []scenario {
	base := scenario{group: readings, counts: unlike, cv: same(0.12), rules: asItIs()}
	return []scenario{
		base.with("auto, 4 readings", func(s *scenario) { s.times = always(4) }),
		base.with("auto, 8 readings", func(s *scenario) { s.times = always(8) }),
		base.with("auto, 40 readings", func(s *scenario) { s.times = always(40) }),
		base.with("auto, 2 to 40 readings", func(s *scenario) { s.times = from(2, 40) }),
		base.with("auto, 8, scatter growing with count", func(s *scenario) { s.times, s.growing = always(8), 1 }),
		base.with("auto, 8, with its square", func(s *scenario) { s.times, s.growing = always(8), 2 }),
		base.with("auto, 40, with its square", func(s *scenario) { s.times, s.growing = always(40), 2 }),
		base.with("auto, 4, alike counts", func(s *scenario) { s.times, s.counts = always(4), alike }),
		base.with("auto, 40, alike counts", func(s *scenario) { s.times, s.counts = always(40), alike }),
		base.with("auto, every step once", func(s *scenario) { s.times = always(1) }),
		base.with("auto, once or twice, alike counts", func(s *scenario) { s.times, s.counts, s.rules = from(1, 2), alike, byScatter() }),
		base.with("auto, once or twice, unlike counts", func(s *scenario) { s.times, s.rules = from(1, 2), byScatter() }),
		base.with("auto, every step twice, unlike counts", func(s *scenario) { s.times, s.rules = always(2), byScatter() }),
	}
}

func hardships() []scenario {
	base := scenario{group: awkward, counts: unlike, cv: same(0.12), form: stepfit.SetupUnit, spread: q(0), rules: byGrouping()}
	return []scenario{
		base.with("4, lognormal, CV 0.3", func(s *scenario) { s.times, s.skewed, s.cv, s.rules = always(4), true, same(0.3), asItIs() }),
		base.with("40, lognormal, CV 0.3", func(s *scenario) { s.times, s.skewed, s.cv, s.rules = always(40), true, same(0.3), asItIs() }),
		base.with("8, lognormal, CV 0.3, auto", func(s *scenario) {
			s.times, s.skewed, s.cv, s.growing, s.form, s.spread, s.rules = always(8), true, same(0.3), 2, "", nil, asItIs()
		}),
		base.with("8, a third by a slow worker", func(s *scenario) { s.times, s.slowShare = always(8), 1.0/3 }),
		base.with("8, of 4 grows that differ by 10 %, step by step", func(s *scenario) { s.times, s.grows, s.growCV = always(8), 4, 0.1 }),
		base.with("40, of 20 such grows", func(s *scenario) { s.times, s.grows, s.growCV = always(40), 20, 0.1 }),
		base.with("8, of 4 grows that differ by 10 %, all steps alike", func(s *scenario) {
			s.times, s.grows, s.growCV, s.together = always(8), 4, 0.1, true
		}),
		base.with("40, of 20 such grows, all steps alike", func(s *scenario) {
			s.times, s.grows, s.growCV, s.together = always(40), 20, 0.1, true
		}),
	}
}

// fewReadings are where a step's own readings show its scatter poorly.
func fewReadings() []scenario {
	var list []scenario
	for _, set := range []struct {
		name string
		scenario
	}{
		{"4, unlike counts", scenario{times: always(4), counts: unlike, form: stepfit.SetupUnit}},
		{"3, unlike counts", scenario{times: always(3), counts: unlike, form: stepfit.SetupUnit}},
		{"2 or 3, unlike counts", scenario{times: from(2, 3), counts: unlike, form: stepfit.SetupUnit}},
		{"2, alike counts, all unit", scenario{times: always(2), counts: alike, form: stepfit.Unit}},
		{"1 or 2, alike counts, all unit", scenario{times: from(1, 2), counts: alike, form: stepfit.Unit}},
	} {
		for _, scatter := range []struct {
			name string
			cv   func(int, *rand.Rand) float64
		}{{"same scatter", same(0.12)}, {"scatters drawn", drawn}, {"longest most", longestMost}, {"longest least", longestLeast}} {
			s := set.scenario
			s.group, s.name, s.cv, s.spread, s.rules = few, set.name+", "+scatter.name, scatter.cv, q(0), byScatter()
			list = append(list, s)
		}
	}
	return list
}
