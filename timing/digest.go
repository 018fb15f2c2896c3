package timing

import (
	"slices"
	"sync"

	"headhours/timing/stepfit"
)

// digest is what the readings of a batch come to: work that needs little of batches
// before it, and so can be done for several at once.
type digest struct {
	of    *Gathering
	joins int64    // how many steps were not told apart by grow and worker
	parts []part   // in order of first appearance
	keep  []uint32 // rows that are to be kept, perhaps, in order
}

// part is the readings of a batch that are of one step and kind, or those of a step that
// are voided.
type part struct {
	partKey
	sums stepfit.Sums
	days
	rows   int
	judged int // of them
}

// partKey names a part by indices of its batch's names.
type partKey struct {
	step, workflow, grow, worker int32
	voided                       bool
}

// Digest works out what a batch comes to, for Take. It may be called for several batches
// at once.
func (g *Gathering) Digest(b *Batch) {
	d := b.digest
	if d == nil || d.of != g {
		d = &digest{of: g}
		b.digest = d
	}
	d.joins, d.parts, d.keep = g.joins.Load(), d.parts[:0], d.keep[:0]
	s := sortings.Get().(*sorting)
	defer sortings.Put(s)
	s.find(g, b, d)
	s.sort(b, d)
	for i := range d.parts {
		p := &d.parts[i]
		if p.voided {
			continue
		}
		from, to := s.next[i]-p.rows, s.next[i]
		setups, counts, times := s.setups[from:to], s.counts[from:to], s.times[from:to]
		p.sums.TakeIn(setups, counts, times)
		outline := g.outline(b.Names[StepNames][p.step])
		for j, row := range s.rows[from:to] {
			if outline == nil || outline.isFar(setups[j], counts[j], times[j]) {
				d.keep = append(d.keep, row)
			}
		}
	}
	slices.Sort(d.keep)
}

// sorting is rows brought together by their parts, and what that takes.
type sorting struct {
	wheres Index[whereKey]
	whats  Index[partKey]
	where  []uint32 // of each of the batch's Where, the index of its key
	what   []uint32
	steps  []*Step // of each of the batch's What
	parts  Index[partKey]
	cells  []int32 // the part of each two keys, −1 while it is not known; nil where they are too many
	of     []int32 // the part of each row, −1 where it is not taken
	next   []int   // behind the rows of each part

	rows                  []uint32
	setups, counts, times []float64
}

type whereKey struct {
	grow, workflow int32
	taken          bool
}

var sortings = sync.Pool{New: func() any { return new(sorting) }}

// mostCells bounds what is kept to find parts at once.
const mostCells = 1 << 16

// find finds the parts of a batch, and which each row is of.
func (s *sorting) find(g *Gathering, b *Batch, d *digest) {
	filter := &g.models.options.Filter
	s.wheres.Clear()
	s.whats.Clear()
	s.parts.Clear()
	s.what, s.where, s.steps = s.what[:0], s.where[:0], s.steps[:0]
	joined := true
	for i := range b.What {
		w := &b.What[i]
		key := partKey{step: w.Step, worker: w.Worker, voided: w.Flags&IsVoided != 0}
		step := g.step(b.Names[StepNames][w.Step])
		switch {
		case step == nil || !filter.takesWhat(b, w):
			key = partKey{step: -1}
		case key.voided || g.isJoined(b.Names[StepNames][w.Step]):
			key.worker = 0
		default:
			joined = false
		}
		s.what, s.steps = append(s.what, s.whats.Of(key)), append(s.steps, step)
	}
	for i := range b.Where {
		w := &b.Where[i]
		key := whereKey{w.Grow, w.Workflow, filter.takesWhere(b, w)}
		if joined {
			key.grow = 0
		}
		s.where = append(s.where, s.wheres.Of(key))
	}
	s.cells = s.cells[:0]
	if n := len(s.wheres.List) * len(s.whats.List); n <= mostCells {
		s.cells = slices.Grow(s.cells, n)[:n]
		for i := range s.cells {
			s.cells[i] = unknown
		}
	}
	s.of = slices.Grow(s.of[:0], len(b.Rows))[:len(b.Rows)]
	for i := range b.Rows {
		r := &b.Rows[i]
		where, what := s.where[r.Where], s.what[r.What]
		at := int32(unknown)
		cell := int(where)*len(s.whats.List) + int(what)
		if cell < len(s.cells) {
			at = s.cells[cell]
		}
		if at == unknown {
			at = s.part(g, b, d, s.wheres.List[where], s.whats.List[what])
			if cell < len(s.cells) {
				s.cells[cell] = at
			}
		}
		s.of[i] = at
		if at == notTaken {
			continue
		}
		p := &d.parts[at]
		p.rows++
		p.days.add(b.Where[r.Where].Day)
		if b.What[r.What].Flags&IsJudged != 0 {
			p.judged++
		}
	}
}

const (
	unknown  = -1
	notTaken = -2
)

// part is the part of rows, which is begun where it is not there.
func (s *sorting) part(g *Gathering, b *Batch, d *digest, where whereKey, what partKey) int32 {
	if what.step < 0 || !where.taken {
		return notTaken
	}
	key := what
	if !key.voided {
		key.workflow = where.workflow
		if !g.isJoined(b.Names[StepNames][key.step]) {
			key.grow = where.grow
		}
	}
	at := int32(s.parts.Of(key))
	if int(at) == len(d.parts) {
		d.parts = append(d.parts, part{partKey: key, days: noDays})
	}
	return at
}

// sort brings the rows together by part.
func (s *sorting) sort(b *Batch, d *digest) {
	s.next = s.next[:0]
	from := 0
	for i := range d.parts {
		s.next = append(s.next, from)
		from += d.parts[i].rows
	}
	s.rows = slices.Grow(s.rows[:0], from)[:from]
	s.setups = slices.Grow(s.setups[:0], from)[:from]
	s.counts = slices.Grow(s.counts[:0], from)[:from]
	s.times = slices.Grow(s.times[:0], from)[:from]
	for i, part := range s.of {
		if part == notTaken {
			continue
		}
		r := &b.Rows[i]
		what := &b.What[r.What]
		at := s.next[part]
		s.next[part]++
		s.rows[at], s.setups[at], s.counts[at], s.times[at] = uint32(i), s.steps[r.What].setupsOf(what, r.Count), r.Count, what.Basic(r.Seconds)
	}
}
