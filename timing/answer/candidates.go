package answer

import (
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
)

// candidates are the readings that may stand out from a step's model; false where only
// reading all of them again can tell.
func (s *StepModel) candidates(screen stepfit.OutlierScreen) ([]condense.Timed, bool) {
	k := &s.Kept
	if s.Readings == len(k.First) {
		return k.First, true
	}
	spread := s.Model.Spread
	if !screen.Within(k.Model, math.Sqrt(k.Outline.Squares[spread]), s.Sums) {
		return nil, false
	}
	return append(slices.Clip(k.First), k.Far[spread]...), true
}
