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
	joins int64          // how many steps were not told apart by grow and worker
	parts []part         // in order of first appearance
	sums  []stepfit.Sums // of those that have not few rows
	keep  []uint32       // rows that are to be kept, perhaps, in order

	rows                  []uint32 // the batch's, by part
	setups, counts, times []float64
}

// few is how many rows are sooner added to others than together first.
const few = 3

// part is the readings of a batch that are of one step and kind, or those of a step that
// are voided.
type part struct {
	partKey
	days
	rows   int
	judged int // of them
	from   int // in what is by part
	sums   int // the index of the digest's, where there are not few rows
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
	d.joins, d.parts, d.sums, d.keep = g.joins.Load(), d.parts[:0], d.sums[:0], d.keep[:0]
	s := sortings.Get().(*sorting)
	defer sortings.Put(s)
	s.find(g, b, d)
	s.sort(b, d)
	for i := range d.parts {
		p := &d.parts[i]
		if p.voided {
			continue
		}
		rows, setups, counts, times := d.rowsOf(p)
		if p.rows > few {
			p.sums = len(d.sums)
			d.sums = append(d.sums, stepfit.Sums{})
			d.sums[p.sums].TakeIn(setups, counts, times)
		}
		outline := g.outline(b.Names[StepNames][p.step])
		for j, row := range rows {
			if outline == nil || outline.isFar(setups[j], counts[j], times[j]) {
				d.keep = append(d.keep, row)
			}
		}
	}
	slices.Sort(d.keep)
}

func (d *digest) rowsOf(p *part) (rows []uint32, setups, counts, times []float64) {
	to := p.from + p.rows
	return d.rows[p.from:to], d.setups[p.from:to], d.counts[p.from:to], d.times[p.from:to]
}

// takeInto takes the readings of a part into sums.
func (d *digest) takeInto(s *stepfit.Sums, p *part) {
	if p.rows > few {
		s.Merge(d.sums[p.sums])
		return
	}
	_, setups, counts, times := d.rowsOf(p)
	for i, count := range counts {
		s.Add(setups[i], count, times[i])
	}
}

// sorting is what it takes to bring rows together by their parts.
type sorting struct {
	wheres Index[whereKey]
	whats  Index[partKey]
	where  []uint32 // of each of the batch's Where, the index of its key
	what   []uint32
	steps  []*Step // of each of the batch's What
	parts  Index[partKey]
	cells  []int32 // the part of each two keys, −1 while it is not known; nil where they are too many
	of     []int32 // the part of each row, −1 where it is not taken
	next   []int   // where the next row of each part goes
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
	n := 0
	for i := range d.parts {
		d.parts[i].from = n
		s.next = append(s.next, n)
		n += d.parts[i].rows
	}
	d.rows = slices.Grow(d.rows[:0], n)[:n]
	d.setups = slices.Grow(d.setups[:0], n)[:n]
	d.counts = slices.Grow(d.counts[:0], n)[:n]
	d.times = slices.Grow(d.times[:0], n)[:n]
	for i, part := range s.of {
		if part == notTaken {
			continue
		}
		r := &b.Rows[i]
		what := &b.What[r.What]
		at := s.next[part]
		s.next[part]++
		d.rows[at], d.setups[at], d.counts[at], d.times[at] = uint32(i), s.steps[r.What].setupsOf(what, r.Count), r.Count, what.Basic(r.Seconds)
	}
}
