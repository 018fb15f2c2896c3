package answer

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// drawnStudy is a small study such as growers have: few readings, alike and unlike counts,
// steps judged and steps never timed, times that fall with the count, laps, grows named
// and not.
func drawnStudy(r *rand.Rand) (study.Study, []study.Reading, Options) {
	st := study.Study{Confidence: 0.95, Allowance: []float64{0, 0.12}[r.IntN(2)], Germination: crop.Germination{Share: 1}}
	grows := [][]string{{""}, {"g1"}, {"g1", "g2"}, {"g1", "g2", ""}, {"g1", "g2", "g3", "g4", "g5"}}[r.IntN(5)]
	workers := [][]string{{""}, {"w1", "w2"}, {"w1", "w2", "w3"}, {"w1", "w2", "w3", ""}}[r.IntN(4)]
	slow := map[string]float64{}
	for _, name := range append(append([]string{}, grows...), workers...) {
		slow[name] = math.Exp(0.12 * r.NormFloat64())
	}
	var readings []study.Reading
	for i := range 2 + r.IntN(4) {
		step := study.Step{Name: fmt.Sprint("step ", i)}
		if r.IntN(5) == 0 {
			step.SetupCovers = float64(8 + r.IntN(20))
		}
		if r.IntN(8) == 0 {
			step.Form = []string{"unit", "setup", "setup+unit"}[r.IntN(3)]
		}
		if q := r.IntN(3); r.IntN(5) == 0 {
			step.Spread = &q
		}
		if r.IntN(3) == 0 {
			low := 20 + 50*r.Float64()
			step.Estimate = &study.Judged{Low: low, Likely: low * 1.2, High: low * 1.7, OfVisit: r.IntN(2) == 0}
		}
		st.Steps = append(st.Steps, step)
		counts := [][]float64{{48}, {40, 48, 56}, {10, 20, 30, 40, 60}, {1}, {12, 60}}[r.IntN(5)]
		setup, unit := 200*r.Float64(), 10*r.Float64()
		switch r.IntN(5) {
		case 0:
			setup = -30 * r.Float64()
		case 1:
			setup, unit = 500, -2*r.Float64()
		}
		for range []int{0, 1, 1, 2, 2, 3, 4, 5, 9, 12}[r.IntN(10)] {
			count := counts[r.IntN(len(counts))]
			a := aReading(step.Name, count, 0)
			a.Grow, a.Worker = grows[r.IntN(len(grows))], workers[r.IntN(len(workers))]
			if r.IntN(12) == 0 {
				a.Setups = study.Known(float64(r.IntN(3)))
			}
			if r.IntN(20) == 0 {
				a.Void = "dropped"
			}
			a.Seconds = max(5, setup+unit*count) * slow[a.Grow] * slow[a.Worker] * math.Exp(0.15*r.NormFloat64())
			readings = append(readings, a)
		}
	}
	for w := range 2 + r.IntN(2) {
		workflow := study.Workflow{Name: fmt.Sprint("way ", w), SeedsPerCell: 1}
		for _, step := range st.Steps {
			if r.IntN(4) == 0 {
				continue
			}
			days := []int{}
			for d := range 1 + r.IntN(2) {
				days = append(days, d)
			}
			workflow.Tasks = append(workflow.Tasks, study.Task{Step: step.Name, Days: days, SharedBy: 1 + r.IntN(2),
				Count: []crop.Word{crop.Heads, crop.Heads, crop.Once}[r.IntN(3)], Each: []float64{1, 1, 0.5, 3}[r.IntN(4)]})
		}
		if len(workflow.Tasks) > 0 {
			st.Workflows = append(st.Workflows, workflow)
		}
	}
	return st, readings, Options{
		Confidence: []float64{0.95, 0.95, 0.8, 0.99}[r.IntN(4)],
		Scatter:    []Scatter{"", LentScatter, OwnScatter}[r.IntN(3)],
		Grouping:   []Grouping{"", AutoGrouping, ByGrow, ByWorker, NoGrouping}[r.IntN(5)],
	}
}

// agrees holds a number to what was worked out plainly, NaN being what is not known.
func agrees(t *testing.T, want float64, got study.Maybe, scale float64, what string) {
	t.Helper()
	if math.IsNaN(want) || math.IsInf(want, 0) {
		require.False(t, got.Known, "%s is %v, want null", what, got.Value)
		return
	}
	require.True(t, got.Known, "%s is null, want %v", what, want)
	require.InDelta(t, want, got.Value, 1e-9*math.Abs(want)+1e-11*scale, what)
}

// Every figure by a second way, of studies that no rule was written for.
func TestEveryFigureBySecondWay(t *testing.T) {
	told := map[string]int{}
	// the first hundred and more, and some at which rounding once told
	for _, seed := range append(seeds(130), 1011, 1407, 1838, 2765, 3134) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			study, readings, o := drawnStudy(rand.New(rand.NewPCG(seed, 61)))
			m, p := Fit(study, readings, o), plainlyModelled(study, readings, o)
			sameCommon(t, p.effect, m.Common())
			sameFits(t, p, m)
			if len(study.Workflows) > 0 {
				sameComparison(t, p, m, told)
			}
			if p.effect.exist {
				told[p.effect.of]++
			}
		})
	}
	for _, kind := range []string{"grow", "worker", "interval", "outside", "everywhere", "none", "p 1", "tips", "unknown"} {
		require.Positive(t, told[kind], "no study had %s: %v", kind, told)
	}
}

