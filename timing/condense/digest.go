package condense

import (
	"math"
	"slices"
	"sync"

	"headhours/timing/stepfit"
)

// Digest works out what a batch comes to, for Take. It may be called for several batches
// at once.
func (g *Gathering) Digest(b *Batch) {
	if b.Table == nil || b.Known == nil {
		g.digestAlone(b)
		return
	}
	d := g.digestOf(b)
	b.Known.begin(g, b.Table, &d.own)
	d.make(b, b.Known)
}

// digestAlone digests a batch by itself: it has no table, or one that is in use elsewhere.
func (g *Gathering) digestAlone(b *Batch) {
	d, parts := g.digestOf(b), KnownParts{joined: g.joined.Load()}
	parts.beginAlone(&d.own)
	d.make(b, &parts)
}

// digestOf is the digest of a batch, which is to be made.
func (g *Gathering) digestOf(b *Batch) *digest {
	if b.Digest == nil || b.Digest.of != g {
		b.Digest = &digest{of: g}
	}
	return b.Digest
}

func (d *digest) make(b *Batch, parts *KnownParts) {
	s, g := sortings.Get().(*sorting), d.of
	defer sortings.Put(s)
	s.KnownParts = parts
	d.joined, d.sums, d.keep = parts.joined, d.sums[:0], d.keep[:0]
	s.find(g, b, d)
	s.sort(g, b, d)
	d.sums = slices.Grow(d.sums, s.large)
	for i := range d.tallies {
		t := &d.tallies[i]
		if t.rows > maxFew && !d.parts[i].voided {
			t.sums = int32(len(d.sums))
			d.sums = append(d.sums, stepfit.Sums{})
			d.sums[t.sums].TakeIn(d.readingsOf(t))
		}
	}
}

// sorting is what it takes to bring rows together by their parts.
type sorting struct {
	*KnownParts
	where  []int // the index of the key of each of the batch's Where, one depth behind the other
	what   []digestWhat
	how    []digestHow
	judged bool         // some of how is
	steps  []digestStep // of each name of a step
	days   dayKeys
	bases  []int      // the first cell of each of where
	cellOf []int      // the cell of each row
	of     []int32    // the part of each row, or notTaken
	room   []partRoom // of each part
	large  int        // parts of not few rows
}

// partRoom is where the next row of a part goes, and by what it is seen to be far off.
type partRoom struct {
	next    int32
	covers  bool // a setup of its step is for so many plants, and what is not given goes by that
	outline *outline
}

// While a step's outline is not known all its readings are kept, and of those that are
// voided none.
var (
	allFar = outline{Squares: [stepfit.Spreads]float64{-1, -1, -1}}
	noFar  = outline{Squares: [stepfit.Spreads]float64{math.Inf(1), math.Inf(1), math.Inf(1)}}
)

var sortings = sync.Pool{New: func() any { return new(sorting) }}

// maxCells bounds what is kept to find parts at once.
const maxCells = 1 << 16

// find finds the parts of a batch, and which each row is of.
func (s *sorting) find(g *Gathering, b *Batch, d *digest) {
	before := len(s.whats.List)
	s.keys(g, b, d.joined)
	if len(s.whats.List) > before { // cells go by how many those are
		if len(s.list.parts) > 0 {
			s.list = new(partList)
		}
		s.forgetCells()
	}
	s.cellsOf(g, b)
	keys := len(s.wheres.List) * s.days.keys * len(s.whats.List)
	s.widen(keys)
	d.list = s.list
	known := len(s.list.parts)
	more := max(min(keys-known, b.Rows.Len()), 0)
	s.list.parts = slices.Grow(s.list.parts, more)
	d.tallies = slices.Grow(d.tallies[:0], known+more)[:known]
	for i := range d.tallies {
		d.tallies[i] = noRows
	}
	s.of = slices.Grow(s.of[:0], b.Rows.Len())[:b.Rows.Len()]
	for i := 0; ; i++ {
		if i += s.findMet(b.Rows.Day, i, d.tallies); i == b.Rows.Len() {
			break
		}
		at, met := int32(unknown), false
		if s.cellOf[i] >= len(s.cells) {
			at, met = s.rest[s.cellOf[i]]
		}
		if !met {
			at = s.beginPart(d, s.cellOf[i])
		}
		if s.of[i] = at; at != notTaken {
			d.tallies[at].add(b.Rows.Day[i])
		}
	}
	d.parts = s.list.parts
	if !s.judged {
		return
	}
	for i, at := range s.of {
		if at != notTaken {
			d.tallies[at].judged += s.how[b.Rows.How[i]].judged
		}
	}
}

