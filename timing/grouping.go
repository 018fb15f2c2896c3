package timing

import (
	"fmt"
	"slices"

	"headhours/timing/stepfit"
)

// Grouping says by what readings of a step may resemble each other: the model has
// a random effect of it. The zero Grouping is AutoGrouping.
type Grouping string

// The groupings. AutoGrouping takes the one of grow and worker that the readings
// speak for, or none.
const (
	NoGrouping   Grouping = "none"
	ByGrow       Grouping = "grow"
	ByWorker     Grouping = "worker"
	AutoGrouping Grouping = "auto"
)

// Groupings lists the groupings.
var Groupings = []Grouping{NoGrouping, ByGrow, ByWorker, AutoGrouping}

// of is the grow or worker of a kind of readings; of all readings the same where
// they are not grouped.
func (g Grouping) of(k kind) string {
	switch g {
	case ByGrow:
		return k.grow
	case ByWorker:
		return k.worker
	}
	return ""
}

// tried are the groupings to try.
func (g Grouping) tried() []Grouping {
	switch g {
	case NoGrouping:
		return nil
	case ByGrow, ByWorker:
		return []Grouping{g}
	}
	return []Grouping{ByGrow, ByWorker}
}

// likelyNoise is the probability, see stepfit.Groups.Alike, from which on
// AutoGrouping takes the differences between groups for noise. Were every estimate
// above zero kept, noise alone would widen the intervals of every other step; at 0.05
// many real differences between few grows go unseen. Simulated for totals of eight
// steps, each timed two to eight times in each of two to ten grows whose standard
// deviation is none to twice that of a reading, 95 % intervals hold the truth 93 to 98
// times in a hundred by this rule, 90 to 98 at 0.05, and 43 to 96 with no grouping.
// Where grows do not differ the rule widens them by a quarter at most, with two grows,
// and hardly with six.
const likelyNoise = 0.1

// likeness is what was found of a grouping.
type likeness struct {
	by       Grouping
	finding  finding
	nameless int // readings that name no grow, or no worker
}

type finding int

const (
	noneNamed finding = iota // none of the readings names one
	someNamed                // but not all
	tooMany                  // more of them than are kept apart
	justOne
	untold    // too few readings to tell groups from scatter
	noFurther // they differ by no more than chance gives
	differ
)

// group gives the model a random effect, as is asked and as the readings speak for
// it: the one with the greater restricted likelihood, grow where they are the same.
func (s *StepModel) group(asked Grouping) {
	s.Grouping = NoGrouping
	if s.Model.Basis != stepfit.Own {
		return
	}
	plain := *s.Model
	for _, by := range asked.tried() {
		found := likeness{by: by}
		var groups stepfit.Groups
		groups, found.nameless, found.finding = s.kinds.groups(by)
		if found.finding == differ {
			var model stepfit.Model
			model, found.finding = grouped(plain, groups, asked == by)
			if found.finding == differ && (s.Grouping == NoGrouping || model.REML > s.Model.REML) {
				s.Model, s.Grouping = &model, by
			}
		}
		s.likeness = append(s.likeness, found)
	}
}

// groups are the readings by grow or worker; differ where they may.
func (k *kinds) groups(by Grouping) (groups stepfit.Groups, nameless int, f finding) {
	names, groups := k.by(by.of)
	if i := slices.Index(names, ""); i >= 0 {
		nameless = groups[i].Readings
	}
	switch {
	case k.overflow:
		return nil, nameless, tooMany
	case len(names) == 1 && nameless > 0:
		return nil, nameless, noneNamed
	case nameless > 0:
		return nil, nameless, someNamed
	case len(names) == 1:
		return nil, 0, justOne
	}
	return groups, 0, differ
}

// grouped is a model with a random effect of groups, where they are found to differ:
// by more than noise is likely to, or at all where the grouping was asked for.
func grouped(plain stepfit.Model, groups stepfit.Groups, asked bool) (stepfit.Model, finding) {
	p, told := groups.Alike(plain.Form, plain.Spread)
	if !told {
		return plain, untold
	}
	if !asked && p >= likelyNoise {
		return plain, noFurther
	}
	if model, ok := plain.With(groups); ok {
		return model, differ
	}
	return plain, noFurther
}

// groupingNotes say what was found of grows and workers.
func (s StepModel) groupingNotes() []string {
	if s.Model.BetweenSD > 0 {
		return []string{fmt.Sprintf("readings %s resemble each other: %ss differ by about %.2g s (standard deviation) beyond the scatter within them",
			ofOne(s.Grouping), s.Grouping, s.Model.BetweenSD)}
	}
	var notes []string
	for _, l := range s.likeness {
		// one person who does all the work is the rule, one grow is not
		asked := len(s.likeness) == 1
		if !asked && (l.finding == noneNamed || l.finding == justOne && l.by == ByWorker) {
			continue
		}
		if note := l.note(s.Readings); note != "" {
			notes = append(notes, note)
		}
	}
	return notes
}

func (l likeness) note(readings int) string {
	switch l.finding {
	case noneNamed:
		return fmt.Sprintf("no reading names a %s: %ss are not told apart", l.by, l.by)
	case someNamed:
		return fmt.Sprintf("%d of %d readings name no %s: %ss are not told apart", l.nameless, readings, l.by, l.by)
	case tooMany:
		return fmt.Sprintf("too many %ss to tell them apart", l.by)
	case justOne:
		return fmt.Sprintf("all readings are %s: how much %ss differ is not known", ofOne(l.by), l.by)
	case untold:
		return fmt.Sprintf("too few readings to tell %ss from scatter", l.by)
	case noFurther:
		return fmt.Sprintf("%ss do not differ beyond chance", l.by)
	}
	return ""
}

func ofOne(by Grouping) string {
	if by == ByWorker {
		return "by one worker"
	}
	return "of one grow"
}
