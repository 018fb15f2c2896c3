package terminal

import (
	"headhours/timing/answer"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// holds says whether a log holds a journal's reading.
func (d *desk) holds(r study.Reading) bool {
	return r.Journal != "" && d.latest.Holds != nil && d.latest.Holds(r.Journal)
}

// ours is a reading by the study's names.
func (d *desk) ours(r study.Reading) study.Reading {
	if d.latest.Ours == nil {
		return r
	}
	return d.latest.Ours(r)
}

// complete is the readings of a session that lack nothing, save those that a log holds
// already and the one with an ID.
func (d *desk) complete(s stopwatch.State, but string) []study.Reading {
	var list []study.Reading
	for _, r := range s.Readings {
		if r.Lacks() == "" && r.ID != but && !d.holds(r.Reading) {
			list = append(list, d.ours(r.Reading))
		}
	}
	return list
}

// modelsBut are the models of all that was timed, save the reading with an ID.
func (d *desk) modelsBut(id string) *answer.Models {
	var readings []study.Reading
	for _, s := range d.sessions {
		readings = append(readings, d.complete(s, id)...)
	}
	readings = append(readings, d.complete(d.state, id)...)
	if d.latest.Models == nil {
		return answer.Fit(d.study, readings, answer.Options{})
	}
	return answer.NewModels(d.latest.Models.With(readings), answer.Options{})
}

// growReading is readings of a step in a grow, of one day.
type growReading struct {
	stopwatch.Reading
	readings int
}

// growReadings is what was timed in the grow in hand, and what is being timed. Work that
// is of no named grow is taken to be of the session's own.
func (d *desk) growReadings() []growReading {
	var readings []growReading
	add := func(r stopwatch.Reading) { readings = append(readings, growReading{r, 1}) }
	if d.names.Grow != "" {
		readings = d.ofLogs()
		for _, s := range d.sessions {
			for _, r := range d.complete(s, "") {
				if r.Grow == d.names.Grow {
					add(stopwatch.Reading{Reading: r, Counted: study.Known(r.Count)})
				}
			}
		}
	}
	for _, r := range d.state.Readings {
		if r.Grow == d.names.Grow && !d.holds(r.Reading) {
			add(r)
		}
	}
	return readings
}

// ofLogs is what the logs say was done in the grow in hand, as far as that is known.
func (d *desk) ofLogs() []growReading {
	if d.doneIn != d.names.Grow {
		return nil
	}
	list := make([]growReading, len(d.done))
	for i, o := range d.done {
		r := study.Reading{Step: o.Step, Date: o.Day.Date(), Count: o.Count, Grow: d.names.Grow}
		list[i] = growReading{stopwatch.Reading{Reading: r, Counted: study.Known(o.Count)}, o.Readings}
	}
	return list
}
