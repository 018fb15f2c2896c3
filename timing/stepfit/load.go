package stepfit

// Load is what is asked of a step: so many of its setup times and so many of its unit
// times. As that of a reading it is how often the step was set up in it, 0 or more, and the
// count that it covered, 0 or more, one of the two above 0.
type Load struct{ Setups, Count float64 }

// Plus is two loads together.
func (l Load) Plus(o Load) Load { return Load{Setups: l.Setups + o.Setups, Count: l.Count + o.Count} }

// Times is a load f times.
func (l Load) Times(f float64) Load { return Load{Setups: f * l.Setups, Count: f * l.Count} }

// By is a load with its setups and count multiplied each by its own factor.
func (l Load) By(f Load) Load { return Load{Setups: l.Setups * f.Setups, Count: l.Count * f.Count} }

// Reading is one reading of a step.
type Reading struct {
	Load
	Seconds float64 // basic person-seconds
}
