package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Where A has no part at all the crossing is at no heads, and degrees of freedom are those
// of B: the difference is clear at every number of heads or at none.
func TestBreakEvenWithoutAFixedPart(t *testing.T) {
	readings := []study.Reading{aReading("sow", 10, 40), aReading("sow", 30, 130), aReading("sow", 60, 210)}
	m := Fit(studyOf(readings), readings, Options{Scatter: OwnScatter})
	assert.Less(t, m.span(workload{loads: linear{{Count: 1.1}}}).Low.Value, 0.0)
	assert.Equal(t, Everywhere, m.crossing(linear{{}}, linear{{Count: 1.1}}).Kind)
	readings = append(readings, aReading("sow", 45, 165), aReading("sow", 20, 82))
	m = Fit(studyOf(readings), readings, Options{Scatter: OwnScatter})
	assert.Greater(t, m.span(workload{loads: linear{{Count: 1.1}}}).Low.Value, 0.0)
	assert.Equal(t, Never, m.crossing(linear{{}}, linear{{Count: 1.1}}).Kind)
}

// setOf is the set of head numbers of a single line, by Fieller's theorem.
func setOf(a, b, vaa, vab, vbb, t float64) (kind BreakEvenKind, low, high study.Maybe) {
	of := headsLine{fixed: a, each: b, fullFixed: a, fullEach: b, vff: vaa, vfe: vab, vee: vbb}
	return reaches(nil, t, func(float64) []headsLine { return []headsLine{of} })
}

// A break-even does not hang on the size of what it is worked out from.
func TestBreakEvenOfAnySize(t *testing.T) {
	_, low, high := setOf(-10, 2, 1, 0, 0.04, 2)
	for _, size := range []float64{1e-150, 1e100, 1e150} {
		kind, small, large := setOf(-10*size, 2*size, size*size, 0, 0.04*size*size, 2)
		assert.Equal(t, Interval, kind, size)
		same(t, low, small, "low")
		same(t, high, large, "high")
	}
}

// Nor do degrees of freedom.
func TestDegreesOfFreedomOfAnySize(t *testing.T) {
	for _, size := range []float64{1e-250, 1, 1e250} {
		var s combinedVariance
		s.add(3*size, 4)
		s.add(size, 2)
		assert.InEpsilon(t, 16/(9.0/4+1.0/2), 1/s.inverseDF, 1e-12)
	}
}

// One coefficient in both A and B: its own degrees of freedom, and no sliver of a
// set where only rounding keeps its two ends apart.
func TestBreakEvenOfOneCoefficient(t *testing.T) {
	for _, times := range [][2][]float64{
		{{18, 3, 18, 14}, {1, 88.99, 975.14, 723.352}},
		{{12, 2, 20, 6, 19}, {217.048, 95.264, 183.54, 409.036, 1}},
	} {
		var readings []study.Reading
		for i, count := range times[0] {
			readings = append(readings, aReading("s", count, times[1][i]))
		}
		m := Fit(studyOf(readings), readings, Options{Form: stepfit.Unit})
		span := m.span(workload{loads: linear{{Count: 1}}})
		for _, slope := range []float64{0.0343, 0.0133, 0.0487 - 0.0153, 0.1} {
			even := m.crossing(linear{{Count: -0.5}}, linear{{Count: slope}})
			if span.Low.Value <= 0 {
				assert.Equal(t, Everywhere, even.Kind, "slope %v", slope)
			} else {
				assert.Equal(t, Interval, even.Kind)
				assert.InEpsilon(t, even.Heads.Value, even.Low.Value, 1e-6)
			}
		}
	}
}

// Two ways that differ in the visits of a step alone, whose setup time auto has dropped: the
// difference is nothing, and is not called one, though the full form says other.
func TestNothingIsOfNeitherSign(t *testing.T) {
	readings := []study.Reading{aReading("carry", 10, 80), aReading("carry", 20, 190), aReading("carry", 30, 301), aReading("carry", 40, 409)}
	m := Fit(study.Study{Steps: []study.Step{{Name: "carry"}}}, readings, Options{Scatter: OwnScatter})
	span := m.span(workload{loads: linear{{Setups: 1}}})
	assert.Zero(t, span.Value)
	assert.Less(t, span.Low.Value, -20.0)
	assert.Zero(t, span.High.Value)
	assert.Equal(t, study.Known(1), span.P)
}
