package timing

import "headhours/timing/stepfit"

// kind is what readings of a step may have in common.
type kind struct{ workflow, grow, worker string }

// ofKind is all readings of a step of one kind.
type ofKind struct {
	kind
	stepfit.Sums
	block       *stepfit.Block // readings that Sums does not hold yet; nil where there are few of the kind
	first, last Day            // of the dates they have, NoDay without
	undated     bool           // one has none
}

// blockFrom is how many readings of a kind are taken in one at a time, before it is
// worth the memory of a block.
const blockFrom = 128

func (o *ofKind) add(setups, count, seconds float64) {
	switch {
	case o.block != nil:
		if o.block.Add(setups, count, seconds) {
			o.TakeIn(o.block)
		}
	default:
		o.Add(setups, count, seconds)
		if o.Readings >= blockFrom {
			o.block = new(stepfit.Block)
		}
	}
}

// whole takes in what the block holds.
func (o *ofKind) whole() {
	if o.block != nil {
		o.TakeIn(o.block)
	}
}

// dated takes in a date.
func (o *ofKind) dated(day Day) {
	switch {
	case day == NoDay:
		o.undated = true
		return
	case o.first == NoDay || day < o.first:
		o.first = day
	}
	o.last = max(o.last, day)
}

// mostKinds bounds what is kept of all steps together. Of the step with the most
// kinds the readings are then kept by their workflow alone, and it is not grouped.
const mostKinds = 12_000

// kinds are the readings of a step by kind, in order of first appearance.
type kinds struct {
	list     []*ofKind
	index    map[kind]*ofKind
	latest   *ofKind
	named    [naming]int32 // what the row of latest named, in the batches of the serial number
	serial   int
	overflow bool // they are kept by their workflow alone
}

// of finds the kind of a row, or begins it.
func (k *kinds) of(b *Batch, serial int, r *Brief) *ofKind {
	same := k.serial == serial && k.named[WorkflowNames] == r.Named[WorkflowNames] &&
		(k.overflow || k.named[GrowNames] == r.Named[GrowNames] && k.named[WorkerNames] == r.Named[WorkerNames])
	if !same {
		k.latest = k.at(kind{b.Name(r, WorkflowNames), b.Name(r, GrowNames), b.Name(r, WorkerNames)})
		k.named, k.serial = r.Named, serial
	}
	return k.latest
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
		a = &ofKind{kind: what, first: NoDay, last: NoDay}
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
		o.whole()
		a := k.at(o.kind)
		a.Merge(o.Sums)
		a.undated = a.undated || o.undated
		if o.first != NoDay {
			a.dated(o.first)
			a.dated(o.last)
		}
	}
}

// sums is all readings together.
func (k *kinds) sums() stepfit.Sums {
	var all stepfit.Sums
	for _, a := range k.list {
		a.whole()
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
