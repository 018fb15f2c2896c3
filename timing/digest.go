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

	setups, counts, times []float64 // of the rows, by part
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
	s.sort(g, b, d)
	for i := range d.parts {
		p := &d.parts[i]
		if p.voided {
			continue
		}
		if p.rows > few {
			p.sums = len(d.sums)
			d.sums = append(d.sums, stepfit.Sums{})
			d.sums[p.sums].TakeIn(d.rowsOf(p))
		}
	}
}

func (d *digest) rowsOf(p *part) (setups, counts, times []float64) {
	to := p.from + p.rows
	return d.setups[p.from:to], d.counts[p.from:to], d.times[p.from:to]
}

// takeInto takes the readings of a part into sums.
func (d *digest) takeInto(s *stepfit.Sums, p *part) {
	if p.rows > few {
		s.Merge(d.sums[p.sums])
		return
	}
	setups, counts, times := d.rowsOf(p)
	for i, count := range counts {
		s.Add(setups[i], count, times[i])
	}
}

// sorting is what it takes to bring rows together by their parts.
type sorting struct {
	wheres Index[whereKey]
	whats  Index[partKey]
	where  []place // of each of the batch's Where
	what   []doing // of each of the batch's What
	parts  Index[partKey]
	cells  []int32    // the part of each two keys, or unknown; none where they are too many
	of     []int32    // the part of each row, or notTaken
	room   []partRoom // of each part
}

type whereKey struct {
	grow, workflow int32
	taken          bool
}

// place is what a digest needs to know of a Where.
type place struct {
	keys [2]uint32 // the index of its key, and of that without its grow
	day  Day
}

// doing is what a digest needs to know of a What.
type doing struct {
	What
	key    uint32 // the index of its key
	joined uint32 // 1 if the step is not told apart by grow
	step   *Step
}

// partRoom is where the next row of a part goes, and which are far off.
type partRoom struct {
	next    int
	outline *outline // nil while it is not known
	voided  bool
}

var sortings = sync.Pool{New: func() any { return new(sorting) }}

// mostCells bounds what is kept to find parts at once.
const mostCells = 1 << 16

// find finds the parts of a batch, and which each row is of.
func (s *sorting) find(g *Gathering, b *Batch, d *digest) {
	s.keys(g, b)
	whats := len(s.whats.List)
	s.cells = s.cells[:0]
	if n := len(s.wheres.List) * whats; n <= mostCells {
		s.cells = slices.Grow(s.cells, n)[:n]
		for i := range s.cells {
			s.cells[i] = unknown
		}
	}
	s.parts.Clear()
	s.of = slices.Grow(s.of[:0], len(b.Rows))[:len(b.Rows)]
	for i := range b.Rows {
		r := &b.Rows[i]
		what := &s.what[r.What]
		where := s.where[r.Where].keys[what.joined&1]
		at, cell := int32(unknown), int(where)*whats+int(what.key)
		if cell < len(s.cells) {
			at = s.cells[cell]
		}
		if at == unknown {
			at = s.part(d, s.wheres.List[where], s.whats.List[what.key])
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
		p.days.add(s.where[r.Where].day)
		if what.Flags&IsJudged != 0 {
			p.judged++
		}
	}
}

const (
	unknown  = -1
	notTaken = -2
)

// keys finds what tells apart the parts of a batch.
func (s *sorting) keys(g *Gathering, b *Batch) {
	filter := &g.models.options.Filter
	s.wheres.Clear()
	s.whats.Clear()
	s.what, s.where = s.what[:0], s.where[:0]
	for i := range b.What {
		w := &b.What[i]
		name := b.Names[StepNames][w.Step]
		key, of := partKey{step: w.Step, worker: w.Worker, voided: w.Flags&IsVoided != 0}, doing{What: *w, step: g.step(name)}
		switch {
		case of.step == nil || !filter.takesWhat(b, w):
			key = partKey{step: notTaken}
		case key.voided || g.isJoined(name):
			key.worker, of.joined = 0, 1
		}
		of.key = s.whats.Of(key)
		s.what = append(s.what, of)
	}
	for i := range b.Where {
		w := &b.Where[i]
		taken := filter.takesWhere(b, w)
		keys := [2]uint32{s.wheres.Of(whereKey{w.Grow, w.Workflow, taken}), s.wheres.Of(whereKey{0, w.Workflow, taken})}
		s.where = append(s.where, place{keys, w.Day})
	}
}

// part is the part of rows, which is begun where it is not there.
func (s *sorting) part(d *digest, where whereKey, what partKey) int32 {
	if what.step == notTaken || !where.taken {
		return notTaken
	}
	key := what
	if !key.voided {
		key.workflow, key.grow = where.workflow, where.grow
	}
	at := int32(s.parts.Of(key))
	if int(at) == len(d.parts) {
		d.parts = append(d.parts, part{partKey: key, days: noDays})
	}
	return at
}

// sort brings the rows together by part, and finds which may have to be kept.
func (s *sorting) sort(g *Gathering, b *Batch, d *digest) {
	s.room = s.room[:0]
	n := 0
	for i := range d.parts {
		p := &d.parts[i]
		p.from = n
		n += p.rows
		s.room = append(s.room, partRoom{p.from, g.outline(b.Names[StepNames][p.step]), p.voided})
	}
	setups, counts, times := slices.Grow(d.setups[:0], n)[:n], slices.Grow(d.counts[:0], n)[:n], slices.Grow(d.times[:0], n)[:n]
	d.setups, d.counts, d.times = setups, counts, times
	for i, part := range s.of {
		if part == notTaken {
			continue
		}
		r, room := &b.Rows[i], &s.room[part]
		what := &s.what[r.What]
		at, some, seconds := room.next, what.step.setupsOf(&what.What, r.Count), what.Basic(r.Seconds)
		room.next++
		setups[at], counts[at], times[at] = some, r.Count, seconds
		if !room.voided && (room.outline == nil || room.outline.isFar(some, r.Count, seconds)) {
			d.keep = append(d.keep, uint32(i))
		}
	}
}
