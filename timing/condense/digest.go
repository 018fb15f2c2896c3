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
			d.sums[p.sums].TakeIn(d.rowsOf(p))
		}
	}
}

// sorting is what it takes to bring rows together by their parts.
type sorting struct {
	wheres Index[whereKey]
	whats  Index[whatKey]
	where  []whereKeys  // of each of the batch's Where
	what   []digestWhat // of each of the batch's What
	steps  []digestStep // of each name of a step
	days   dayKeys
	cells  []int32          // the part of each three keys, or unknown; none where they are too many
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

// whereKeys are the indices of the keys of a Where, for each depth.
type whereKeys [depths]uint32

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
	What
	key    uint32 // the index of its key
	depth  depth
	covers float64 // what its step's setup covers; 0 where Setups says how many there were
	step   *study.Step
}

// digestStep is what is known of a step beforehand.
type digestStep struct {
	found   bool // it was asked for
	step    *study.Step
	outline *outline // nil while it is not known
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
	whats := len(s.whats.List)
	s.days.begin(g)
	s.cells = s.cells[:0]
	clear(s.rest)
	n := len(s.wheres.List) * s.days.keys * whats
	d.parts = slices.Grow(d.parts, min(n, len(b.Rows)))
	if n <= maxCells {
		s.cells = slices.Grow(s.cells, n)[:n]
		for i := range s.cells {
			s.cells[i] = unknown
		}
	}
	s.of = slices.Grow(s.of[:0], len(b.Rows))[:len(b.Rows)]
	// by names of their own, so that they are at hand for every row
	rows, of, cells, parts, allWhat, allWhere, keys := b.Rows, s.of, s.cells, d.parts, s.what, s.where, s.days.keys
	for i := range rows {
		r := &rows[i]
		what := &allWhat[r.What]
		where, when := allWhere[r.Where][what.depth], 0
		if keys > 1 {
			when = s.days.of(g, r.Day)
		}
		at, cell := int32(unknown), (int(where)*keys+when)*whats+int(what.key)
		if cell < len(cells) {
			at = cells[cell]
		} else if rest, ok := s.rest[uint64(cell)]; ok {
			at = rest
		}
		if at == unknown {
			at = s.begin(d, s.wheres.List[where], when, s.whats.List[what.key], cell)
			parts = d.parts
		}
		of[i] = at
		if at == notTaken {
			continue
		}
		p := &parts[at]
		p.rows++
		p.dateRange.add(r.Day)
		if what.Flags&IsJudged != 0 {
			p.judged++
		}
	}
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

// keys finds what tells apart the parts of a batch.
func (s *sorting) keys(g *Gathering, b *Batch, joined bool) {
	filter := &g.condensed.Filter
	s.wheres.clear()
	s.whats.clear()
	s.what, s.where = s.what[:0], s.where[:0]
	var used [depths]bool
	s.steps = slices.Grow(s.steps[:0], len(b.Names[StepNames]))[:len(b.Names[StepNames])]
	clear(s.steps)
	for i := range b.What {
		w := &b.What[i]
		known := &s.steps[w.Step]
		if !known.found {
			name := b.Names[StepNames][w.Step]
			*known = digestStep{true, g.step(name), g.outline(name)}
		}
		of := digestWhat{What: *w, step: known.step}
		key := whatKey{step: w.Step, taken: of.step != nil && filter.takesWhat(b, w)}
		switch {
		case w.Flags&IsVoided != 0:
			of.depth = asOne
		case joined:
			of.depth = byWorkflow
		default:
			key.worker = w.Worker
		}
		if of.step != nil && w.Flags&HasSetups == 0 {
			of.Setups, of.covers = 1, of.step.SetupCovers
		}
		key.depth = of.depth
		used[of.depth] = true
		of.key = s.whats.Of(key)
		s.what = append(s.what, of)
	}
	for i := range b.Where {
		w := &b.Where[i]
		taken := filter.takesWhere(b, w)
		var at whereKeys
		for depth, key := range [depths]whereKey{
			byGrow: {w.Grow, w.Workflow, taken}, byWorkflow: {0, w.Workflow, taken}, asOne: {0, 0, taken},
		} {
			if used[depth] {
				at[depth] = s.wheres.Of(key)
			}
		}
		s.where = append(s.where, at)
	}
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
	n := int32(0)
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
		}
		s.room = append(s.room, room)
	}
	for _, column := range []*[]float64{&d.setups, &d.counts, &d.times} {
		*column = slices.Grow((*column)[:0], int(n))[:n]
	}
	setups, counts, times, rows, rooms, allWhat := d.setups, d.counts, d.times, b.Rows, s.room, s.what
	for i, part := range s.of {
		if part == notTaken {
			continue
		}
		r, room := &rows[i], &rooms[part]
		what := &allWhat[r.What]
		at, load, seconds := room.next, stepfit.Load{Setups: what.Setups, Count: r.Count}, what.Basic(r.Seconds)
		if what.covers > 0 {
			load.Setups = what.step.SetupsFor(r.Count)
		}
		room.next++
		setups[at], counts[at], times[at] = load.Setups, load.Count, seconds
		if room.outline.isFar(load, seconds) {
			d.keep = append(d.keep, uint32(i))
		}
	}
}
