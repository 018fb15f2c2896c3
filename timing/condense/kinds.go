package condense

import (
	"iter"

	"headhours/timing/stepfit"
)

// Kind is what readings of a step may have in common.
type Kind struct{ Workflow, Grow, Worker string }

// kindKey is a kind by the numbers of its names.
type kindKey struct{ workflow, grow, worker uint32 }

// kindNames are the names that kinds have, by their numbers.
type kindNames [naming]Index[string]

func (n *kindNames) key(what Kind) kindKey {
	return kindKey{n[WorkflowNames].Of(what.Workflow), n[GrowNames].Of(what.Grow), n[WorkerNames].Of(what.Worker)}
}

func (n *kindNames) kind(key kindKey) Kind {
	return Kind{n[WorkflowNames].List[key.workflow], n[GrowNames].List[key.grow], n[WorkerNames].List[key.worker]}
}

// kindReadings is all readings of a step of one kind. There are many kinds, of most of which
// there are few readings: those take less room than their sums.
type kindReadings struct {
	key kindKey
	dateRange
	few  []stepfit.Reading // some, no more than maxFew
	sums *stepfit.Sums     // of all, some among them; nil while those are all
}

// maxFew is how many readings are sooner taken in one by one than together.
const maxFew = 3

func (o *kindReadings) add(r stepfit.Reading) {
	if o.sums == nil && len(o.few) < maxFew {
		o.few = append(o.few, r)
		return
	}
	o.summed().Add(r.Load, r.Seconds)
}

func (o *kindReadings) merge(s stepfit.Sums) { o.summed().Merge(s) }

func (o *kindReadings) summed() *stepfit.Sums {
	if o.sums == nil {
		all := o.all()
		o.sums = &all
	}
	return o.sums
}

// all is the sums of all readings.
func (o *kindReadings) all() stepfit.Sums {
	var s stepfit.Sums
	o.Into(&s)
	return s
}

// Into takes all readings into sums.
func (o *kindReadings) Into(s *stepfit.Sums) {
	if o.sums != nil {
		s.Merge(*o.sums)
		return
	}
	for _, r := range o.few {
		s.Add(r.Load, r.Seconds)
	}
}

// dateRange are the dates that readings have.
type dateRange struct {
	First, Last Day // NoDay without
	Undated     int32
}

var noDays = dateRange{First: NoDay, Last: NoDay}

func (d *dateRange) add(day Day) {
	switch {
	case day == NoDay:
		d.Undated++
	case d.First == NoDay || day < d.First:
		d.First = day
	}
	d.Last = max(d.Last, day)
}

func (d *dateRange) merge(o dateRange) {
	d.Undated += o.Undated
	if o.First != NoDay {
		d.add(o.First)
		d.add(o.Last)
	}
}

// maxKinds bounds what is kept of all steps together. Beyond it readings are kept by their
// workflow alone: what grows or workers have in common is then not known, all else is exact,
// and a note says so.
const maxKinds = 32_000

// readingsByKind are the readings of a step by kind, in order of first appearance.
type readingsByKind struct {
	names  *kindNames
	list   []*kindReadings
	index  map[kindKey]uint32 // in the list
	room   []kindReadings     // for those to come
	Joined bool               // they are kept by their workflow alone
}

// maxRoom is for how many kinds room is made at once.
const maxRoom = 64

// All goes through the kinds and the readings of each.
func (k *readingsByKind) All() iter.Seq2[Kind, *kindReadings] {
	return func(yield func(Kind, *kindReadings) bool) {
		for _, o := range k.list {
			if !yield(k.names.kind(o.key), o) {
				return
			}
		}
	}
}

// at finds a kind, or begins it.
func (k *readingsByKind) at(key kindKey) *kindReadings {
	if k.Joined {
		key = kindKey{workflow: key.workflow}
	}
	if at, ok := k.index[key]; ok {
		return k.list[at]
	}
	if k.index == nil {
		k.index = map[kindKey]uint32{}
	}
	k.index[key] = uint32(len(k.list))
	if len(k.room) == 0 {
		k.room = make([]kindReadings, min(len(k.list)+1, maxRoom))
	}
	a := &k.room[0]
	k.room = k.room[1:]
	a.key, a.dateRange = key, noDays
	k.list = append(k.list, a)
	return a
}

// join keeps the readings by their workflow alone from now on.
func (k *readingsByKind) join() {
	old := k.list
	*k = readingsByKind{names: k.names, Joined: true}
	for _, o := range old {
		a := k.at(o.key)
		o.Into(a.summed())
		a.dateRange.merge(o.dateRange)
	}
}

// sums is all readings together.
func (k *readingsByKind) sums() stepfit.Sums {
	var all stepfit.Sums
	for _, a := range k.list {
		a.Into(&all)
	}
	return all
}

// Tally is what some readings come to, without how they scatter.
type Tally struct {
	Readings int
	stepfit.Load
	Seconds float64
}

func (t *Tally) add(o *kindReadings) {
	if o.sums != nil {
		load, seconds := o.sums.Totals()
		t.Readings += o.sums.Readings
		t.Load, t.Seconds = t.Load.Plus(load), t.Seconds+seconds
		return
	}
	t.Readings += len(o.few)
	for _, r := range o.few {
		t.Load, t.Seconds = t.Load.Plus(r.Load), t.Seconds+r.Seconds
	}
}

// Tallies is the readings by the value of something that kinds have, in order of first
// appearance, with those values.
func (k *readingsByKind) Tallies(value func(Kind) string) (names []string, tallies []Tally) {
	var of Index[string]
	for what, o := range k.All() {
		at := int(of.Of(value(what)))
		if at == len(tallies) {
			tallies = append(tallies, Tally{})
		}
		tallies[at].add(o)
	}
	return of.List, tallies
}

// Crosses is what each kind's readings come to beside a fit.
func (k *readingsByKind) Crosses(fit stepfit.Fit) []stepfit.Cross {
	all := make([]stepfit.Cross, len(k.list))
	for i, a := range k.list {
		if a.sums != nil {
			all[i] = a.sums.Cross(fit)
			continue
		}
		for _, r := range a.few {
			all[i].Add(r.Cross(fit))
		}
	}
	return all
}

// CrossBy adds crosses up by the group that each kind is of, in order of first appearance:
// the numbers of those groups among all, and the crosses of each.
func (k *readingsByKind) CrossBy(of func(Kind) string, all *Index[string], crosses []stepfit.Cross) (groups []int, sums []stepfit.Cross) {
	within := make([]int, len(all.List)) // the place of a group in groups, from 1
	for i, a := range k.list {
		group := int(all.Of(of(k.names.kind(a.key))))
		if group == len(within) {
			within = append(within, 0)
		}
		if within[group] == 0 {
			groups, sums = append(groups, group), append(sums, stepfit.Cross{})
			within[group] = len(groups)
		}
		sums[within[group]-1].Add(crosses[i])
	}
	return groups, sums
}

// Under is the readings that were logged under a workflow.
func (k *readingsByKind) Under(workflow string) Tally {
	var t Tally
	for what, o := range k.All() {
		if what.Workflow == workflow {
			t.add(o)
		}
	}
	return t
}
