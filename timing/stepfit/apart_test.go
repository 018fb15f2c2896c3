package stepfit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The extra sum of squares of sets, and Wald's test with a random effect: anova and
// lmerTest of R.
func TestSetsAgreeWithReference(t *testing.T) {
	_, cases := groupsCases(t)
	for _, c := range cases {
		t.Run(c.ID, func(t *testing.T) {
			parts := partsOf(t, c)
			fit := Fit{Form: SetupUnit, Spread: c.Spread}
			if c.Grouped {
				fit.BetweenSD = 1
			}
			test, ok := fit.Apart(parts)
			require.True(t, ok)
			assert.EqualValues(t, c.Expected.DF1, test.DF1)
			assert.InEpsilon(t, c.Expected.F, test.F, 10*asR)
			assert.InEpsilon(t, c.Expected.DF2, test.DF2, 50*asR)
			assert.InEpsilon(t, c.Expected.P, test.P, 50*asR)
		})
	}
}

func partsOf(t *testing.T, c groupsCase) []Part {
	groups, sets := numbered{}, numbered{}
	var parts []Part
	for _, row := range table(t, c.Data) {
		p := Part{Set: sets.of(row[c.By]), Group: groups.of(row["group"])}
		p.Add(number(t, row["setups"]), number(t, row["count"]), number(t, row["time"]))
		parts = append(parts, p)
	}
	return parts
}

// Sets of one count each fit any line through two of them: only a third tells.
func TestSetsThatCannotBeTold(t *testing.T) {
	part := func(set int, count, seconds float64) Part {
		p := Part{Set: set}
		p.Add(1, count, seconds)
		return p
	}
	parts := []Part{part(0, 10, 100), part(0, 10, 110), part(1, 20, 300), part(1, 20, 310)}
	fit := Fit{Form: SetupUnit}
	_, ok := fit.Apart(parts)
	assert.False(t, ok)
	test, ok := fit.Apart(append(parts, part(2, 15, 150), part(2, 15, 155)))
	require.True(t, ok)
	assert.Equal(t, 1, test.DF1)
	assert.EqualValues(t, 3, test.DF2)
	_, ok = fit.Apart(parts[:2])
	assert.False(t, ok)
}
