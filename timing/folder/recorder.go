package folder

import "headhours/timing/study"

// Holds says whether a log holds a journal's reading, by its study.Reading.Journal.
func (o *Opened) Holds(journal string) bool {
	_, held := o.held[journal]
	return held
}

// Ours is a journal's reading with the study's names in place of others that stand for
// them; a name that the study lacks stays.
func (o *Opened) Ours(r study.Reading) study.Reading {
	for _, n := range []struct {
		name *string
		find func(string) (string, bool)
	}{{&r.Step, o.dialect.OurStep}, {&r.Workflow, o.dialect.OurWorkflow}} {
		if ours, ok := n.find(*n.name); ok {
			*n.name = ours
		}
	}
	r.Grow, r.Worker = o.dialect.OurGrow(r.Grow), o.dialect.OurWorker(r.Worker)
	return r
}
