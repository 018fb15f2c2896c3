package stepfit

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table reads a data file of the reference: a row a map by its header.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(reference + name)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range all[1:] {
		named := map[string]string{}
		for i, head := range all[0] {
			named[head] = row[i]
		}
		out = append(out, named)
	}
	require.NotEmpty(t, out)
	return out
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

// numbered numbers names in order of first appearance.
type numbered map[string]int

func (n numbered) of(name string) int {
	if _, met := n[name]; !met {
		n[name] = len(n)
	}
	return n[name]
}

// groupsOf are the readings of a data file with the columns group, setups, count
// and time.
func groupsOf(t *testing.T, name string) Groups {
	t.Helper()
	var groups Groups
	names := numbered{}
	for _, row := range table(t, name) {
		i := names.of(row["group"])
		if i == len(groups) {
			groups = append(groups, Sums{})
		}
		groups[i].Add(number(t, row["setups"]), number(t, row["count"]), number(t, row["time"]))
	}
	return groups
}

type groupsCase struct {
	ID, Data, By string
	Form         Form
	Spread       int
	Grouped      bool
	Expected     struct {
		Readings         int
		SDBetween        float64 `json:"sd_between"`
		SDResidual       float64 `json:"sd_residual"`
		LogREML          float64 `json:"log_reml"`
		At               [][]float64
		Estimate, SE, DF []float64
		FDF              [2]float64 `json:"f_df"`
		F, P, DF1, DF2   float64
	}
}

func groupsCases(t *testing.T) (groups, sets []groupsCase) {
	t.Helper()
	text, err := os.ReadFile(reference + "grouping.json")
	require.NoError(t, err)
	var file struct{ Cases, Sets []groupsCase }
	require.NoError(t, json.Unmarshal(text, &file))
	require.NotEmpty(t, file.Cases)
	require.NotEmpty(t, file.Sets)
	return file.Cases, file.Sets
}

// asR is how near R's figures are to the best: its search stops at about this.
const asR = 2e-6

// Published random intercepts (Rail and Orthodont of Pinheiro and Bates, the
// Dyestuff of Davies and Goldsmith) and readings of unlike counts, laps and groups:
// lme4, nlme and lmerTest of R.
func TestGroupsAgreeWithReference(t *testing.T) {
	cases, _ := groupsCases(t)
	for _, c := range cases {
		t.Run(c.ID, func(t *testing.T) {
			groups, want := groupsOf(t, c.Data), c.Expected
			fit, ok := groups.Fit(c.Form, c.Spread)
			require.True(t, ok)
			assert.Equal(t, want.Readings, fit.Readings)
			assert.InEpsilon(t, want.SDBetween, fit.BetweenSD, asR)
			assert.InEpsilon(t, want.SDResidual, fit.SD, asR)
			assert.InEpsilon(t, want.LogREML, fit.REML, 1e-9)
			for i, at := range want.At {
				load := Reading{Setups: at[0]}
				if c.Form == Unit {
					load = Reading{Count: at[0]}
				} else if c.Form == SetupUnit {
					load.Count = at[1]
				}
				variance, df := fit.Mean(load.Setups, load.Count)
				assert.InEpsilon(t, want.Estimate[i], fit.At(load.Setups, load.Count), asR)
				assert.InEpsilon(t, want.SE[i], math.Sqrt(variance), asR)
				assert.InEpsilon(t, want.DF[i], df, 10*asR)
			}
			p, told := groups.Alike(c.Form, c.Spread)
			require.True(t, told)
			assert.InEpsilon(t, want.P, p, 1e-6)
		})
	}
}

// The machines of workers.json: three fixed effects.
func TestThreeFixedEffects(t *testing.T) {
	text, err := os.ReadFile(reference + "workers.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			ID       string
			Expected map[string]any
		}
	}
	require.NoError(t, json.Unmarshal(text, &file))
	want := file.Cases[0].Expected
	require.Equal(t, "machines/worker", file.Cases[0].ID)

	groups, machines := numbered{}, numbered{}
	var workers []rows
	for _, row := range table(t, "data/machines.csv") {
		i := groups.of(row["worker"])
		if i == len(workers) {
			workers = append(workers, newRows(4))
		}
		x := []float64{1, 0, 0, number(t, row["score"])}
		if j := machines.of(row["machine"]); j > 0 {
			x[j] = 1
		}
		workers[i].add(1, x)
	}
	m := newMixed(3, 54, 0)
	for _, w := range workers {
		m.add(w)
	}
	s, ok := m.reml()
	require.True(t, ok)
	variance := s.rss[0] / m.df()
	assert.InEpsilon(t, want["intercept"], s.effects[0], 1e-12)
	assert.InEpsilon(t, want["machine_B"], s.effects[1], 1e-12)
	assert.InEpsilon(t, want["machine_C"], s.effects[2], 1e-12)
	assert.InEpsilon(t, want["sd_worker"], math.Sqrt(variance*s.theta), asR)
	assert.InEpsilon(t, want["sd_residual"], math.Sqrt(variance), asR)
	assert.InEpsilon(t, want["log_reml"], m.logLikelihood(s), 1e-9)
	// lmerTest 3.1-3: summary(lmer(score ~ machine + (1 | worker)))
	u := m.unsure(s)
	for i, df := range []float64{5.8331853736, 46, 46} {
		square := s.covariance(i, i)
		assert.InEpsilon(t, df, u.df(variance*square, square, variance*s.slope(i, i)), 1e-6)
	}
}