func seeds(n int) []uint64 {
	list := make([]uint64, n)
	for i := range list {
		list[i] = uint64(i)
	}
	return list
}

func sameCommon(t *testing.T, e *plainEffect, got Common) {
	if !e.exist {
		require.Equal(t, Common{}, got)
		return
	}
	require.EqualValues(t, e.of, *got.Of)
	require.Equal(t, e.groups, *got.Groups)
	agrees(t, math.Sqrt(e.square), got.SD, 1, "sd")
	require.InEpsilon(t, e.nu, got.DF.Value, 1e-8)
}

func sameFits(t *testing.T, p *plainModels, m *Models) {
	fits, err := m.Fits(nil)
	require.NoError(t, err)
	for i, got := range fits.Steps {
		s, nan := p.steps[i], math.NaN()
		if s.gap {
			require.Nil(t, got.Form)
			continue
		}
		require.Equal(t, s.point.form, *got.Form)
		at := func(form [2]float64, has bool, value, se, low, high study.Maybe) {
			want, wantSE := plainSpan{value: nan, low: nan, high: nan}, nan
			if has {
				c := make(plainForm, len(p.steps))
				c[i] = form
				o := p.answer(c, nil, 0)
				want.value = o.value
				if !o.unknown {
					want.low, want.high = p.limits(o, o.variance, o.df)
					want, wantSE = want.aTime(), math.Sqrt(o.variance)
				} else {
					want.low, want.high = nan, nan
				}
			}
			scale := 1 + math.Abs(s.doubt.at(1, 1))
			agrees(t, want.value, value, scale, got.Step+" value")
			agrees(t, wantSE, se, scale, got.Step+" se")
			agrees(t, want.low, low, scale, got.Step+" low")
			agrees(t, want.high, high, scale, got.Step+" high")
		}
		has := func(column int) bool {
			for _, f := range []plainFit{s.point, s.doubt} {
				for _, c := range plainColumns(f.form) {
					if c == column {
						return true
					}
				}
			}
			return false
		}
		at([2]float64{1, 0}, has(0), got.Setup, got.SetupSE, got.SetupLow, got.SetupHigh)
		at([2]float64{0, 1}, has(1), got.Unit, got.UnitSE, got.UnitLow, got.UnitHigh)
		if s.doubt.judged {
			require.False(t, got.DF.Known || got.ResidualSD.Known || got.LentShare.Known)
			continue
		}
		require.Equal(t, s.point.q, *got.Spread)
		require.Equal(t, s.doubt.share > 0 || s.doubt.guess, got.Borrowed)
		sd, df, share, cov, r2 := math.Sqrt(s.doubt.s2), s.doubt.nu, s.doubt.share, nan, nan
		switch {
		case s.doubt.unknown:
			sd, df = nan, 0
		case p.own && s.doubt.share > 0:
			df = p.df
		case share > 0:
			df = 1 / (1/s.doubt.nu + share*share/p.df)
		}
		if p.own {
			share = nan
		}
		if s.doubt.form == "setup+unit" && !s.doubt.unknown {
			cov = s.doubt.s2 * s.doubt.inverse[0][1]
			for _, name := range p.effect.names {
				sums, _ := s.doubt.crossed(s.rows, p.effect.name, name)
				u := plainTimes(sums, s.doubt.beta)
				cov += p.effect.square * s.doubt.lever([2]float64{1, 0}, u) * s.doubt.lever([2]float64{0, 1}, u)
			}
		}
		if s.doubt.df > 0 && s.point.tss > 0 {
			r2 = 1 - s.point.rss/s.point.tss
		}
		agrees(t, sd, got.ResidualSD, 1, "residual sd")
		agrees(t, df, got.DF, 1, "df")
		agrees(t, share, got.LentShare, 1, "lent share")
		agrees(t, cov, got.SetupUnitCov, 10, "covariance")
		agrees(t, r2, got.R2, 1, "r2")
		if m := p.readingsFor(s.doubt); s.doubt.unknown {
			require.Nil(t, got.ReadingsFor10)
		} else if m > 0 {
			require.Equal(t, m, *got.ReadingsFor10)
		}
	}
}

