package condense

import (
	"slices"

	"headhours/timing/study"
)

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
	key   uint32 // the index of its key
	where int32  // where those of its depth begin
}

// digestHow is what a digest needs to know of a How.
type digestHow struct {
	judged     int32 // 1 where it is, which adds up
	given      bool  // the setups are; else it is one
	setups     float64
	people     float64
	rating, of float64 // the share of normal pace, both 1 where that is 100 percent
}

// digestStep is what is known of a step beforehand.
type digestStep struct {
	found   bool // it was asked for
	step    *study.Step
	outline *outline // nil while it is not known
	last    whatKey  // the last of it: all have one while they are not told apart by worker
	key     uint32   // the index of that
}

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

// cellsOf finds the cell of each row, by the keys of where it was taken, its day and what was
// done.
func (s *sorting) cellsOf(g *Gathering, b *Batch) {
	s.days.begin(g)
	each := len(s.whats.List)
	s.bases = s.bases[:0]
	for _, where := range s.where {
		s.bases = append(s.bases, where*s.days.keys*each)
	}
	s.cellOf = slices.Grow(s.cellOf[:0], b.Rows.Len())[:b.Rows.Len()]
	into := s.cellOf
	where, what, whats, bases := b.Rows.Where[:len(into)], b.Rows.What[:len(into)], s.what, s.bases
	for i := range into {
		done := &whats[what[i]]
		into[i] = bases[int(done.where)+int(where[i])] + int(done.key)
	}
	if s.days.keys == 1 {
		return
	}
	for i, day := range b.Rows.Day {
		into[i] += s.days.of(g, day) * each
	}
}

// keys finds what tells apart the parts of a batch.
func (s *sorting) keys(g *Gathering, b *Batch, joined bool) {
	filter := &g.condensed.Filter
	s.what, s.how, s.where, s.judged = s.what[:0], s.how[:0], s.where[:0], false
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
		of.where = s.keysAt(key.depth, g, b, &begins)
		if key != known.last {
			known.last, known.key = key, s.whats.Of(key)
		}
		of.key = known.key
		s.what = append(s.what, of)
	}
	for i := range b.How {
		h := &b.How[i]
		of := digestHow{given: h.HasSetups, setups: h.Setups, people: h.People, rating: h.Rating, of: 100}
		if h.Rating == 100 {
			of.rating, of.of = 1, 1
		}
		if !h.HasSetups {
			of.setups = 1
		}
		if h.Judged {
			of.judged, s.judged = 1, true
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
