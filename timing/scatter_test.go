package timing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
)

// unlikeScatters are three steps of two readings at one count, which vary by 3, 5 and
// 20 % of 100 s, and one of a single reading.
func unlikeScatters() (Study, []Reading) {
	study := Study{Confidence: 0.95}
	var readings []Reading
	for _, s := range []struct {
		name string
		cv   float64
	}{{"even", 0.03}, {"usual", 0.05}, {"uneven", 0.20}} {
		study.Steps = append(study.Steps, Step{Name: s.name, Form: "unit"})
		// the two lie s/√2 to each side of their mean
		half := 100 * s.cv / math.Sqrt2
		readings = append(readings, aReading(s.name, 10, 100-half), aReading(s.name, 10, 100+half))
	}
	study.Steps = append(study.Steps, Step{Name: "once", Form: "unit"})
	return study, append(readings, aReading("once", 10, 100))
}

// Each rule's coefficient of variation and degrees of freedom, by hand: pooled is
// √((0.03² + 0.05² + 0.20²)/3) with 3, blended (2·pooled² + own²)/3 with 3.
func TestScatters(t *testing.T) {
	pooled := math.Sqrt((0.03*0.03 + 0.05*0.05 + 0.2*0.2) / 3)
	blended := func(own float64) float64 { return math.Sqrt((2*pooled*pooled + own*own) / 3) }
	prior, ok := stepfit.PriorOf([]float64{0.03 * 0.03, 0.05 * 0.05, 0.2 * 0.2}, []float64{1, 1, 1})
	require.True(t, ok)
	require.True(t, math.IsInf(prior.DF, 1), "of one degree of freedom each, such variances may be alike")
	common := math.Sqrt(prior.Variance)
	for _, c := range []struct {
		scatter      Scatter
		cv           [4]float64
		df, borrowed float64
	}{
		{"", [4]float64{0.03, 0.05, 0.2, pooled}, 1, 3},
		{OwnScatter, [4]float64{0.03, 0.05, 0.2, pooled}, 1, 3},
		{CautiousScatter, [4]float64{0.03, 0.05, 0.2, pooled}, 1, 2},
		{BlendedScatter, [4]float64{blended(0.03), blended(0.05), blended(0.2), pooled}, 3, 2},
		{ModeratedScatter, [4]float64{common, common, common, common}, 3, 3},
		{PooledScatter, [4]float64{pooled, pooled, pooled, pooled}, 3, 3},
	} {
		t.Run(string(c.scatter), func(t *testing.T) {
			study, readings := unlikeScatters()
			m := Fit(study, readings, Options{Scatter: c.scatter})
			for i, s := range m.Steps {
				assert.InDelta(t, 100*c.cv[i], s.Model.SD, 1e-9, s.Step.Name)
				want := c.df
				if s.borrows() {
					want = c.borrowed
				}
				assert.InDelta(t, want, s.Model.DF, 0, s.Step.Name)
			}
			assert.True(t, m.Steps[3].borrows())
			if c.scatter != "" && c.scatter != OwnScatter {
				require.NotEmpty(t, m.notes())
				note := m.notes()[len(m.notes())-1]
				assert.Contains(t, note, string(c.scatter)+" scatter")
				fits, err := m.Fits(nil)
				require.NoError(t, err)
				assert.Equal(t, []string{note}, fits.Notes)
			}
		})
	}
}

// Steps far more unlike than chance makes them keep their own scatters.
func TestModeratedLeavesUnlikeScattersAlone(t *testing.T) {
	study := Study{Confidence: 0.95}
	var readings []Reading
	for i, cv := range []float64{0.001, 0.01, 0.1} {
		name := []string{"a", "b", "c"}[i]
		study.Steps = append(study.Steps, Step{Name: name, Form: "unit"})
		for k := range 20 {
			readings = append(readings, aReading(name, 10, 100+100*cv*float64(2*(k%2)-1)))
		}
	}
	own, moderated := Fit(study, readings, Options{}), Fit(study, readings, Options{Scatter: ModeratedScatter})
	for i := range own.Steps {
		assert.InEpsilon(t, own.Steps[i].Model.SD, moderated.Steps[i].Model.SD, 0.05)
		assert.Greater(t, moderated.Steps[i].Model.DF, own.Steps[i].Model.DF)
	}
}

// No rule moves an answer, only its limits; and none makes a number that is none.
func TestScatterMovesOnlyLimits(t *testing.T) {
	forInvented(t, func(t *testing.T, study Study, readings []Reading) {
		want, err := Fit(study, readings, Options{}).Compare(nil, study.Heads)
		require.NoError(t, err)
		for _, rule := range Scatters {
			got, err := Fit(study, readings, Options{Scatter: rule}).Compare(nil, study.Heads)
			require.NoError(t, err)
			for i, h := range got.Workflows {
				assert.Equal(t, want.Workflows[i].Hours, h.Hours, rule)
				assert.Equal(t, want.Workflows[i].Low.Known, h.Low.Known, rule)
				if rule == CautiousScatter && h.Low.Known {
					assert.LessOrEqual(t, h.Low.Value, want.Workflows[i].Low.Value+1e-9, "caution never narrows")
				}
			}
		}
	})
}
