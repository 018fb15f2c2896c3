package study

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyNumbers are numbers that are known, and one that is not.
var anyNumbers = []Maybe{{}, Known(0), Known(1), Known(-2.5), Known(1e300), Known(-1e300), Known(5e-324)}

// What is reckoned with a number that is not known is not known, nor is what is no number;
// all else is as it is reckoned without.
func TestMaybeArithmetic(t *testing.T) {
	for _, a := range anyNumbers {
		for _, b := range anyNumbers {
			for name, c := range map[string]struct {
				got  Maybe
				want float64
			}{
				"by": {a.By(b), a.Value * b.Value}, "and": {a.And(b), a.Value + b.Value}, "over": {a.Over(b), a.Value / b.Value},
			} {
				want := Known(c.want)
				if !a.Known || !b.Known {
					want = Maybe{}
				}
				assert.Equal(t, want, c.got, "%v %s %v", a, name, b)
			}
			if b.Known {
				assert.Equal(t, a.By(b), a.Times(b.Value), "%v times %v", a, b)
				assert.Equal(t, a.And(b), a.Plus(b.Value), "%v plus %v", a, b)
			}
			assert.Equal(t, a.By(b), b.By(a))
			assert.Equal(t, a.And(b), b.And(a))
		}
		assert.Equal(t, Maybe{}, a.Over(Known(0)), "%v over nothing", a)
	}
}

func TestKnownIsFinite(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Equal(t, Maybe{}, Known(x))
		assert.Equal(t, Maybe{}, Known(1).Times(x))
		assert.Equal(t, Maybe{}, Known(1).Plus(x))
	}
	assert.Equal(t, Maybe{0, true}, Known(0))
}

// JSON has the number to its last digit, or null, and is read back as it was.
func TestMaybeJSON(t *testing.T) {
	for _, m := range anyNumbers {
		data, err := json.Marshal(m)
		require.NoError(t, err)
		assert.Equal(t, m.Known, string(data) != "null")
		back := Known(7)
		require.NoError(t, json.Unmarshal(data, &back))
		assert.Equal(t, m, back, string(data))
	}
	var m Maybe
	assert.Error(t, json.Unmarshal([]byte(`"1"`), &m))
	data, err := json.Marshal(struct{ A, B Maybe }{Known(0.1), Maybe{}})
	require.NoError(t, err)
	assert.JSONEq(t, `{"A":0.1,"B":null}`, string(data))
}

func TestFactor(t *testing.T) {
	assert.Equal(t, 1.0, Factor(Maybe{}))
	assert.Equal(t, 0.0, Factor(Known(0)))
	assert.Equal(t, 1.5, Factor(Known(1.5)))
}
