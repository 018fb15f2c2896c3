package terminal

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/stopwatch"
)

// judged holds a reading against all the others.
func (d *desk) judged(r stopwatch.Reading) verdict {
	v := verdict{reading: fmt.Sprintf("%s %s for %s", r.Step, clock(r.Seconds), d.counted(r.Count, r.Step))}
	r.Reading = d.ours(r.Reading)
	u, ok := d.modelsBut(r.ID).Usual(r.Step, d.load(r))
	if !ok {
		v.usual = "the first of it that is timed"
		return v
	}
	hands := r.People * r.Rating / 100 // from basic person-seconds to what the clock shows
	v.usual = usually(u, hands)
	if u.StandsOut(r.Basic()) {
		v.standsOut = "shorter than it usually is"
		if r.Basic() > u.Seconds {
			v.standsOut = "longer than it usually is"
		}
	}
	return v
}

func usually(u answer.Usual, hands float64) string {
	word := "usually"
	if u.Readings == 0 {
		word = "judged at"
	}
	text := fmt.Sprintf("%s %s", word, clock(u.Seconds/hands))
	switch {
	case !u.Low.Known && u.Readings == 1:
		return text + ", going by one other reading"
	case !u.Low.Known:
		return text
	case u.Low.Value <= 0:
		return text + fmt.Sprintf(" (up to %s)", clock(u.High.Value/hands))
	}
	return text + fmt.Sprintf(" (between %s and %s)", clock(u.Low.Value/hands), clock(u.High.Value/hands))
}

// load is that of a reading.
func (d *desk) load(r stopwatch.Reading) stepfit.Load {
	for _, s := range d.study.Steps {
		if s.Name == r.Step {
			return s.LoadOf(r.Reading)
		}
	}
	return stepfit.Load{Setups: 1, Count: r.Count}
}

// usualNow is the time that the reading that runs usually takes.
func (d *desk) usualNow(string) (seconds float64, ok bool) {
	r, runs := d.state.Running()
	if !runs {
		return 0, false
	}
	return d.usualOf(r)
}

// usualOf is the time that a reading usually takes, in seconds of the clock: at
// its count, else at the one that is due, else at the mean of what was timed.
func (d *desk) usualOf(r stopwatch.Reading) (seconds float64, ok bool) {
	count := r.Counted
	if !count.Known {
		count = d.dueOf(r.Step)
	}
	r.Count = count.Value
	if d.models == nil {
		return 0, false
	}
	if u, ok := d.models.Usual(r.Step, d.load(r)); ok && count.Known {
		return u.Seconds / r.People, true
	}
	if i, ok := d.models.Index[r.Step]; ok && d.models.Steps[i].Readings > 0 {
		return d.models.Steps[i].Model.AtMean() / r.People, true
	}
	return 0, false
}