// balanced draws groups of the same number of readings of one setup, and gives the
// mean squares between and within them.
func balanced(r *rand.Rand, size, each int) (g Groups, between, within float64) {
	var means []float64
	var grand float64
	for range size {
		var s Sums
		effect := 30 * r.NormFloat64()
		var times []float64
		var mean float64
		for range each {
			x := 500 + effect + 10*r.NormFloat64()
			times = append(times, x)
			mean += x / float64(each)
			s.Add(1, 10, x)
		}
		for _, x := range times {
			within += (x - mean) * (x - mean) / float64(size*(each-1))
		}
		g, means, grand = append(g, s), append(means, mean), grand+mean/float64(size)
	}
	for _, mean := range means {
		between += float64(each) * (mean - grand) * (mean - grand) / float64(size-1)
	}
	return g, between, within
}

// With as many readings in each group, REML is the analysis of variance: σ² the
// mean square within, σᵤ² (between − within)/n, the variance of the mean between/N
// with G − 1 degrees of freedom (Searle, Casella and McCulloch, section 3.8), and
// that of the next reading a mix of the two mean squares with Satterthwaite's.
func TestBalancedGroupsAreTheAnalysisOfVariance(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 20 {
		size, each := 2+r.IntN(6), 2+r.IntN(6)
		groups, between, within := balanced(r, size, each)
		fit, ok := groups.Fit(Setup, 0)
		if between <= within {
			assert.False(t, ok)
			continue
		}
		require.True(t, ok)
		g, n := float64(size), float64(each)
		assert.InEpsilon(t, within, fit.SD*fit.SD, 1e-9)
		assert.InEpsilon(t, (between-within)/n, fit.BetweenSD*fit.BetweenSD, 1e-9)
		variance, df := fit.Mean(1, 0)
		assert.InEpsilon(t, between/(g*n), variance, 1e-9)
		assert.InEpsilon(t, g-1, df, 1e-7)
		variance, df = fit.NextReading(1, 10)
		ofBetween, ofWithin := between*(1/(g*n)+1/n), within*(1-1/n)
		assert.InEpsilon(t, ofBetween+ofWithin, variance, 1e-9)
		parts := ofBetween*ofBetween/(g-1) + ofWithin*ofWithin/(g*(n-1))
		assert.InEpsilon(t, variance*variance/parts, df, 1e-7)
		p, told := groups.Alike(Setup, 0)
		require.True(t, told)
		assert.InEpsilon(t, fTail(between/within, size-1, g*(n-1)), p, 1e-9)
	}
}

// Visits of one new grow share its effect: K setups each, borne by the grows that
// share a doing.
func TestNextGrowHasOneEffect(t *testing.T) {
	groups, _, _ := balanced(rand.New(rand.NewPCG(4, 4)), 5, 4)
	fit, ok := groups.Fit(Setup, 0)
	require.True(t, ok)
	s2, u2 := fit.SD*fit.SD, fit.BetweenSD*fit.BetweenSD
	variance, _ := fit.Next(3.5, 0, []Doing{{1, 10, 1}, {2, 20, 1}, {1, 10, 2}})
	assert.InEpsilon(t, fit.Variance(3.5, 0)+s2*(1+2+0.25)+u2*3.5*3.5, variance, 1e-12)
}

// invented draws groups of unlike readings.
func inventedGroups(r *rand.Rand) Groups {
	var groups Groups
	for range 2 + r.IntN(5) {
		var s Sums
		effect := 20 * r.NormFloat64()
		for range 1 + r.IntN(5) {
			setups, count := float64(r.IntN(3)), float64(5+r.IntN(40))
			s.Add(setups, count, 60+80*setups+7*count+effect+10*r.NormFloat64())
		}
		groups = append(groups, s)
	}
	return groups
}

// At θ = 0 generalised least squares is that of independent readings.
func TestNoEffectIsThePlainFit(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 50 {
		groups := inventedGroups(r)
		for _, form := range []Form{SetupUnit, Unit, Setup} {
			for q := range Spreads {
				all := groups.Sums()
				if !all.CanFit(form) {
					continue
				}
				m, plain := groups.mixed(form, q), all.Fit(form, q)
				s := m.solve(0)
				assert.InEpsilon(t, 1+plain.RSS, 1+s.rss[0], 1e-9)
				last := form.Parameters() - 1
				want := []float64{plain.SetupSec, plain.UnitSec}
				if form == Unit {
					want = want[1:]
				}
				assert.InDelta(t, want[last], s.effects[last], 1e-9*math.Abs(want[last]))
				assert.InDelta(t, want[0], s.effects[0], 1e-9*math.Abs(want[0]))
			}
		}
	}
}

