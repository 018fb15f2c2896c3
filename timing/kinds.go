package timing

import (
	"time"

	"headhours/timing/stepfit"
)

// kind is what readings of a step may have in common.
type kind struct{ workflow, grow, worker string }

func kindOf(r Reading) kind { return kind{r.Workflow, r.Grow, r.Worker} }

// ofKind is all readings of a step of one kind.
type ofKind struct {
	kind
	stepfit.Sums
	first, last time.Time // of the dates they have
	undated     bool      // one has none
}

// dated takes in a date.
func (o *ofKind) dated(date time.Time) {
	switch {
	case date.IsZero():
		o.undated = true
		return
	case o.first.IsZero() || date.Before(o.first):
		o.first = date
	}
	if date.After(o.last) {
		o.last = date
	}
}

// mostKinds bounds what is kept of a step. Readings of further kinds are kept by
// their workflow alone, and the step is not grouped.
const mostKinds = 10000

// kinds are the readings of a step by kind, in order of first appearance.
type kinds struct {
	list     []*ofKind
	index    map[kind]*ofKind
	overflow bool // some are kept by their workflow alone
}

func (k *kinds) add(r Reading, setups float64) {
	a := k.at(kindOf(r))
	a.Add(setups, r.Count, r.Basic())
	a.dated(r.Date)
}

// at finds a kind, or begins it.
func (k *kinds) at(what kind) *ofKind {
	a := k.index[what]
	if a == nil && len(k.list) >= mostKinds {
		k.overflow = true
		what = kind{workflow: what.workflow}
		a = k.index[what]
	}
	if a == nil {
		if k.index == nil {
			k.index = map[kind]*ofKind{}
		}
		a = &ofKind{kind: what}
		k.index[what] = a
		k.list = append(k.list, a)
	}
	return a
}

// sums is all readings together.
func (k *kinds) sums() stepfit.Sums {
	var all stepfit.Sums
	for _, a := range k.list {
		all.Merge(a.Sums)
	}
	return all
}

// by is the readings by the value of something that kinds have, in order of first
// appearance, with those values.
func (k *kinds) by(value func(kind) string) (names []string, groups stepfit.Groups) {
	index := map[string]int{}
	for _, a := range k.list {
		name := value(a.kind)
		i, met := index[name]
		if !met {
			i = len(names)
			index[name] = i
			names, groups = append(names, name), append(groups, stepfit.Sums{})
		}
		groups[i].Merge(a.Sums)
	}
	return names, groups
}
