package condense

import (
	"iter"
	"math"

	"headhours/timing/stepfit"
)

// Kind is what readings of a step may have in common.
type Kind struct{ Workflow, Grow, Worker string }

// kindKey is a kind by the numbers of its names: 32 bits of the workflow, 16 of the grow
// and 16 of the worker, who are numbered no further than there are kinds.
type kindKey uint64

const (
	growBits, workerBits = 16, 16
	workflowOnly         = kindKey(math.MaxUint32 << (growBits + workerBits))
)

// kinds are those that readings have, of all steps, and their names, by their numbers. The
// first name of all is "".
type kinds struct {
	names [naming]Index[string]
	keys  Index[kindKey]
}

func newKinds() kinds {
	var k kinds
	for of := range k.names {
		k.names[of].Of("")
	}
	return k
}

// nameOf is the number of a name.
func (k *kinds) nameOf(of int, name string) kindKey { return kindKey(k.names[of].Of(name)) }

// of is the number of a kind by those of its names.
func (k *kinds) of(workflow, grow, worker kindKey) uint32 {
	return k.keys.Of(workflow<<(growBits+workerBits) | grow<<workerBits | worker)
}

func (k *kinds) numberOf(what Kind) uint32 {
	return k.of(k.nameOf(WorkflowNames, what.Workflow), k.nameOf(GrowNames, what.Grow), k.nameOf(WorkerNames, what.Worker))
}

func (k *kinds) at(number uint32) Kind {
	key := k.keys.List[number]
	return Kind{
		Workflow: k.names[WorkflowNames].List[key>>(growBits+workerBits)],
		Grow:     k.names[GrowNames].List[uint16(key>>workerBits)],
		Worker:   k.names[WorkerNames].List[uint16(key)],
	}
}

// workflowOnly is the kind of the workflow alone.
func (k *kinds) workflowOnly(number uint32) uint32 {
	return k.of(k.keys.List[number]>>(growBits+workerBits), 0, 0)
}

// kindReadings is all readings of a step of one kind. There are many kinds, of most of which
// there are few readings: those take less room than their sums.
type kindReadings struct {
	sums  *stepfit.Sums   // of all, the few among them; nil while those are all
	first stepfit.Reading // of the few
	rest  *[maxFew - 1]stepfit.Reading
	few   int32 // how many those are
	kind  uint32
	dateRange
}

// maxFew is how many readings are sooner taken in one by one than together.
const maxFew = 3

func (o *kindReadings) add(r stepfit.Reading) {
	switch {
	case o.sums != nil || o.few == maxFew:
		o.summed().Add(r.Load, r.Seconds)
		return
	case o.few == 0:
		o.first = r
	default:
		if o.rest == nil {
			o.rest = new([maxFew - 1]stepfit.Reading)
		}
		o.rest[o.few-1] = r
	}
	o.few++
}

// each goes through the few readings.
func (o *kindReadings) each(visit func(stepfit.Reading)) {
	if o.few > 0 {
		visit(o.first)
	}
	for i := range o.few - 1 {
		visit(o.rest[i])
	}
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
	o.each(func(r stepfit.Reading) { s.Add(r.Load, r.Seconds) })
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
	kinds  *kinds
	blocks []*[blockSize]kindReadings
	count  int                 // how many of those are there
	pages  []*[pageSize]uint32 // the place of each kind among them by its number, from 1; nil where none is
	Joined bool                // they are kept by their workflow alone
}

const (
	// blockSize is for how many kinds room is made at once.
	blockSize = 32
	// pageSize is few enough for kinds that are far from each other to take little room.
	pageSize = 64
)

// all goes through the readings of each kind.
func (k *readingsByKind) all() iter.Seq[*kindReadings] {
	return func(yield func(*kindReadings) bool) {
		for i := range k.count {
			if !yield(k.inOrder(i)) {
				return
			}
		}
	}
}

func (k *readingsByKind) inOrder(i int) *kindReadings { return &k.blocks[i/blockSize][i%blockSize] }

// All goes through the kinds and the readings of each.
func (k *readingsByKind) All() iter.Seq2[Kind, *kindReadings] {
	return func(yield func(Kind, *kindReadings) bool) {
		for o := range k.all() {
			if !yield(k.kinds.at(o.kind), o) {
				return
			}
		}
	}
}

// at finds a kind, or begins it.
func (k *readingsByKind) at(kind uint32) *kindReadings {
	if k.Joined {
		kind = k.kinds.workflowOnly(kind)
	}
	page := int(kind / pageSize)
	if page >= len(k.pages) {
		k.pages = append(k.pages, make([]*[pageSize]uint32, page+1-len(k.pages))...)
	}
	if k.pages[page] == nil {
		k.pages[page] = new([pageSize]uint32)
	}
	at := &k.pages[page][kind%pageSize]
	if *at == 0 {
		if k.count%blockSize == 0 {
			k.blocks = append(k.blocks, new([blockSize]kindReadings))
		}
		*k.inOrder(k.count) = kindReadings{kind: kind, dateRange: noDays}
		k.count++
		*at = uint32(k.count)
	}
	return k.inOrder(int(*at) - 1)
}

// join keeps the readings by their workflow alone from now on.
func (k *readingsByKind) join() {
	old := *k
	*k = readingsByKind{kinds: k.kinds, Joined: true}
	taking := map[*kindReadings]*stepfit.Block{}
	for o := range old.all() {
		a := k.at(o.kind)
		a.dateRange.merge(o.dateRange)
		if o.sums != nil {
			a.merge(*o.sums)
			continue
		}
		if taking[a] == nil {
			taking[a] = &stepfit.Block{Sums: a.summed()}
		}
		o.each(taking[a].Add)
	}
	for _, rest := range taking {
		rest.Take()
	}
}

// sums is all readings together.
func (k *readingsByKind) sums() stepfit.Sums {
	var all stepfit.Sums
	for a := range k.all() {
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
	t.Readings += int(o.few)
	o.each(func(r stepfit.Reading) { t.Load, t.Seconds = t.Load.Plus(r.Load), t.Seconds+r.Seconds })
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
	all := make([]stepfit.Cross, 0, k.count)
	for a := range k.all() {
		var c stepfit.Cross
		if a.sums != nil {
			c = a.sums.Cross(fit)
		} else {
			a.each(func(r stepfit.Reading) { c.Add(r.Cross(fit)) })
		}
		all = append(all, c)
	}
	return all
}

// CrossBy adds crosses up by the group that each kind is of, in order of first appearance:
// the numbers of those groups among all, and the crosses of each.
func (k *readingsByKind) CrossBy(of func(Kind) string, all *Index[string], crosses []stepfit.Cross) (groups []int, sums []stepfit.Cross) {
	within := make([]int, len(all.List)) // the place of a group in groups, from 1
	i := 0
	for what := range k.All() {
		group := int(all.Of(of(what)))
		if group == len(within) {
			within = append(within, 0)
		}
		if within[group] == 0 {
			groups, sums = append(groups, group), append(sums, stepfit.Cross{})
			within[group] = len(groups)
		}
		sums[within[group]-1].Add(crosses[i])
		i++
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
