package folder

import (
	"errors"
	"fmt"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

// meantBy is a filter by the names that readings have, where it has one of them in another
// case or with other blanks; false where it is that already, or the logs cannot be read again.
func (o *opener) meantBy(f condense.Filter) (meant condense.Filter, other bool) {
	for _, l := range o.opened.logs {
		if !l.info.Mode().IsRegular() {
			return f, false
		}
	}
	meant = f
	for _, n := range []struct {
		name  *string
		known []string
	}{{&meant.Worker, o.opened.Readings.Workers}, {&meant.Grow, o.opened.Readings.Grows}} {
		if *n.name == "" || len(n.known) == condense.MaxNames {
			continue
		}
		if same, ok := study.SameName(*n.name, n.known); ok {
			*n.name = same
		}
	}
	return meant, meant != f
}

// alikeNames are names of readings that differ in case or blanks alone.
type alikeNames struct {
	of     int // what they name: see condense.StepNames
	kind   string
	first  string // of those that are alike
	other  string // a later one
	places [2]study.Place
}

// maxAlike is how many of them are told.
const maxAlike = 20

// lookAtNames warns of grows, of workers and, without a study, of steps that are hardly meant
// as two. Readings are gone through once more only where there are such.
func (o *opener) lookAtNames() {
	c := o.opened.Readings
	all := append(apartByCase(condense.GrowNames, "grow", c.Grows), apartByCase(condense.WorkerNames, "worker", c.Workers)...)
	if !o.opened.HasStudy {
		var steps []string
		for i := range c.Steps[:min(len(c.Steps), condense.MaxNames)] {
			steps = append(steps, c.Steps[i].Step.Name)
		}
		all = append(all, apartByCase(condense.StepNames, "step", steps)...)
	}
	more := len(all) - maxAlike
	all = all[:min(len(all), maxAlike)]
	if len(all) == 0 || o.placesOf(all) != nil {
		return // what is wrong with a log that was read a moment ago is told where it is read next
	}
	for _, a := range all {
		text := fmt.Sprintf("%s %s differs from %s at %s in case or blanks alone, and they are taken for two: write both alike if they are one",
			a.kind, words.Quote(a.other), words.Quote(a.first), a.places[0])
		if a.of == condense.WorkerNames && o.opened.HasStudy {
			text += ", or " + tasklog.Joins(a.kind, a.other, a.first)
		}
		o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: a.places[1], Text: text})
	}
	if more > 0 {
		o.warn(o.opened.Dir, fmt.Sprintf("%s of readings %s so", words.Many(more, "more name"), words.Agree(more, "differs", "differ")))
	}
}

// apartByCase finds the names that are the same as an earlier one but for case or blanks.
func apartByCase(of int, kind string, names []string) (found []alikeNames) {
	first := make(map[string]string, len(names))
	for _, name := range names {
		folded := study.FoldedName(name)
		if other, ok := first[folded]; !ok {
			first[folded] = name
		} else if other != name {
			found = append(found, alikeNames{of: of, kind: kind, first: other, other: name})
		}
	}
	return found
}

var errAllFound = errors.New("all names were found")

// placesOf finds where each of the names stands first. The error is that of reading the
// readings again.
func (o *opener) placesOf(all []alikeNames) error {
	wanted := map[int]map[string]*study.Place{}
	left := 0
	for _, a := range all {
		if wanted[a.of] == nil {
			wanted[a.of] = map[string]*study.Place{}
		}
		for _, name := range []string{a.first, a.other} {
			if wanted[a.of][name] == nil {
				wanted[a.of][name] = &study.Place{}
				left++
			}
		}
	}
	err := o.opened.again(nil, func(b *condense.Batch) error {
		for of, names := range wanted {
			if !slices.ContainsFunc(b.Names[of], func(name string) bool { return names[name] != nil }) {
				continue
			}
			for i := range b.Rows.Len() {
				r := b.Rows.At(i)
				if at := names[b.Name(r, of)]; at != nil && *at == (study.Place{}) {
					*at = b.Place(r)
					left--
				}
			}
		}
		if left == 0 {
			return errAllFound
		}
		return nil
	})
	for i := range all {
		a := &all[i]
		a.places = [2]study.Place{*wanted[a.of][a.first], *wanted[a.of][a.other]}
	}
	if errors.Is(err, errAllFound) {
		return nil
	}
	return err
}
