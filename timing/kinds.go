package timing

import "headhours/timing/stepfit"

// kind is what readings of a step may have in common.
type kind struct{ workflow, grow, worker string }

// ofKind is all readings of a step of one kind.
type ofKind struct {
	kind
	stepfit.Sums
	days
}

// days are the dates that readings have.
type days struct {
	first, last Day  // NoDay without
	undated     bool // one has none
}

var noDays = days{first: NoDay, last: NoDay}

func (d *days) add(day Day) {
	switch {
	case day == NoDay:
		d.undated = true
	case d.first == NoDay || day < d.first:
		d.first = day
	}
	d.last = max(d.last, day)
}

func (d *days) merge(o days) {
	d.undated = d.undated || o.undated
	if o.first != NoDay {
		d.add(o.first)
		d.add(o.last)
	}
}

// mostKinds bounds what is kept of all steps together. Of the step with the most
// kinds the readings are then kept by their workflow alone, and it is not grouped.
const mostKinds = 12_000

// kinds are the readings of a step by kind, in order of first appearance.
type kinds struct {
	list     []*ofKind
	index    map[kind]*ofKind
	overflow bool // they are kept by their workflow alone
}

// at finds a kind, or begins it.
func (k *kinds) at(what kind) *ofKind {
	if k.overflow {
		what = kind{workflow: what.workflow}
	}
	a := k.index[what]
	if a == nil {
		if k.index == nil {
			k.index = map[kind]*ofKind{}
		}
		a = &ofKind{kind: what, days: noDays}
		k.index[what] = a
		k.list = append(k.list, a)
	}
	return a
}

// join keeps the readings by their workflow alone from now on.
func (k *kinds) join() {
	old := k.list
	*k = kinds{overflow: true}
	for _, o := range old {
		a := k.at(o.kind)
		a.Merge(o.Sums)
		a.days.merge(o.days)
	}
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

// under is the readings that were logged under a workflow.
func (k *kinds) under(workflow string) stepfit.Sums {
	var sums stepfit.Sums
	for _, a := range k.list {
		if a.workflow == workflow {
			sums.Merge(a.Sums)
		}
	}
	return sums
}