func sameComparison(t *testing.T, p *plainModels, m *Models, told map[string]int) {
	const heads = 37
	got, err := m.Compare(nil, heads)
	require.NoError(t, err)
	hour := (1 + p.study.Allowance) / 3600
	pair := 0
	for i, w := range p.study.Workflows {
		visits := p.visits(w, heads)
		want := p.span(p.form(visits), visits).aTime()
		h := got.Workflows[i]
		agrees(t, want.value*hour, study.Known(h.Hours), 1, "hours")
		agrees(t, want.low*hour, h.Low, 1, "low")
		agrees(t, want.high*hour, h.High, 1, "high")
		agrees(t, want.nextLow*hour, h.NextLow, 1, "next low")
		agrees(t, want.nextHigh*hour, h.NextHigh, 1, "next high")
		agrees(t, want.df, h.DF, 1, "df")
		for _, other := range p.study.Workflows[i+1:] {
			d := plainDifference(p.form(visits), p.form(p.visits(other, heads)))
			want, g := p.span(d, nil), got.Pairs[pair]
			pair++
			agrees(t, want.value*hour, study.Known(g.Difference), 1, "difference")
			agrees(t, want.low*hour, g.Low, 1, "difference low")
			agrees(t, want.high*hour, g.High, 1, "difference high")
			agrees(t, want.df, g.DF, 1, "difference df")
			agrees(t, want.p, g.P, 1, "p")
			tips := p.tips(d)
			agrees(t, tips, g.TipsAtCV, 1, "tips")
			told["p 1"] += b2i(want.p == 1)
			told["tips"] += b2i(!math.IsNaN(tips))
			told["unknown"] += b2i(math.IsNaN(want.low))
			fixedA, eachA := p.line(w)
			fixedB, eachB := p.line(other)
			told[string(g.BreakEven.Kind)]++
			sameBreakEven(t, p, plainDifference(fixedA, fixedB), plainDifference(eachA, eachB), g.BreakEven)
		}
	}
}

func sameBreakEven(t *testing.T, p *plainModels, d0, d1 plainForm, got BreakEven) {
	crossing := func(setting int) (root float64, a, b plainOutcome) {
		a, b = p.answer(d0, nil, setting), p.answer(d1, nil, setting)
		return -a.value / b.value, a, b
	}
	above := func(root float64) float64 {
		if root > 0 {
			return root
		}
		return math.NaN()
	}
	root, a, b := crossing(0)
	agrees(t, above(root), got.Heads, 0, "heads")
	other := math.NaN()
	for i := range p.steps {
		if p.steps[i].setup != nil && (d0[i] != [2]float64{} || d1[i] != [2]float64{}) {
			other, _, _ = crossing(2)
		}
	}
	agrees(t, above(other), got.HeadsAsSetup, 0, "heads as setup")
	if a.unknown || b.unknown {
		require.Empty(t, got.Kind)
		return
	}
	df := a.df
	if b.value != 0 {
		at := p.answer(d0.plus(d1, root), nil, 0)
		df = at.df
		if a.value == 0 || at.variance < 1e-18*(a.variance+root*root*b.variance) {
			df = b.df // all of one time: what is left of its variance is rounding
		}
	}
	if math.IsNaN(df) {
		df = math.Inf(1) // nothing varies at the crossing
	}
	tValue := plainQuantile(p.confidence, df)
	inside := func(h float64) bool { return p.holds(d0, d1, h, tValue) }
	want := plainSet(inside, got)
	require.Equal(t, want.Kind, got.Kind)
	for _, pair := range [][2]study.Maybe{{want.Low, got.Low}, {want.High, got.High}} {
		require.Equal(t, pair[0].Known, pair[1].Known, "%v %v", want, got)
		require.InDelta(t, pair[0].Value, pair[1].Value, 1e-7*(1e-6+math.Abs(pair[0].Value)))
	}
}

// plainSet looks for the set at many head numbers, and halves what is between them. The
// answer's own ends are looked at too, so that a thin piece is not passed over.
func plainSet(inside func(float64) bool, got BreakEven) (set BreakEven) {
	const least, most = 1e-7, 1e9
	var at []float64
	for h := least; h < most; h *= 1.03 {
		at = append(at, h)
	}
	for _, m := range []study.Maybe{got.Low, got.High, got.Heads, got.HeadsAsSetup} {
		if m.Known && m.Value > least && m.Value < most {
			at = append(at, m.Value)
		}
	}
	slices.Sort(at)
	var edges []float64
	for i := range at[1:] {
		if inside(at[i]) != inside(at[i+1]) {
			low, high, first := at[i], at[i+1], inside(at[i])
			for range 60 {
				if mid := (low + high) / 2; inside(mid) == first {
					low = mid
				} else {
					high = mid
				}
			}
			edges = append(edges, high)
		}
	}
	low, high := inside(least), inside(at[len(at)-1])
	switch {
	case len(edges) == 0 && low:
		return BreakEven{Kind: Everywhere}
	case len(edges) == 0:
		return BreakEven{Kind: Never}
	case !high && low:
		return BreakEven{Kind: Interval, Low: study.Known(0), High: study.Known(edges[len(edges)-1])}
	case !high:
		return BreakEven{Kind: Interval, Low: study.Known(edges[0]), High: study.Known(edges[len(edges)-1])}
	case !low:
		return BreakEven{Kind: Outside, High: study.Known(edges[0])}
	case len(edges) == 2:
		return BreakEven{Kind: Outside, Low: study.Known(edges[0]), High: study.Known(edges[1])}
	}
	return BreakEven{Kind: Everywhere}
}
