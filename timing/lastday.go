package timing

// LastDay is the day of the latest reading that counts; NoDay where none has a date.
func (m *Models) LastDay() Day {
	last := NoDay
	for _, s := range m.Steps {
		for _, k := range s.kinds.list {
			last = max(last, k.last)
		}
	}
	return last
}
