package answer

import (
	"fmt"

	"headhours/timing/words"
)

// farFromEstimate is how many times as long as its estimate a step takes where minutes
// and seconds are likely to be mixed up.
const farFromEstimate = 20

// FarFromEstimates says of which steps the readings take so many times as long as their
// estimate, or it as they, that one of the two is likely to be written in another unit.
func (m *Models) FarFromEstimates() []string {
	var cautions []string
	for i := range m.Steps {
		s := &m.Steps[i]
		if s.Readings == 0 || s.Step.Estimate == nil || len(s.Kept.First) == 0 {
			continue
		}
		mean := s.Sums.Mean()
		timed, judged := s.Model.At(mean), fit(*s.Step.Estimate).At(mean)
		if !(timed > 0 && judged > 0) || timed < farFromEstimate*judged && judged < farFromEstimate*timed {
			continue
		}
		first := s.Kept.First[0]
		how, times := "takes %s times as long as", timed/judged
		if times < 1 {
			how, times = "is %s times as quick as", judged/timed
		}
		cautions = append(cautions, fmt.Sprintf("%s "+how+" its estimate says, as if minutes were read as seconds or seconds as minutes: see %s, "+
			"where %s s are read; write the unit behind the time, as in 6.5min or 6.5s, there and in the estimate",
			words.Show(s.Step.Name), words.Fixed(times, 0), first.Place(), words.Digits(first.Seconds, 4)))
	}
	return cautions
}
