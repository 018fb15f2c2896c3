package condense

import (
	"cmp"
	"slices"
	"sync/atomic"

	"headhours/timing/stepfit"
)

// digest is what the readings of a batch come to: work that needs little of batches
// before it, and so can be done for several at once.
type digest struct {
	of      *Gathering
	joined  bool // they are not told apart by grow and worker
	own     partList
	list    *partList      // its own, or one of several
	parts   []part         // those of the list when it was made
	tallies []partTally    // of each
	sums    []stepfit.Sums // of those that have not few rows
	keep    []farRow       // that are to be kept, perhaps, in order

	readings []stepfit.Reading // of the rows, by part, those of few rows first
	few      int32             // how many these are
}

// farRow is a row that may be far off.
type farRow struct {
	part    int32
	row     uint32 // see Brief
	reading stepfit.Reading
}

// part is what readings of a batch have in common that are of one step and kind, or those of a
// step that are voided. Its names are indices of its batch's.
type part struct {
	step, workflow, grow, worker int32
	period                       int32 // how many of the days on which steps were changed are past
	voided                       bool
}

// partTally is how many of a batch's readings are of a part, and which.
type partTally struct {
	dateRange
	rows   int32
	judged int32 // of them
	from   int32 // in what is by part
	sums   int32 // the index of the digest's, where there are not few rows
}

var noRows = partTally{dateRange: noDays}

// add adds a row.
func (p *partTally) add(day Day) {
	p.rows++
	p.dateRange.add(day)
}

func (d *digest) readingsOf(p *partTally) []stepfit.Reading {
	return d.readings[p.from : p.from+p.rows]
}

// partList is the parts that batches of a table have, in order of first appearance. Digesting
// adds to it, while batches before are taken in.
type partList struct {
	parts  []part
	places []partPlace             // as far as they were taken in; those who take them in alone look at it
	bySlot atomic.Pointer[[]int32] // see ordered
}

// partPlace is where readings of a part are taken.
type partPlace struct {
	step int32  // of the steps
	slot uint32 // of their kind, 0 while it is not known
}

// ordered is the first parts in the order of their slots, as far as that is known.
func (l *partList) ordered() []int32 {
	if by := l.bySlot.Load(); by != nil {
		return *by
	}
	return nil
}

// order finds the order of the parts by their slots, where most are new.
func (l *partList) order() {
	if len(l.places) <= 2*len(l.ordered()) {
		return
	}
	by := make([]int32, len(l.places))
	for i := range by {
		by[i] = int32(i)
	}
	slices.SortFunc(by, func(a, b int32) int { return cmp.Compare(l.places[a].slot, l.places[b].slot) })
	l.bySlot.Store(&by)
}

// KnownParts is how parts are found, by what tells them apart, in a batch and in those that are
// digested after it.
type KnownParts struct {
	of     *Gathering
	table  *NameTable
	joined bool
	list   *partList
	shared bool // the list is not of one batch alone
	recurs bool // it serves again
	wait   int  // of how many batches the list is of each alone before one is shared again
	wheres Index[whereKey]
	whats  Index[whatKey]
	cells  []int32       // the part of each three keys, or unknown; none where they are too many
	rest   map[int]int32 // then the parts by the cells that they would have
}

// untilShared is how many batches have lists of their own after a shared one that did not serve again: it
// may be in use still when it is forgotten, so its memory does not serve again, as that of their own does.
const untilShared = 16

// usedAgain is of how many parts one has to have rows of a batch, at least, for them to serve again.
const usedAgain = 5

// begin has the parts of batches before serve again, where they are likely to be met again, or begins
// anew, perhaps with a list of the batch's own. Where steps were changed a kind has a part for
// each period, and the order of these, in which its readings are taken in, has to be that of the
// batch.
func (k *KnownParts) begin(g *Gathering, table *NameTable, own *partList) {
	joined := g.joined.Load()
	if k.recurs && k.of == g && k.table == table && k.joined == joined {
		return
	}
	if k.wait--; k.wait < 0 && len(g.dates) == 0 {
		k.forget()
		k.list, k.shared, k.wait = new(partList), true, untilShared
	} else {
		k.beginAlone(own)
	}
	k.of, k.table, k.joined = g, table, joined
}

// beginAlone begins anew with a list of one batch alone.
func (k *KnownParts) beginAlone(own *partList) {
	k.forget()
	own.parts, own.places = own.parts[:0], own.places[:0]
	own.bySlot.Store(nil)
	k.list, k.shared = own, false
}

func (k *KnownParts) forget() {
	k.wheres.clear()
	k.whats.clear()
	k.forgetCells()
}

// forgetCells has all parts begun anew.
func (k *KnownParts) forgetCells() {
	k.cells = k.cells[:0]
	clear(k.rest)
}

// widen makes room for parts of so many keys.
func (k *KnownParts) widen(keys int) {
	if keys > maxCells {
		return
	}
	from := len(k.cells)
	k.cells = slices.Grow(k.cells, keys-from)[:keys]
	for i := range k.cells[from:] {
		k.cells[from+i] = unknown
	}
}
