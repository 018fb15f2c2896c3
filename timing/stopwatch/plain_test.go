package stopwatch

import (
	"slices"
	"sort"

	"headhours/timing/study"
)

// plainly is a second fold, as slow and as plain as the rules in doc.go read: an undone
// event was never there, a reading is the time from its beginning to its end but for the
// interruptions, and its people are those at work in each of its moments. It knows nothing
// of pieces.
type plainly struct {
	events   []Event
	at       []int64 // of each, in the session's time
	began    bool
	over     bool
	until    int64 // up to which the session is known
	idleFrom int64 // since when nobody works and nothing is interrupted
	people   float64
	came     bool // hands came or went since the last reading began
	grow     string
	worker   string
	readings []*plainReading
	running  *plainReading
	breaks   []stretch // interruptions
	paused   bool
	refused  map[string]bool
}

type stretch struct{ from, to int64 }

type plainReading struct {
	id, step, grow, worker, note, void string
	from, to                           int64
	count, setups, average             study.Maybe
	hands                              []handed
	ended, judged                      bool
	source                             study.Source
}

// handed is so many people from a moment on.
type handed struct {
	at int64
	n  float64
}

// plain folds events.
func plain(events []Event) *plainly {
	p := &plainly{refused: map[string]bool{}, people: 1}
	p.events = slices.Clone(events)
	sort.SliceStable(p.events, func(i, j int) bool { return p.events[i].Seq < p.events[j].Seq })
	p.at = make([]int64, len(events))
	for i := 1; i < len(events); i++ {
		a, b := p.events[i-1], p.events[i]
		gone := b.Wall.Sub(a.Wall).Milliseconds()
		if a.Boot == b.Boot {
			gone = b.Mono - a.Mono
		}
		p.at[i] = p.at[i-1] + max(0, gone)
	}
	taken := p.takenBack()
	for i, e := range p.events {
		if e.Kind != Undo && !taken[e.ID] && !p.take(i, e) {
			p.refused[e.ID] = true
		}
	}
	return p
}

// takenBack is the IDs of the events that were undone.
func (p *plainly) takenBack() map[string]bool {
	taken, seen := map[string]bool{}, []string{}
	for _, e := range p.events {
		if e.Kind != Undo {
			seen = append(seen, e.ID)
			continue
		}
		which := e.Of
		for i := len(seen) - 1; which == "" && i >= 0; i-- {
			if !taken[seen[i]] {
				which = seen[i]
			}
		}
		if !slices.Contains(seen, which) || taken[which] {
			p.refused[e.ID] = true
			continue
		}
		taken[which] = true
	}
	return taken
}

// take takes an event in; false where it does not fit.
func (p *plainly) take(i int, e Event) bool {
	t := p.at[i]
	if e.Kind == Begin {
		if p.began {
			return false
		}
		p.began, p.until, p.idleFrom, p.grow, p.worker = true, t, t, e.Grow, e.Worker
		return true
	}
	corrects := slices.Contains([]EventKind{Count, Setups, Note, Void, Amend, Mark}, e.Kind)
	if !p.began || p.over && !corrects {
		return false
	}
	if !p.over {
		p.until = t
	}
	switch e.Kind {
	case Start, Next, Lot:
		return p.begin(e, t)
	case Pause:
		if p.running == nil || p.paused {
			return false
		}
		p.paused = true
		p.breaks = append(p.breaks, stretch{t, -1})
	case Resume:
		if !p.paused {
			return false
		}
		p.resume(t)
	case People:
		p.people, p.came = e.People.Value, true
		if p.running != nil {
			p.running.hands = append(p.running.hands, handed{t, e.People.Value})
		}
	case Stop:
		if p.running == nil {
			return false
		}
		p.end(t)
	case End:
		p.over = true
		if p.running != nil {
			p.end(t)
		}
	case Mark:
		return e.Step != "" || len(p.readings) > 0
	default:
		return p.correct(i, e)
	}
	return true
}

func (p *plainly) resume(t int64) {
	p.breaks[len(p.breaks)-1].to = t
	p.paused = false
}

// end ends what runs: at a moment, or where it was interrupted if it still is.
func (p *plainly) end(t int64) {
	r := p.running
	r.to, r.ended = t, true
	if p.paused {
		r.to = p.breaks[len(p.breaks)-1].from
		p.resume(t)
	}
	p.running, p.idleFrom = nil, t
}