// findMet finds the parts of rows from one on, up to one whose keys were not met together, or
// are too many for cells. It calls nothing, which leaves it the registers.
func (s *sorting) findMet(days []Day, from int, tallies []partTally) (found int) {
	of, cells := s.of[from:], s.cells
	cellOf, days := s.cellOf[from:][:len(of)], days[from:][:len(of)]
	for i, cell := range cellOf {
		if uint(cell) >= uint(len(cells)) || cells[cell] == unknown {
			return i
		}
		at := cells[cell]
		if of[i] = at; at != notTaken {
			tallies[at].add(days[i])
		}
	}
	return len(of)
}

// maxFew is how many rows of a part are handed over as they are, since that takes less than
// sums of them.
const maxFew = 24

const (
	unknown  = -1
	notTaken = -2
)

// beginPart begins the part of a cell, whose keys were not met together, if it is taken.
func (s *sorting) beginPart(d *digest, cell int) int32 {
	whats, keys := s.whats.List, s.days.keys
	where, when, what := s.wheres.List[cell/len(whats)/keys], cell/len(whats)%keys, whats[cell%len(whats)]
	at := int32(notTaken)
	if where.taken && when != s.days.untaken && what.taken {
		at = int32(len(s.list.parts))
		s.list.parts = append(s.list.parts, part{
			step: what.step, workflow: where.workflow, grow: where.grow, worker: what.worker,
			period: int32(when), voided: what.depth == asOne,
		})
		d.tallies = append(d.tallies, noRows)
	}
	if cell < len(s.cells) {
		s.cells[cell] = at
		return at
	}
	if s.rest == nil {
		s.rest = map[int]int32{}
	}
	s.rest[cell] = at
	return at
}

// sort brings the rows together by part, in the order of their kinds where that is known, and finds which may have to be kept.
func (s *sorting) sort(g *Gathering, b *Batch, d *digest) {
	s.room, s.large = slices.Grow(s.room[:0], len(d.parts))[:len(d.parts)], 0
	n, taken, far := int32(len(s.of)), 0, 0 // those of many rows from behind
	d.few = 0
	order := s.list.ordered() // kinds are brought together in this, from few places in memory at a time
	for i := range d.tallies {
		if i < len(order) {
			i = int(order[i])
		}
		p, t, room := &d.parts[i], &d.tallies[i], &s.room[i]
		if t.rows == 0 {
			continue
		}
		taken++
		if t.rows > maxFew || p.voided {
			s.large++
			n -= t.rows
			t.from = n
		} else {
			t.from = d.few
			d.few += t.rows
		}
		known := &s.steps[p.step]
		room.next, room.covers, room.outline = t.from, known.step.SetupCovers > 0, known.outline
		if len(g.dates) > 0 {
			room.outline = g.outline(g.stageName(b.Names[StepNames][p.step], p.period))
		}
		switch {
		case p.voided:
			room.outline = &noFar
		case room.outline == nil:
			room.outline = &allFar
			far += int(t.rows)
		}
	}
	s.recurs = s.shared && usedAgain*taken >= len(d.parts) && len(s.rest) == 0
	d.readings, d.keep = slices.Grow(d.readings[:0], len(s.of))[:len(s.of)], slices.Grow(d.keep, far)
	for i := 0; ; i++ {
		if i += s.place(&b.Rows, i, d.readings); i == b.Rows.Len() {
			return
		}
		r, room := b.Rows.At(i), &s.room[s.of[i]]
		how := &s.how[r.How]
		reading := how.reading(r.Count, r.Seconds)
		if room.covers && !how.given {
			reading.Setups = s.steps[d.parts[s.of[i]].step].step.SetupsFor(r.Count)
		}
		d.readings[room.next] = reading
		room.next++
		if room.outline.isFar(reading.Load, reading.Seconds) {
			d.keep = append(d.keep, farRow{s.of[i], r.Row, reading})
		}
	}
}

// place puts rows from one on where their parts have them, up to one that is far off or whose
// setups are to be found. It calls nothing, which leaves it the registers.
func (s *sorting) place(rows *Rows, from int, into []stepfit.Reading) (placed int) {
	of := s.of[from:]
	how, counts, seconds := rows.How[from:][:len(of)], rows.Count[from:][:len(of)], rows.Seconds[from:][:len(of)]
	rooms, hows := s.room, s.how
	for i, at := range of {
		if at == notTaken {
			continue
		}
		room, how := &rooms[at], &hows[how[i]]
		reading := how.reading(counts[i], seconds[i])
		if room.covers && !how.given || room.outline.isFar(reading.Load, reading.Seconds) {
			return i
		}
		into[room.next] = reading
		room.next++
	}
	return len(of)
}

// reading is a row's, but for setups that are to be found. Its basic time is as study.Basic has it,
// which goes by the rating, and that cannot be foreseen.
func (h *digestHow) reading(count, seconds float64) stepfit.Reading {
	return stepfit.Reading{Load: stepfit.Load{Setups: h.setups, Count: count}, Seconds: seconds * h.people * h.rating / h.of}
}
