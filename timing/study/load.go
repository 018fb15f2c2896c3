package study

import (
	"headhours/timing/crop"
	"headhours/timing/stepfit"
)

// SetupsFor is how many setups a count calls for: one a visit, or one for every
// so many counts that a setup covers.
func (s *Step) SetupsFor(count float64) float64 {
	if s.SetupCovers == 0 {
		return 1
	}
	return crop.RoundUp(count / s.SetupCovers)
}

// LoadFor is a count with as many setups as it calls for.
func (s *Step) LoadFor(count float64) stepfit.Load {
	return stepfit.Load{Setups: s.SetupsFor(count), Count: count}
}

// LoadOf is the load of a reading: with the setups that it names, else as many as its count
// called for.
func (s *Step) LoadOf(r Reading) stepfit.Load {
	if r.Setups.Known {
		return stepfit.Load{Setups: r.Setups.Value, Count: r.Count}
	}
	return s.LoadFor(r.Count)
}

// Spared are the setups that one visit in place of several on one day would spare, of
// all that falls on a day of one step.
func (s *Step) Spared(day stepfit.Load) float64 { return max(0, day.Setups-s.SetupsFor(day.Count)) }
