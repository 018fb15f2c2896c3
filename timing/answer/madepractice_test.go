package answer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// Practice is looked for as the rule has it: over the cumulative count, after Holm.
func TestPractice(t *testing.T) {
	var readings []study.Reading
	sum := 0.0
	for i := range 8 {
		sum += 10
		r := atDay("sow", i-9, 10, 100*math.Pow(sum, -0.4)*(1+0.01*float64(i%2)))
		readings = append(readings, r)
	}
	readings = append(readings, atDay("sow", 0, 10, 5), atDay("sow", 1, 10, 5))
	in, err := Fit(smallMade(dibber(0)), readings, Options{}).Improve("", 100, nil)
	require.NoError(t, err)
	assert.True(t, in.Made[0].Falling)
	fits, err := Fit(smallMade(), readings[:8], Options{}).Fits(nil)
	require.NoError(t, err)
	assert.Contains(t, fits.Steps[0].Notes[len(fits.Steps[0].Notes)-1], "times fall with practice: by 2")
	// all on two days: not enough
	for i := range readings[:8] {
		readings[i].Date = changedOn.AddDate(0, 0, -1-i%2)
	}
	in, err = Fit(smallMade(dibber(0)), readings, Options{}).Improve("", 100, nil)
	require.NoError(t, err)
	assert.False(t, in.Made[0].Falling)
}

// R 4.2.2: summary(lm(log(y) ~ log(cumsum(count)))), of three invented series.
func TestPracticeAgreesWithR(t *testing.T) {
	for _, c := range []struct {
		counts, ratios        []float64
		exponent, se, atLeast float64
	}{
		{[]float64{10, 20, 15, 40, 30, 25}, []float64{1.31, 1.12, 1.05, 0.93, 0.97, 0.85}, -0.149902807111882, 0.0177519259401708, 0.00107731684226339},
		{[]float64{48, 24, 48, 12, 36}, []float64{0.98, 1.04, 1.01, 0.95, 1.03}, 0.00485372534853724, 0.042358147081241, 0.916010758525568},
		{[]float64{12, 12, 12, 12, 12, 12, 12, 12}, []float64{1.4, 1.2, 1.25, 1.02, 0.99, 1.0, 0.9, 0.88}, -0.223872441390676, 0.0286016325537841, 0.000229618763124511},
	} {
		var list []practiceReading
		for i, count := range c.counts {
			list = append(list, practiceReading{condense.Day(i), count, c.ratios[i]})
		}
		curve, ok := learnt(list)
		require.True(t, ok)
		assert.InEpsilon(t, c.exponent, curve.Exponent, 1e-9)
		assert.InEpsilon(t, c.se, curve.SE, 1e-9)
		assert.InEpsilon(t, c.atLeast, curve.P(), 1e-8)
	}
}
