package timing

import (
	"hash/maphash"

	"headhours/timing/stepfit"
)

// kind is what readings of a step may have in common.
type kind struct{ workflow, grow, worker string }

// ofKind is all readings of a step of one kind: of most there are few, which take less
// room than their sums.
type ofKind struct {
	kind
	days
	some [few]stepfit.Reading
	n    int           // how many of some
	sums *stepfit.Sums // of all, some among them; nil while those are all

	before *ofKind // another of the same hash
}

// few is how many readings are sooner taken in one by one than together.
const few = 3

func (o *ofKind) add(r stepfit.Reading) {
	if o.sums == nil && o.n < few {
		o.some[o.n] = r
		o.n++
		return
	}
	o.summed().Add(r.Setups, r.Count, r.Seconds)
}

func (o *ofKind) merge(s stepfit.Sums) { o.summed().Merge(s) }

func (o *ofKind) summed() *stepfit.Sums {
	if o.sums == nil {
		all := o.all()
		o.sums = &all
	}
	return o.sums
}

// all is the sums of all readings.
func (o *ofKind) all() stepfit.Sums {
	var s stepfit.Sums
	o.into(&s)
	return s
}

// into takes all readings into sums.
func (o *ofKind) into(s *stepfit.Sums) {
	if o.sums != nil {
		s.Merge(*o.sums)
		return
	}
	for _, r := range o.some[:o.n] {
		s.Add(r.Setups, r.Count, r.Seconds)
	}
}

// days are the dates that readings have.
type days struct {
	first, last Day // NoDay without
	undated     int32
}

var noDays = days{first: NoDay, last: NoDay}

func (d *days) add(day Day) {
	switch {
	case day == NoDay:
		d.undated++
	case d.first == NoDay || day < d.first:
		d.first = day
	}
	d.last = max(d.last, day)
}

func (d *days) merge(o days) {
	d.undated += o.undated
	if o.first != NoDay {
		d.add(o.first)
		d.add(o.last)
	}
}

// mostKinds bounds what is kept of all steps together. Beyond it readings are kept by their
// workflow alone: what grows or workers have in common is then not known, all else is exact,
// and a note says so.
const mostKinds = 32_000

// kinds are the readings of a step by kind, in order of first appearance.
type kinds struct {
	list   []*ofKind
	index  map[uint64]*ofKind // the last with a hash
	seed   maphash.Seed
	joined bool // they are kept by their workflow alone
}

// at finds a kind, or begins it.
func (k *kinds) at(what kind) *ofKind {
	if k.joined {
		what = kind{workflow: what.workflow}
	}
	if k.index == nil {
		k.index, k.seed = map[uint64]*ofKind{}, maphash.MakeSeed()
	}
	hash := maphash.Comparable(k.seed, what)
	last := k.index[hash]
	for a := last; a != nil; a = a.before {
		if a.kind == what {
			return a
		}
	}
	a := &ofKind{kind: what, days: noDays, before: last}
	k.index[hash] = a
	k.list = append(k.list, a)
	return a
}

// join keeps the readings by their workflow alone from now on.
func (k *kinds) join() {
	old := k.list
	*k = kinds{joined: true}
	for _, o := range old {
		a := k.at(o.kind)
		o.into(a.summed())
		a.days.merge(o.days)
	}
}

// sums is all readings together.
func (k *kinds) sums() stepfit.Sums {
	var all stepfit.Sums
	for _, a := range k.list {
		a.into(&all)
	}
	return all
}

// tally is what some readings come to, without how they scatter.
type tally struct {
	readings               int
	setups, count, seconds float64
}

func (t *tally) add(o *ofKind) {
	if o.sums != nil {
		setups, count, seconds := o.sums.Totals()
		t.readings += o.sums.Readings
		t.setups, t.count, t.seconds = t.setups+setups, t.count+count, t.seconds+seconds
		return
	}
	t.readings += o.n
	for _, r := range o.some[:o.n] {
		t.setups, t.count, t.seconds = t.setups+r.Setups, t.count+r.Count, t.seconds+r.Seconds
	}
}

// tallies is the readings by the value of something that kinds have, in order of first
// appearance, with those values.
func (k *kinds) tallies(value func(kind) string) (names []string, tallies []tally) {
	var of Index[string]
	for _, o := range k.list {
		at := int(of.Of(value(o.kind)))
		if at == len(tallies) {
			tallies = append(tallies, tally{})
		}
		tallies[at].add(o)
	}
	return of.List, tallies
}

// crosses is what each kind's readings come to beside a fit.
func (k *kinds) crosses(fit stepfit.Fit) []stepfit.Cross {
	all := make([]stepfit.Cross, len(k.list))
	for i, a := range k.list {
		if a.sums != nil {
			all[i] = a.sums.Cross(fit)
			continue
		}
		for _, r := range a.some[:a.n] {
			all[i].Add(r.Cross(fit))
		}
	}
	return all
}

// crossBy adds crosses up by the group that each kind is of, in order of first appearance:
// the numbers of those groups among all, and the crosses of each.
func (k *kinds) crossBy(of func(kind) string, all *Index[string], crosses []stepfit.Cross) (groups []int, sums []stepfit.Cross) {
	within := make([]int, len(all.List)) // the place of a group in groups, from 1
	for i, a := range k.list {
		group := int(all.Of(of(a.kind)))
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

// under is the readings that were logged under a workflow.
func (k *kinds) under(workflow string) tally {
	var t tally
	for _, o := range k.list {
		if o.workflow == workflow {
			t.add(o)
		}
	}
	return t
}