// The derivatives by ln θ are those of the deviance itself.
func TestDerivatives(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range 20 {
		groups := inventedGroups(r)
		if !groups.Sums().CanFit(SetupUnit) {
			continue
		}
		m := groups.mixed(SetupUnit, r.IntN(Spreads))
		at := math.Exp(4 * r.NormFloat64())
		deviance := func(ln float64) float64 { d, _, _ := m.deviance(m.solve(math.Exp(ln))); return d }
		_, slope, bend := m.deviance(m.solve(at))
		const h = 1e-3
		low, middle, high := deviance(math.Log(at)-h), deviance(math.Log(at)), deviance(math.Log(at)+h)
		assert.InDelta(t, (high-low)/(2*h), slope, 1e-5)
		assert.InDelta(t, (high-2*middle+low)/(h*h), bend, 1e-5)
	}
}

// No θ has a restricted likelihood above that of the one found.
func TestREMLIsTheGreatest(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 100 {
		groups := inventedGroups(r)
		if !groups.Sums().CanFit(SetupUnit) {
			continue
		}
		m := groups.mixed(SetupUnit, 0)
		if _, told := m.alike(); !told {
			continue
		}
		found, _ := m.reml()
		least, _, _ := m.deviance(found)
		for ln := -12.0; ln < 12; ln += 0.1 {
			value, _, _ := m.deviance(m.solve(math.Exp(ln)))
			assert.GreaterOrEqual(t, value, least-1e-9)
		}
	}
}

// Readings that groups cannot be told from scatter in are left plain.
func TestGroupsThatCannotBeTold(t *testing.T) {
	sums := func(readings ...[2]float64) (s Sums) {
		for _, r := range readings {
			s.Add(1, r[0], r[1])
		}
		return s
	}
	for name, groups := range map[string]Groups{
		"one group":            {sums([2]float64{5, 100}, [2]float64{9, 160}, [2]float64{20, 250})},
		"a reading each":       {sums([2]float64{5, 100}), sums([2]float64{9, 160}), sums([2]float64{20, 250}), sums([2]float64{7, 99})},
		"two and one":          {sums([2]float64{5, 100}, [2]float64{9, 160}), sums([2]float64{20, 250})},
		"alike within a group": {sums([2]float64{5, 100}, [2]float64{5, 100}), sums([2]float64{9, 250}, [2]float64{9, 250}), sums([2]float64{9, 150}, [2]float64{9, 150})},
		"no scatter whatever":  {sums([2]float64{5, 100}, [2]float64{9, 180}), sums([2]float64{7, 140}, [2]float64{8, 160})},
		"exact within a group": {sums([2]float64{5, 100}, [2]float64{9, 180}, [2]float64{8, 160}), sums([2]float64{7, 240}, [2]float64{8, 260}, [2]float64{9, 280})},
	} {
		t.Run(name, func(t *testing.T) {
			_, told := groups.Alike(SetupUnit, 0)
			assert.False(t, told)
			_, ok := groups.Fit(SetupUnit, 0)
			assert.False(t, ok)
		})
	}
}

// uneven are readings of unlike grows, one short and slow: taken together they have
// a setup time above zero, and below zero within each.
func uneven() Groups {
	sums := func(readings ...[2]float64) (s Sums) {
		for _, r := range readings {
			s.Add(1, r[0], r[1])
		}
		return s
	}
	return Groups{
		sums([2]float64{10, 95}, [2]float64{14, 173}, [2]float64{12, 135}),
		sums([2]float64{30, 240}, [2]float64{34, 322}, [2]float64{32, 285}),
		sums([2]float64{50, 390}, [2]float64{54, 471}, [2]float64{52, 430}),
	}
}

// An effect that takes a time below zero leaves it out, unless the form was asked
// for; what readings scatter and which stand out is said of the plain fit.
func TestEffectMayLeaveATimeOut(t *testing.T) {
	groups := uneven()
	plain := groups.Sums().Choose(Options{})
	require.Equal(t, SetupUnit, plain.Form)
	require.Positive(t, plain.SetupSec)
	model, ok := plain.With(groups)
	require.True(t, ok)
	assert.Equal(t, Unit, model.Form)
	assert.True(t, model.LeftSetup)
	assert.Positive(t, model.BetweenSD)
	assert.Equal(t, plain.Fit, model.Plain)

	cv, ok := model.CV()
	require.True(t, ok)
	want, _ := plain.Fit.CV()
	assert.Equal(t, want, cv)
	_, ok = model.Fit.CV()
	assert.False(t, ok)
	screen, _ := model.Screen()
	other, _ := plain.Fit.Screen()
	assert.Equal(t, other, screen)

	asked := groups.Sums().Choose(Options{Form: SetupUnit})
	model, ok = asked.With(groups)
	require.True(t, ok)
	assert.Equal(t, SetupUnit, model.Form)
	assert.Negative(t, model.SetupSec)
}