func (p *plainly) begin(e Event, t int64) bool {
	var before *plainReading
	if n := len(p.readings); n > 0 {
		before = p.readings[n-1]
	}
	if e.Kind == Lot && before == nil {
		return false
	}
	if p.running != nil {
		p.end(t)
	}
	r := &plainReading{id: e.ID, step: e.Step, grow: p.grow, worker: p.worker, from: t, note: e.Text, count: e.Count, source: study.Watch}
	people := p.people
	if e.Kind == Lot {
		r.step, r.grow, r.worker, r.setups = before.step, before.grow, before.worker, study.Known(0)
		if !p.came {
			people = before.hands[len(before.hands)-1].n
		}
	}
	r.hands, p.came = []handed{{0, people}}, false
	if e.Kind != Start && before != nil {
		r.from = p.idleFrom
		if before.judged && before.to == r.from {
			r.source = study.ByJudgement
		}
	}
	p.readings, p.running = append(p.readings, r), r
	return true
}

func (p *plainly) correct(i int, e Event) bool {
	var r *plainReading
	for k, one := range p.readings {
		if e.Of == one.id || e.Of == "" && (one == p.running || p.running == nil && k == len(p.readings)-1) {
			r = one
		}
	}
	if r == nil {
		return e.Kind == Note && e.Of == "" // of the session
	}
	if !e.End.IsZero() && !p.amendEnd(i, e, r) {
		return false
	}
	switch e.Kind {
	case Note:
		if r.note != "" {
			r.note += "; "
		}
		r.note += e.Text
	case Void:
		r.void = e.Text
	}
	if e.Count.Known {
		r.count = e.Count
	}
	if e.Setups.Known {
		r.setups = e.Setups
	}
	if e.People.Known {
		r.average = e.People
	}
	if e.Worker != "" {
		r.worker = e.Worker
	}
	if e.Step != "" {
		r.step = e.Step
	}
	return true
}

// amendEnd moves the end of a reading to a time of the wall clock that never jumps.
func (p *plainly) amendEnd(i int, e Event, r *plainReading) bool {
	t := e.End.Sub(p.events[0].Wall).Milliseconds()
	if t <= r.from || t > p.at[i] || p.over && t > p.until {
		return false
	}
	for _, o := range p.readings {
		if o.from >= r.from && o != r && t > o.from {
			return false
		}
	}
	if p.running == r {
		p.end(p.at[i])
	}
	r.to, r.ended, r.judged, r.source = t, true, true, study.ByJudgement
	if r == p.readings[len(p.readings)-1] {
		p.idleFrom = t
		for _, b := range p.breaks {
			p.idleFrom = max(p.idleFrom, b.to)
		}
	}
	return true
}

// comes is what a reading comes to: its net and its paused time, in milliseconds, and its
// people on average.
func (p *plainly) comes(r *plainReading) (net, paused int64, people float64) {
	to := r.to
	if !r.ended {
		to = p.until
	}
	moments := []int64{r.from, to}
	for _, h := range r.hands {
		moments = append(moments, h.at)
	}
	for _, b := range p.breaks {
		moments = append(moments, b.from, b.to)
	}
	slices.Sort(moments)
	handed, unlike := 0.0, false
	for k := 1; k < len(moments); k++ {
		from, until := moments[k-1], moments[k]
		if from < r.from || until > to {
			continue
		}
		if p.interrupted(from, until) {
			paused += until - from
			continue
		}
		n := r.peopleAt(from)
		net += until - from
		handed += n * float64(until-from)
		unlike = unlike || n != r.peopleAt(to)
	}
	switch last := r.hands[len(r.hands)-1].n; {
	case r.average.Known:
		people = r.average.Value
	case net > 0:
		people = handed / float64(net)
	default:
		people = last
	}
	return net, paused, people
}

func (p *plainly) interrupted(from, to int64) bool {
	return slices.ContainsFunc(p.breaks, func(b stretch) bool { return b.from <= from && (b.to < 0 || b.to >= to) && from < to })
}

func (r *plainReading) peopleAt(t int64) float64 {
	n := r.hands[0].n
	for _, h := range r.hands {
		if h.at <= t {
			n = h.n
		}
	}
	return n
}
