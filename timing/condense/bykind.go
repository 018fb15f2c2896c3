package condense

import (
	"iter"

	"headhours/timing/stepfit"
)

// readingsByKind are the readings of a step by kind, in order of first appearance.
type readingsByKind struct {
	kinds  *kinds
	blocks []*[blockSize]kindReadings
	count  int          // how many of those are there
	places []*placePage // of the kinds among them
	slots  []uint32     // of the kinds in the gathering, by their places; 0 where there is none yet
	Joined bool         // they are kept by their workflow alone
}

// blockSize is for how many kinds room is made at once.
const blockSize = 32

// placePage is the places of so many kinds, from 1; 0 where there is none.
type placePage [pageSize]uint32

const pageSize = 256

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
func (k *readingsByKind) at(kind uint32) *kindReadings { return k.inOrder(k.placeOf(kind)) }

// placeOf is its place in that order.
func (k *readingsByKind) placeOf(kind uint32) int {
	if k.Joined {
		kind = k.kinds.workflowOnly(kind)
	}
	page := int(kind / pageSize)
	if page < len(k.places) && k.places[page] != nil && k.places[page][kind%pageSize] > 0 {
		return int(k.places[page][kind%pageSize]) - 1
	}
	return k.begin(kind)
}

func (k *readingsByKind) begin(kind uint32) (place int) {
	page := int(kind / pageSize)
	if more := page + 1 - len(k.places); more > 0 {
		k.places = append(k.places, make([]*placePage, more)...)
	}
	if k.places[page] == nil {
		k.places[page] = new(placePage)
	}
	if k.count%blockSize == 0 {
		k.blocks = append(k.blocks, new([blockSize]kindReadings))
	}
	k.count++
	k.places[page][kind%pageSize] = uint32(k.count)
	k.slots = append(k.slots, 0)
	*k.inOrder(k.count - 1) = kindReadings{kind: kind, dateRange: noDays}
	return k.count - 1
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
		}
		a.each(func(r stepfit.Reading) { c.Add(r.Cross(fit)) })
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

// maxKinds bounds what is kept of all steps together. Beyond it readings are kept by their
// workflow alone: what grows or workers have in common is then not known, all else is exact,
// and a note says so.
const maxKinds = 32_000
