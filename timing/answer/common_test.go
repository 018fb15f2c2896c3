package answer

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// slowGrows are readings of steps in grows that are slow or quick in all of them, half of
// the cells missing.
func slowGrows(r *rand.Rand, steps, grows int) []study.Reading {
	slow := make([]float64, grows)
	for g := range slow {
		slow[g] = math.Exp(0.1 * r.NormFloat64())
	}
	readings := make([]study.Reading, 0, steps*grows*9/8) // about as many as cells
	for s := range steps {
		for g := range grows {
			for range 1 + r.IntN(3) {
				if r.IntN(2) == 0 && g > 0 {
					continue
				}
				count := float64(10 + r.IntN(4)*10)
				a := aReading(fmt.Sprint("step ", s), count, slow[g]*(40+float64(s+3)*count)*math.Exp(0.1*r.NormFloat64()))
				a.Grow = fmt.Sprint("g", g)
				readings = append(readings, a)
			}
		}
	}
	return readings
}

// The common effect by matrices of groups × groups, written down as its rules are.
func TestCommonEffectByWholeMatrices(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 1))
		readings := slowGrows(r, 2+r.IntN(4), 2+r.IntN(6))
		m := Fit(studyOf(readings), readings, Options{Scatter: OwnScatter, Grouping: byGrow})
		want, ok := byWholeMatrices(m, readings)
		require.Equal(t, ok, !m.effect.none(), "seed %d", seed)
		if !ok {
			continue
		}
		assert.InDelta(t, want.square, m.effect.square, 1e-9*(want.square+1e-6), "seed %d", seed)
		assert.InEpsilon(t, want.judgedBy, m.effect.judgedBy, 1e-9, "seed %d", seed)
		assert.InEpsilon(t, want.df, m.effect.df, 1e-8, "seed %d", seed)
		assert.Equal(t, want.groups, m.effect.groups)
	}
}

func byWholeMatrices(m *Models, readings []study.Reading) (effect, bool) {
	var index condense.Index[string]
	for _, r := range readings {
		index.Of(r.Grow)
	}
	groups := len(index.List)
	all, own, apart := mat.NewDense(groups, groups, nil), 0.0, 0.0
	var each []*mat.Dense
	var steps []groupedFit
	sums := mat.NewVecDense(groups, nil)
	named := map[int]bool{}
	for i := range m.Steps {
		f := m.Steps[i].Model.Doubt()
		if f.DF == 0 {
			continue
		}
		x, v := mat.NewDense(groups, 2, nil), mat.NewVecDense(groups, nil)
		var rows, q float64
		for _, r := range readings {
			if r.Step != m.Steps[i].Step.Name {
				continue
			}
			g := int(index.Of(r.Grow))
			w := math.Pow(r.Count, -float64(f.Spread))
			fitted := f.At(stepfit.Load{Setups: 1, Count: r.Count})
			x.Set(g, 0, x.At(g, 0)+w*fitted)
			x.Set(g, 1, x.At(g, 1)+w*fitted*r.Count)
			v.SetVec(g, v.AtVec(g)+w*fitted*(r.Seconds-fitted))
			q += w * fitted * fitted
			rows++
		}
		q = rows / q
		inverse := f.Inverse()
		s := mat.NewDense(2, 2, []float64{inverse[0][0], inverse[0][1], inverse[1][0], inverse[1][1]})
		var half, l mat.Dense
		half.Mul(x, s)
		l.Mul(&half, x.T())
		l.Scale(-q, &l)
		for _, r := range readings {
			if r.Step == m.Steps[i].Step.Name {
				g := int(index.Of(r.Grow))
				fitted := f.At(stepfit.Load{Setups: 1, Count: r.Count})
				l.Set(g, g, l.At(g, g)+q*math.Pow(r.Count, -float64(f.Spread))*fitted*fitted)
			}
		}
		if mat.Trace(&l) <= 1e-9*rows {
			continue
		}
		for _, r := range readings {
			if r.Step == m.Steps[i].Step.Name {
				named[int(index.Of(r.Grow))] = true
			}
		}
		v.ScaleVec(q, v)
		sums.AddVec(sums, v)
		own += mat.Dot(v, v)
		apart -= math.Pow(mat.Norm(&l, 2), 2)
		all.Add(all, &l)
		each = append(each, &l)
		steps = append(steps, groupedFit{fit: f, q: q, trace: mat.Trace(&l)})
	}
	apart += math.Pow(mat.Norm(all, 2), 2)
	if len(each) < 2 || apart <= 1e-9*math.Pow(mat.Norm(all, 2), 2) {
		return effect{}, false
	}
	e := effect{groups: len(named), square: max((mat.Dot(sums, sums)-own)/apart, 0)}
	noise := mat.NewDense(groups, groups, nil)
	for j, l := range each {
		var part mat.Dense
		part.Scale(steps[j].q*steps[j].scatter(e.square), l)
		noise.Add(noise, &part)
	}
	var c mat.Dense
	c.Mul(all, all)
	c.Scale(e.square, &c)
	c.Add(&c, noise)
	psi := mat.Trace(noise) / apart
	e.df = math.Pow(mat.Trace(&c)/mat.Norm(&c, 2), 2)
	e.judgedBy = e.square + psi
	if e.groups == 2 {
		p := max(2-e.df, 0)
		e.judgedBy = (p*(0.07*0.07+psi) + e.df*(e.square+psi)) / (p + e.df)
		e.square, e.df = max(e.judgedBy-psi, 0), max(e.df, 2)
	}
	return e, true
}

