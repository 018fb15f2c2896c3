package stepfit

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Printed learning tables: Wright's of an accountancy text, Crawford's of the R
// package learningCurve, and the unit coefficients of two textbooks.
func TestLearningAgreesWithPrintedTables(t *testing.T) {
	type table struct {
		ID    string
		Kind  string
		Input struct {
			Rate any
			N    any
		}
		Expected map[string]any
	}
	text, err := os.ReadFile(reference + "timestudy.json")
	require.NoError(t, err)
	var file struct{ Cases []table }
	require.NoError(t, json.Unmarshal(text, &file))
	list := func(x any) (out []float64) {
		for _, v := range x.([]any) {
			out = append(out, v.(float64))
		}
		return out
	}
	seen := 0
	check := func(rate float64, numbers, times []float64) {
		t.Helper()
		l, ok := Learn(numbers, times)
		require.True(t, ok)
		got, low, high := l.Rate(0.95)
		assert.InEpsilon(t, rate, got, 1e-12)
		assert.InEpsilon(t, times[0], l.First, 1e-12)
		assert.InDelta(t, low, high, 1e-9) // a table scatters by rounding alone
		seen++
	}
	for _, c := range file.Cases {
		switch c.Kind {
		case "learning_wright":
			check(c.Input.Rate.(float64), list(c.Input.N), list(c.Expected["average"]))
		case "learning_crawford":
			for i, rate := range list(c.Input.Rate) {
				at := c.Input.N.(float64)
				check(rate, []float64{1, at, at * at}, []float64{100, list(c.Expected["unit"])[i], math.Pow(list(c.Expected["unit"])[i], 2) / 100})
			}
		case "learning_table":
			for i, rate := range list(c.Input.Rate) {
				check(rate, list(c.Input.N), list(c.Expected["unit"].([]any)[i]))
			}
		}
	}
	assert.Equal(t, 9, seen)
}

// R 4.2.2: summary(lm(log(t) ~ log(n))), n 1 to 6.
func TestLearningScatter(t *testing.T) {
	l, ok := Learn([]float64{1, 2, 3, 4, 5, 6}, []float64{310, 262, 271, 229, 234, 210})
	require.True(t, ok)
	assert.InEpsilon(t, -0.19821760472733, l.Exponent, 1e-9)
	assert.InEpsilon(t, 0.035636565980941, l.SE, 1e-9)
	assert.InEpsilon(t, 5.1160180697159e-03, l.P(), 1e-8)
	assert.EqualValues(t, 4, l.DF)
	_, ok = Learn([]float64{1, 2}, []float64{310, 262})
	assert.False(t, ok)
}
