package answer

import "headhours/timing/condense"

// LastDay is the day of the latest reading that counts; NoDay where none has a date.
func (m *Models) LastDay() condense.Day {
	last := condense.NoDay
	for _, s := range m.Steps {
		for _, k := range s.Kinds.All() {
			last = max(last, k.Last)
		}
	}
	return last
}
