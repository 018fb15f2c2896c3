package answer

import (
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
)

// candidates are the readings that may stand out from a step's model, in order; false where
// only reading all of them again can tell.
func (s *StepModel) candidates(screen stepfit.OutlierScreen) (all [2][]condense.Timed, complete bool) {
	k := &s.Kept
	if s.Readings == len(k.First) {
		return [2][]condense.Timed{k.First}, true
	}
	spread := s.Model.Spread
	for _, o := range append(slices.Clip(k.Past), k.Outline) {
		if !screen.Within(o.SetupSec, o.UnitSec, math.Sqrt(o.Squares[spread]), s.Sums) {
			return all, false
		}
	}
	return [2][]condense.Timed{k.First, k.Far(spread)}, true
}
