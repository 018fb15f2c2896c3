package answer

import "headhours/timing/stepfit"

// allAsTheyAre is a linear form likewise.
func (m *Models) allAsTheyAre(l linear) linear {
	if len(m.Study.Made) == 0 {
		return l
	}
	now := make(linear, len(l))
	for i, load := range l {
		now[i] = m.AsItIs(i, load)
	}
	return now
}

// takes is the time of a load of a step that is no gap, in basic seconds.
func (m *Models) takes(step int, load stepfit.Load) float64 {
	load = m.AsItIs(step, load)
	return m.Steps[step].Model.At(load)
}

// asWas is the same models for the study as it was before steps were dropped, with no stage
// answered for by what was hoped.
func (m *Models) asWas() *Models {
	past := m.with(m.Before)
	past.Condensed.Stages = nil
	return past
}