// Few groups and many are worked out in two ways that agree.
func TestManyGroupsAsFew(t *testing.T) {
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 2))
		readings := slowGrows(r, 3, 3+r.IntN(30))
		m := Fit(studyOf(readings), readings, Options{Grouping: NoGrouping})
		e := effectOf(byGrow, m.Steps, crossedOf(m.Steps))
		of := momentsOf(e.steps, e.all)
		for _, square := range []float64{0, 0.01} {
			m1, c1, s1 := of.dense(square)
			m2, c2, s2 := of.sparse(square)
			assert.InEpsilonSlice(t, []float64{m1, c1, s1}, []float64{m2, c2, s2}, 1e-9)
		}
	}
}

// Grows in thousands are told apart, and in no more than a moment.
func TestThousandsOfGrows(t *testing.T) {
	readings := slowGrows(rand.New(rand.NewPCG(1, 3)), 3, 3000)
	m := Fit(studyOf(readings), readings, Options{})
	c := m.common()
	require.NotNil(t, c.Groups)
	assert.Greater(t, *c.Groups, 2900)
	assert.InDelta(t, 0.1, c.SD.Value, 0.01)
}

// More grows than are told apart leave an answer that says what it leaves out.
func TestGrowsTooManyToTellApart(t *testing.T) {
	readings := slowGrows(rand.New(rand.NewPCG(1, 3)), 3, 16_000)
	m := Fit(studyOf(readings), readings, Options{})
	fits, err := m.Fits(nil)
	require.NoError(t, err)
	assert.Contains(t, fmt.Sprint(fits.Notes), "too many grows and workers to tell them apart, so ranges leave out how much they differ;")
	assert.Equal(t, Common{}, m.common())
	untold, err := Fit(studyOf(readings), readings, Options{Grouping: NoGrouping}).Fits(nil)
	require.NoError(t, err)
	assert.NotContains(t, fmt.Sprint(untold.Notes), "too many")
	assert.Equal(t, untold.Steps, fits.Steps)

	for i := range readings {
		readings[i].Grow = "" // few kinds
	}
	alone := Fit(studyOf(readings), readings, Options{Grouping: NoGrouping})
	for i, s := range m.Steps {
		assert.Equal(t, alone.Steps[i].Readings, s.Readings)
		assert.InEpsilon(t, alone.Steps[i].Model.UnitSec, s.Model.UnitSec, 1e-12)
		assert.InEpsilon(t, alone.Steps[i].Model.SD, s.Model.SD, 1e-12)
	}
}

// Models of one condensed value are the same however often they are made, and leave it as
// it was.
func TestModelsLeaveReadingsAsTheyAre(t *testing.T) {
	readings := slowGrows(rand.New(rand.NewPCG(7, 3)), 4, 5)
	study := studyOf(readings)
	g := condense.Gather(&study, condense.Filter{})
	all := condense.InMemory(readings)
	require.NoError(t, all(nil, g.Take))
	condensed := g.Condensed(all)
	first, err := NewModels(condensed, Options{}).Fits(nil)
	require.NoError(t, err)
	_, err = NewModels(condensed, Options{Scatter: OwnScatter, Grouping: NoGrouping}).Fits(nil)
	require.NoError(t, err)
	again, err := NewModels(condensed, Options{}).Fits(nil)
	require.NoError(t, err)
	assert.Equal(t, first, again)
}

// How much grows differ is said only where it is seen.
func TestGrowsThatDoNotDiffer(t *testing.T) {
	var readings []study.Reading
	for i, seconds := range []float64{100, 110, 105, 310, 290, 300} { // who is slow in one is quick in the other
		r := aReading([]string{"sow", "pack"}[i/3], 20, seconds)
		r.Grow = fmt.Sprint("g", i%3)
		readings = append(readings, r)
	}
	fits, err := Fit(studyOf(readings), readings, Options{}).Fits(nil)
	require.NoError(t, err)
	assert.Contains(t, fits.Notes, "3 grows were timed; that grows differ in all their times together is not seen, and ranges allow for what so many may hide")
}
