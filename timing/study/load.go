package study

// By is a load with its setups and count multiplied each by its own factor.
func (l Load) By(f Load) Load { return Load{Setups: l.Setups * f.Setups, Count: l.Count * f.Count} }

// Load is what a linear form asks of a step: so many of its setup times and so
// many of its unit times.
type Load struct{ Setups, Count float64 }

// Plus is two loads together.
func (l Load) Plus(o Load) Load { return Load{Setups: l.Setups + o.Setups, Count: l.Count + o.Count} }

// Times is a load f times.
func (l Load) Times(f float64) Load { return Load{Setups: f * l.Setups, Count: f * l.Count} }
