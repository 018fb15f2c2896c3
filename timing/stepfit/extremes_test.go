package stepfit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The t of one degree of freedom is tan(π/2·confidence); at the last confidence below
// 1 it is still finite.
func TestQuantileAtTheLastConfidence(t *testing.T) {
	last := math.Nextafter(1, 0)
	assert.InEpsilon(t, 2/(math.Pi*(1-last)), Quantile(last, 1), 1e-6)
	assert.InEpsilon(t, 8.2, Quantile(last, math.Inf(1)), 0.02) // two-sided p of 1.1e-16
}

// One reading that dwarfs the others leaves nothing to tell setup from unit time by.
func TestOneReadingDwarfsTheOthers(t *testing.T) {
	var s Sums
	s.Add(Load{3.9e10, 1.9e11}, 60)
	s.Add(Load{1e-6, 1e-6}, 50)
	m := s.Choose(Options{})
	assert.Equal(t, Unit, m.Form)
	assert.NotNil(t, m.Bracket)
	assert.Equal(t, SetupUnit, s.Choose(Options{Form: SetupUnit}).Refused)
}
