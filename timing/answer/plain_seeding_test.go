package answer_test

import (
	"math"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestSeedingBySecondWay(t *testing.T) {
	forCases(t, 40, func(t *testing.T, p *plain) {
		w := p.study.Workflows[0]
		p.heads = min(p.heads, 48) // chances are summed one by one
		assurance := []float64{0.95, 0.8}[p.heads%2]
		got, err := p.models().Seeding(w.Name, p.heads, assurance)
		require.NoError(t, err)
		want := tree{"workflow": w.Name, "heads": p.heads, "germination": p.growing(w).g, "assurance": assurance}
		choices := []any{}
		seeds := []int{1, 2, 3, 4, 5, 6}
		if w.Bought {
			seeds = seeds[:1]
		}
		least, best, gaps := math.Inf(1), 0, []any{}
		for i, k := range seeds {
			with := w
			with.SeedsPerCell = k
			g, cost := p.growing(with), p.cost(with)
			perHead, minutes := cost["per_head"].(float64), cost["hours_h"].(float64)*60/float64(p.heads)
			measure := perHead
			if math.IsNaN(perHead) {
				measure = minutes
			}
			if i == 0 || measure < least-1e-9*abs(least) {
				least, best = measure, i
			}
			for _, name := range cost["gaps"].([]any) {
				if !contains(gaps, name) {
					gaps = append(gaps, name)
				}
			}
			choices = append(choices, tree{"seeds_per_cell": k, "empty_share": 1 - g.p, "surplus_per_cell": g.k*g.g - g.p,
				"cells_expected": g.cells(float64(p.heads)), "cells_assured": p.assured(with, assurance, got.Choices[i].CellsAssured),
				"minutes_per_head": minutes, "cost_per_head": perHead, "best": false})
		}
		choices[best].(tree)["best"] = true
		want["choices"], want["gaps"] = choices, gaps
		sameJSON(t, want, got, "seeding")
	})
}

func contains(list []any, x any) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// assured is the answer where so many cells are enough and one less is not.
func (p *plain) assured(w study.Workflow, assurance float64, got *int) any {
	test := p.study.Germination
	if w.Germination != nil {
		test = *w.Germination
	}
	if w.Bought {
		test = crop.Germination{Share: 1}
	}
	chance := func(cells int) float64 { return p.chanceOfHeads(w, test, cells) }
	if got == nil || *got < p.heads || chance(*got) < assurance-1e-12 || *got > p.heads && chance(*got-1) >= assurance {
		return "another number of cells"
	}
	return *got
}

// chanceOfHeads is the chance of at least the heads asked for from so many cells, averaged
// over what a germination test leaves open.
func (p *plain) chanceOfHeads(w study.Workflow, test crop.Germination, cells int) float64 {
	given := func(share float64) float64 {
		filled := 1 - math.Pow(1-share, float64(w.SeedsPerCell))
		return 1 - fewer(p.heads, cells, filled*p.growing(w).alive(math.MaxInt))
	}
	if test.Of == 0 {
		return given(test.Share)
	}
	// g = sin²θ: the trapezium rule is exact to all digits there, as the integrand is a
	// smooth function of period π.
	a, b := float64(test.CameUp)+0.5, float64(test.Of-test.CameUp)+0.5
	const points = 2000
	var sum, all float64
	for i := range points {
		sine, cosine := math.Sincos(math.Pi / 2 * (float64(i) + 0.5) / points)
		if weight := math.Exp((2*a-1)*math.Log(sine) + (2*b-1)*math.Log(cosine) - (2*a-1)*math.Log(math.Sqrt(a/(a+b))) - (2*b-1)*math.Log(math.Sqrt(b/(a+b)))); weight > 1e-18 {
			sum, all = sum+weight*given(sine*sine), all+weight
		}
	}
	return sum / all
}

// fewer is the chance of fewer than so many of n, each with a chance of its own: the sum of
// the binomial's terms.
func fewer(heads, n int, chance float64) (sum float64) {
	if chance >= 1 {
		return 0
	}
	term := math.Exp(float64(n) * math.Log1p(-chance))
	for x := range heads {
		sum += term
		term *= float64(n-x) / float64(x+1) * chance / (1 - chance)
	}
	return sum
}

// A step that was not timed leaves the order of seeds as it is where more seeds call for more
// of it, and may turn it round where they call for less.
func TestWhatTurnsSeedsRound(t *testing.T) {
	for word, turns := range map[crop.Word]bool{crop.Cells: true, crop.Empty: true, crop.Trays: true, crop.Surplus: false, crop.Heads: false, crop.Once: false} {
		st := study.Study{Confidence: 0.95, Germination: crop.Germination{Share: 0.5}, Steps: []study.Step{{Name: "sow"}, {Name: "clear"}}}
		st.Workflows = []study.Workflow{{Name: "way", SeedsPerCell: 1, CellsPerTray: 10, Tasks: []study.Task{
			{Step: "sow", Days: []int{0}, Count: crop.Seeds, Each: 1, SharedBy: 1}, {Step: "clear", Days: []int{9}, Count: word, Each: 1, SharedBy: 1}}}}
		var readings []study.Reading
		for _, count := range []float64{20, 60, 100} {
			readings = append(readings, study.Reading{Step: "sow", Count: count, Seconds: 5 * count, People: 1, Rating: 100, Source: study.Watch})
		}
		s, err := answer.Fit(st, readings, answer.Options{}).Seeding("", 48, 0.95)
		require.NoError(t, err)
		require.True(t, s.Choices[0].Best)
		require.Equal(t, turns, len(s.TurnedBy) > 0, word)
	}
}

// A chore that was timed is a gap where grows are not sown regularly, and one for that reason.
func TestChoresWithoutAShare(t *testing.T) {
	st := study.Study{Confidence: 0.95, Germination: crop.Germination{Share: 0.9}, Labour: &study.Labour{Wage: 10},
		Steps: []study.Step{{Name: "sow"}, {Name: "look"}, {Name: "weigh"}}}
	st.Workflows = []study.Workflow{{Name: "way", SeedsPerCell: 1, Tasks: []study.Task{{Step: "sow", Days: []int{0}, Count: crop.Seeds, Each: 1, SharedBy: 1}}}}
	st.Chores = []study.Chore{{Step: "look", EveryDays: 7, Count: 1}, {Step: "weigh", EveryDays: 7, Count: 1}}
	readings := []study.Reading{
		{Step: "sow", Count: 20, Seconds: 100, People: 1, Rating: 100, Source: study.Watch},
		{Step: "look", Count: 1, Seconds: 100, People: 1, Rating: 100, Source: study.Watch},
	}
	for _, every := range []int{0, 7} {
		st.SowEveryDays = every
		m := answer.Fit(st, readings, answer.Options{})
		s, err := m.Seeding("", 48, 0.95)
		require.NoError(t, err)
		moved, ok, err := m.Sensitivity("", 48)
		require.NoError(t, err)
		require.True(t, ok)
		gaps, unshared := []string{"look", "weigh"}, []string{"look"}
		if every > 0 {
			gaps, unshared = []string{"weigh"}, []string{}
		}
		require.Equal(t, gaps, s.Gaps)
		require.Equal(t, unshared, s.Unshared)
		require.Equal(t, unshared, moved.Unshared)
	}
}

// Where a fifth more of an input cannot be, the answer says where it stops.
func TestWhereInputsStop(t *testing.T) {
	for _, c := range []struct {
		germination, loss float64
		notes             []string
	}{
		{0.8, 0.8, nil},
		{0.9, 0.8, []string{"germination stops at 1, which is less than a fifth more"}},
		{0.8, 0.9, []string{"a loss stops at 0.99, which is less than a fifth more"}},
	} {
		st := study.Study{Confidence: 0.95, Germination: crop.Germination{Share: c.germination}, Labour: &study.Labour{Wage: 10}, Steps: []study.Step{{Name: "sow"}}}
		st.Workflows = []study.Workflow{{Name: "way", SeedsPerCell: 1, Losses: []crop.Loss{{Day: 3, Share: c.loss}},
			Tasks: []study.Task{{Step: "sow", Days: []int{0}, Count: crop.Seeds, Each: 1, SharedBy: 1}}}}
		m := answer.Fit(st, []study.Reading{{Step: "sow", Count: 20, Seconds: 100, People: 1, Rating: 100, Source: study.Watch}}, answer.Options{})
		s, _, err := m.Sensitivity("", 48)
		require.NoError(t, err)
		usual := len(s.Notes) - len(c.notes)
		require.Equal(t, c.notes, append([]string(nil), s.Notes[usual:]...))
		for _, note := range s.Notes[:usual] {
			require.NotContains(t, note, "stops at")
		}
	}
}
