package condense

import (
	"maps"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// With is what readings come to with more of them, which are at hand, behind; c stays as it
// is. Readings of a step that the study lacks are passed over.
func (c *Condensed) With(readings []study.Reading) *Condensed {
	if len(readings) == 0 {
		return c
	}
	g, more := gatheringOf(c), InMemory(readings)
	_ = more(nil, g.Take) // Take returns no error
	return g.Condensed(func(look func(*Batch), take func(*Batch) error) error {
		if err := c.Again(look, take); err != nil {
			return err
		}
		return more(look, take)
	})
}

// gatheringOf goes on gathering where one that has ended stood.
func gatheringOf(c *Condensed) *Gathering {
	condensed := *c
	condensed.Study.Steps = slices.Clip(c.Study.Steps)
	condensed.Steps, condensed.growTallies = slices.Clone(c.allSteps), map[string]*growTally{}
	g := newGathering()
	g.condensed, g.dates = &condensed, changedOn(c.Study)
	for i := range condensed.Steps {
		s := &condensed.Steps[i]
		s.Kinds, s.Kept = s.Kinds.clone(&g.kinds), s.Kept.clone()
		g.many += s.Kinds.count
		if s.Kinds.Joined {
			g.joined.Store(true)
		}
		if _, ok := condensed.Index[s.Step.Name]; ok { // no reading names a stage before a change
			g.steps[s.Step.Name] = &s.Step
		}
		if len(s.Kept.First) == firstReadings {
			g.outlined(s)
		}
	}
	for name, of := range c.growTallies {
		other := *of
		other.Visits = maps.Clone(of.Visits)
		condensed.growTallies[name] = &other
	}
	for _, name := range c.Grows {
		g.seen[GrowNames].add(name)
	}
	for _, name := range c.Workers {
		g.seen[WorkerNames].add(name)
	}
	return g
}

func (k *readingsByKind) clone(kinds *kinds) readingsByKind {
	other := readingsByKind{kinds: kinds, Joined: k.Joined}
	for what, o := range k.All() {
		a := other.at(kinds.numberOf(what))
		a.dateRange, a.first, a.waiting = o.dateRange, o.first, o.waiting
		if o.rest != nil {
			a.rest = new([maxWaiting - 1]stepfit.Reading)
			*a.rest = *o.rest
		}
		if o.sums != nil {
			a.sums = new(stepfit.Sums)
			*a.sums = *o.sums
		}
	}
	return other
}

func (k *Kept) clone() Kept {
	other := *k
	other.First, other.Past, other.origins = slices.Clone(k.First), slices.Clone(k.Past), slices.Clone(k.origins)
	for q := range other.far {
		other.far[q] = slices.Clone(k.far[q])
	}
	return other
}
