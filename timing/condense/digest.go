package condense

import (
	"math"
	"slices"
	"sync"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Digest works out what a batch comes to, for Take. It may be called for several batches
// at once.
func (g *Gathering) Digest(b *Batch) {
	d := b.Digest
	if d == nil || d.of != g {
		d = &digest{of: g}
		b.Digest = d
	}
	d.joined, d.parts, d.sums, d.keep = g.joined.Load(), d.parts[:0], d.sums[:0], d.keep[:0]
	s := sortings.Get().(*sorting)
	defer sortings.Put(s)
	s.find(g, b, d)
	s.sort(g, b, d)
	d.sums = slices.Grow(d.sums, s.large)
	for i := range d.parts {
		p := &d.parts[i]
		if p.voided {
			continue
		}
		if p.rows > maxFew {
			p.sums = int32(len(d.sums))
			d.sums = append(d.sums, stepfit.Sums{})
			d.sums[p.sums].TakeIn(d.readingsOf(p))
		}
	}
}

// sorting is what it takes to bring rows together by their parts.
type sorting struct {
	wheres Index[whereKey]
	whats  Index[whatKey]
	where  []int // the index of the key of each of the batch's Where, one depth behind the other
	what   []digestWhat
	how    []digestHow
	steps  []digestStep // of each name of a step
	days   dayKeys
	when   []int            // the key of each row's day; none where all have the same
	cells  []int32          // the part of each three keys, or unknown; none where they are too many
	bases  []int            // the first cell of each of where
	rest   map[uint64]int32 // then the parts by their keys
	of     []int32          // the part of each row, or notTaken
	room   []partRoom       // of each part
	large  int              // parts of not few rows
}

// whereKey and whatKey tell parts apart, and what is not taken from what is.
type (
	whereKey struct {
		grow, workflow int32
		taken          bool
	}
	whatKey struct {
		step, worker int32
		depth        depth
		taken        bool
	}
)

// depth is how far the rows of a step are told apart.
type depth uint8

const (
	byGrow     depth = iota // and worker, and workflow
	byWorkflow              // alone
	asOne                   // voided
	depths
)

// digestWhat is what a digest needs to know of a What.
type digestWhat struct {
	key      uint32      // the index of its key
	where    int32       // where those of its depth begin
	covering *study.Step // has the setups by what one covers, where they are not given; else nil
}

// digestHow is what a digest needs to know of a How.
type digestHow struct {
	judged         int32 // 1 where it is
	given          bool  // the setups are; else it is one
	setups         float64
	people, rating float64
}

// digestStep is what is known of a step beforehand.
type digestStep struct {
	found   bool // it was asked for
	step    *study.Step
	outline *outline // nil while it is not known
	last    whatKey  // the last of it: all have one while they are not told apart by worker
	key     uint32   // the index of that
}

// partRoom is where the next row of a part goes, and by what it is seen to be far off.
type partRoom struct {
	next    int32
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
	s.keys(g, b, d.joined)
	s.daysOf(g, b)
	s.cells, s.bases = s.cells[:0], s.bases[:0]
	clear(s.rest)
	each := s.days.keys * len(s.whats.List)
	n := len(s.wheres.List) * each
	d.parts = slices.Grow(d.parts, min(n, b.Rows.Len()))
	if n <= maxCells {
		s.cells = slices.Grow(s.cells, n)[:n]
		for i := range s.cells {
			s.cells[i] = unknown
		}
	}
	for _, where := range s.where {
		s.bases = append(s.bases, where*each)
	}
	s.of = slices.Grow(s.of[:0], b.Rows.Len())[:b.Rows.Len()]
	for i := 0; ; i++ {
		if i += s.findMet(&b.Rows, i, d.parts); i == b.Rows.Len() {
			return
		}
		r := b.Rows.At(i)
		what, when := &s.what[r.What], 0
		if len(s.when) > 0 {
			when = s.when[i]
		}
		where := s.where[int(what.where)+int(r.Where)]
		cell := (where*s.days.keys+when)*len(s.whats.List) + int(what.key)
		at, met := int32(unknown), false
		if cell >= len(s.cells) {
			at, met = s.rest[uint64(cell)]
		}
		if !met {
			at = s.begin(d, s.wheres.List[where], when, s.whats.List[what.key], cell)
		}
		if s.of[i] = at; at != notTaken {
			d.parts[at].add(r.Day, s.how[r.How].judged)
		}
	}
}

// findMet finds the parts of rows from one on, up to one whose keys were not met together, or
// are too many for cells. It calls nothing, which leaves it the registers.
func (s *sorting) findMet(rows *Rows, from int, parts []part) (found int) {
	of := s.of[from:]
	where, what, how, days := rows.Where[from:][:len(of)], rows.What[from:][:len(of)], rows.How[from:][:len(of)], rows.Day[from:][:len(of)]
	cells, bases, whats, hows, when, each := s.cells, s.bases, s.what, s.how, s.when, len(s.whats.List)
	if len(when) > 0 {
		when = when[from:]
	}
	for i := range of {
		done := &whats[what[i]]
		cell := bases[int(done.where)+int(where[i])] + int(done.key)
		if len(when) > 0 {
			cell += when[i] * each
		}
		if uint(cell) >= uint(len(cells)) || cells[cell] == unknown {
			return i
		}
		at := cells[cell]
		if of[i] = at; at != notTaken {
			parts[at].add(days[i], hows[how[i]].judged)
		}
	}
	return len(of)
}

// maxFew is how many rows of a part are handed over as they are, since that takes less than
// sums of them.
const maxFew = maxWaiting

const (
	unknown  = -1
	notTaken = -2
)

// dayKeys are what the days of rows tell apart: the periods between changes, and what is
// not taken.
type dayKeys struct {
	keys    int // how many there are
	untaken int // of days that the filter does not take, the last; unknown where it takes all
	day     Day // the last that was asked for
	key     int // of that
}

func (k *dayKeys) begin(g *Gathering) {
	*k = dayKeys{keys: len(g.dates) + 1, untaken: unknown, day: NoDay}
	if g.condensed.Filter.isDated() {
		k.untaken = k.keys
		k.keys++
		k.key = k.untaken
	}
}

// of is the key of a day.
func (k *dayKeys) of(g *Gathering, day Day) int {
	if day != k.day {
		k.day, k.key = day, int(g.period(day))
		if !g.condensed.Filter.takesDay(day) {
			k.key = k.untaken
		}
	}
	return k.key
}

// daysOf finds the key of each row's day.
func (s *sorting) daysOf(g *Gathering, b *Batch) {
	s.days.begin(g)
	s.when = s.when[:0]
	if s.days.keys == 1 {
		return
	}
	for _, day := range b.Rows.Day {
		s.when = append(s.when, s.days.of(g, day))
	}
}

// keys finds what tells apart the parts of a batch.
func (s *sorting) keys(g *Gathering, b *Batch, joined bool) {
	filter := &g.condensed.Filter
	s.wheres.clear()
	s.whats.clear()
	s.what, s.how, s.where = s.what[:0], s.how[:0], s.where[:0]
	var begins [depths]int32 // of those that are used, from 1
	s.steps = slices.Grow(s.steps[:0], len(b.Names[StepNames]))[:len(b.Names[StepNames])]
	clear(s.steps)
	for i := range b.What {
		w := &b.What[i]
		known := &s.steps[w.Step]
		if !known.found {
			name := b.Names[StepNames][w.Step]
			*known = digestStep{found: true, step: g.step(name), outline: g.outline(name), last: whatKey{step: unknown}}
		}
		var of digestWhat
		key := whatKey{step: w.Step, taken: known.step != nil && filter.takesWhat(b, w)}
		switch {
		case w.Voided:
			key.depth = asOne
		case joined:
			key.depth = byWorkflow
		default:
			key.worker = w.Worker
		}
		if known.step != nil && known.step.SetupCovers > 0 {
			of.covering = known.step
		}
		of.where = s.keysAt(key.depth, g, b, &begins)
		if key != known.last {
			known.last, known.key = key, s.whats.Of(key)
		}
		of.key = known.key
		s.what = append(s.what, of)
	}
	for i := range b.How {
		h := &b.How[i]
		of := digestHow{given: h.HasSetups, setups: h.Setups, people: h.People, rating: h.Rating}
		if !h.HasSetups {
			of.setups = 1
		}
		if h.Judged {
			of.judged = 1
		}
		s.how = append(s.how, of)
	}
}

// keysAt is where those of a depth begin in where; they are found with the first.
func (s *sorting) keysAt(depth depth, g *Gathering, b *Batch, begins *[depths]int32) int32 {
	if begins[depth] == 0 {
		begins[depth] = int32(len(s.where)) + 1
		for i := range b.Where {
			w := &b.Where[i]
			key := whereKey{taken: g.condensed.Filter.takesWhere(b, w)}
			switch depth {
			case byGrow:
				key.grow, key.workflow = w.Grow, w.Workflow
			case byWorkflow:
				key.workflow = w.Workflow
			}
			s.where = append(s.where, int(s.wheres.Of(key)))
		}
	}
	return begins[depth] - 1
}

// begin begins the part of three keys that were not met together, if it is taken.
func (s *sorting) begin(d *digest, where whereKey, when int, what whatKey, cell int) int32 {
	at := int32(notTaken)
	if where.taken && when != s.days.untaken && what.taken {
		at = int32(len(d.parts))
		d.parts = append(d.parts, part{
			step: what.step, workflow: where.workflow, grow: where.grow, worker: what.worker,
			period: int32(when), voided: what.depth == asOne, dateRange: noDays,
		})
	}
	if cell < len(s.cells) {
		s.cells[cell] = at
		return at
	}
	if s.rest == nil {
		s.rest = map[uint64]int32{}
	}
	s.rest[uint64(cell)] = at
	return at
}

// sort brings the rows together by part, and finds which may have to be kept.
func (s *sorting) sort(g *Gathering, b *Batch, d *digest) {
	s.room, s.large = slices.Grow(s.room[:0], len(d.parts)), 0
	n, far := int32(0), 0
	for i := range d.parts {
		p := &d.parts[i]
		p.from = n
		n += p.rows
		if p.rows > maxFew {
			s.large++
		}
		room := partRoom{p.from, s.steps[p.step].outline}
		if len(g.dates) > 0 {
			room.outline = g.outline(g.stageName(b.Names[StepNames][p.step], p.period))
		}
		switch {
		case p.voided:
			room.outline = &noFar
		case room.outline == nil:
			room.outline = &allFar
			far += int(p.rows)
		}
		s.room = append(s.room, room)
	}
	d.readings, d.keep = slices.Grow(d.readings[:0], int(n))[:n], slices.Grow(d.keep, far)
	for i := 0; ; i++ {
		if i += s.place(&b.Rows, i, d.readings); i == b.Rows.Len() {
			return
		}
		r, room := b.Rows.At(i), &s.room[s.of[i]]
		how := &s.how[r.How]
		reading := how.reading(r.Count, r.Seconds)
		if step := s.what[r.What].covering; step != nil && !how.given {
			reading.Setups = step.SetupsFor(r.Count)
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
	what, how, counts, seconds := rows.What[from:][:len(of)], rows.How[from:][:len(of)], rows.Count[from:][:len(of)], rows.Seconds[from:][:len(of)]
	rooms, whats, hows := s.room, s.what, s.how
	for i, at := range of {
		if at == notTaken {
			continue
		}
		room, how := &rooms[at], &hows[how[i]]
		reading := how.reading(counts[i], seconds[i])
		if whats[what[i]].covering != nil && !how.given || room.outline.isFar(reading.Load, reading.Seconds) {
			return i
		}
		into[room.next] = reading
		room.next++
	}
	return len(of)
}

// reading is a row's, but for setups that are to be found.
func (h *digestHow) reading(count, seconds float64) stepfit.Reading {
	return stepfit.Reading{Load: stepfit.Load{Setups: h.setups, Count: count}, Seconds: study.Basic(seconds, h.people, h.rating)}
}
