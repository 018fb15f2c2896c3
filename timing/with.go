package timing

import (
	"maps"
	"slices"

	"headhours/timing/stepfit"
)

// With is what readings come to with more of them, which are at hand, behind; c stays as it
// is. Readings of a step that the study lacks are passed over.
func (c *Condensed) With(readings []Reading) *Condensed {
	if len(readings) == 0 {
		return c
	}
	g, more := gatheringOf(c), InMemory(readings)
	_ = more(g.Take) // Take returns no error
	return g.Condensed(func(take func(*Batch) error) error {
		if err := c.again(take); err != nil {
			return err
		}
		return more(take)
	})
}

// gatheringOf goes on gathering where one that has ended stood.
func gatheringOf(c *Condensed) *Gathering {
	made := *c
	made.Study.Steps = slices.Clip(c.Study.Steps)
	made.Steps, made.grown = slices.Clone(c.taken), map[string]*grown{}
	g := &Gathering{made: &made, dates: c.Study.changedOn(), steps: map[string]*Step{}, tables: map[*Table]*known{}}
	for i := range made.Steps {
		s := &made.Steps[i]
		s.kinds, s.kept = s.kinds.clone(), s.kept.clone()
		g.kinds += len(s.kinds.list)
		if s.kinds.joined {
			g.joined.Store(true)
		}
		g.steps[s.Step.Name] = &s.Step
		if len(s.kept.first) == firstReadings {
			g.outlines.Store(s.Step.Name, &s.kept.outline)
		}
	}
	for name, of := range c.grown {
		other := *of
		other.begun = maps.Clone(of.begun)
		made.grown[name] = &other
	}
	for _, name := range c.Grows {
		g.met[GrowNames].add(name)
	}
	for _, name := range c.Workers {
		g.met[WorkerNames].add(name)
	}
	return g
}

func (k *kinds) clone() kinds {
	other := kinds{joined: k.joined}
	for _, o := range k.list {
		a := other.at(o.kind)
		before := a.before
		*a = *o
		a.before = before
		if o.sums != nil {
			a.sums = new(stepfit.Sums)
			*a.sums = *o.sums
		}
	}
	return other
}

func (k *kept) clone() kept {
	other := *k
	other.first = slices.Clone(k.first)
	for q := range other.far {
		other.far[q].list = slices.Clone(k.far[q].list)
	}
	return other
}
