package terminal

import (
	"fmt"
	"slices"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// plainDesk is what a session has come to, kept by a test as a plain list: a reading is the
// time from its beginning to its end but for the interruptions. A copy of it before each
// press is all that undoing needs.
type plainDesk struct {
	readings []plainWork
	breaks   []span // interruptions; to is -1 while one goes on
	people   float64
	came     bool  // people came or went since the last reading began
	idleFrom int64 // milliseconds, since when neither work nor an interruption goes on
	notes    string
	changes  int
	moved    bool // an end was put right
}

type span struct{ from, to int64 }

type plainWork struct {
	step                   string
	from, to               int64
	ended                  bool
	count, setups, average study.Maybe
	hands                  []hands
	note, void             string
	judged                 bool
}

type hands struct {
	from int64
	n    float64
}

func (p plainDesk) copied() plainDesk {
	p.readings, p.breaks = slices.Clone(p.readings), slices.Clone(p.breaks)
	for i := range p.readings {
		p.readings[i].hands = slices.Clone(p.readings[i].hands)
	}
	return p
}

// running is the reading that runs, nil where none does.
func (p *plainDesk) running() *plainWork {
	if n := len(p.readings); n > 0 && !p.readings[n-1].ended {
		return &p.readings[n-1]
	}
	return nil
}

func (p *plainDesk) paused() bool { return len(p.breaks) > 0 && p.breaks[len(p.breaks)-1].to < 0 }

func (p *plainDesk) resume(t int64) { p.breaks[len(p.breaks)-1].to = t }

func (p *plainDesk) pause(t int64) { p.breaks = append(p.breaks, span{t, -1}) }

func (p *plainDesk) stop(t int64) {
	r := p.running()
	r.to, r.ended, p.idleFrom = t, true, t
	if p.paused() {
		r.to = p.breaks[len(p.breaks)-1].from
		p.resume(t)
	}
}

// begin begins a reading now.
func (p *plainDesk) begin(t int64, step string, count study.Maybe) {
	if p.running() != nil {
		p.stop(t)
	}
	p.readings = append(p.readings, plainWork{step: step, from: t, count: count, hands: []hands{{0, p.people}}})
	p.came = false
}

// lap begins another of the same visit where the last reading ended.
func (p *plainDesk) lap(t int64) {
	if p.running() != nil {
		p.stop(t)
	}
	last := p.readings[len(p.readings)-1]
	people := last.hands[len(last.hands)-1].n
	if p.came {
		people = p.people
	}
	p.readings = append(p.readings, plainWork{step: last.step, from: p.idleFrom, setups: study.Known(0), hands: []hands{{0, people}}, judged: last.judged && last.to == p.idleFrom})
	p.came = false
}

func (p *plainDesk) hire(t int64, n float64) {
	p.people, p.came = n, true
	if r := p.running(); r != nil {
		r.hands = append(r.hands, hands{t, n})
	}
}

// endedAt puts the end of the last reading at t, as is said at now; false where that cannot
// be.
func (p *plainDesk) endedAt(t, now int64) bool {
	if t <= p.readings[len(p.readings)-1].from {
		return false
	}
	if p.running() != nil {
		p.stop(now)
	}
	r := &p.readings[len(p.readings)-1]
	r.to, r.judged, p.idleFrom, p.moved = t, true, t, true
	for _, b := range p.breaks {
		p.idleFrom = max(p.idleFrom, b.to)
	}
	return true
}

// uncounted is the first that has ended and whose count is wanted; -1 where none is.
func (p *plainDesk) uncounted() int {
	return slices.IndexFunc(p.readings, func(r plainWork) bool { return r.ended && !r.count.Known && r.void == "" })
}

// line is a reading on a line. Of one that runs no time is told.
func (p *plainDesk) line(r plainWork) string {
	text := fmt.Sprintf("%s of %v setups %v note %q void %q", r.step, r.count, r.setups, r.note, r.void)
	if !r.ended {
		return text + " runs"
	}
	net, paused, handed := int64(0), int64(0), 0.0
	moments := []int64{r.from, r.to}
	for _, h := range r.hands {
		moments = append(moments, h.from)
	}
	for _, b := range p.breaks {
		moments = append(moments, b.from, b.to)
	}
	slices.Sort(moments)
	for i := 1; i < len(moments); i++ {
		from, to := moments[i-1], moments[i]
		if from < r.from || to > r.to || from == to {
			continue
		}
		if slices.ContainsFunc(p.breaks, func(b span) bool { return b.from <= from && to <= b.to }) {
			paused += to - from
			continue
		}
		net += to - from
		handed += r.peopleAt(from) * float64(to-from)
	}
	people := r.hands[len(r.hands)-1].n
	if net > 0 {
		people = handed / float64(net)
	}
	if r.average.Known {
		people = r.average.Value
	}
	if !p.moved { // else the people of a time that was given up and taken again are those of its last moment
		text += fmt.Sprintf(" people %.6f", people)
	}
	return text + fmt.Sprintf(" net %d paused %d judged %t", net, paused, r.judged)
}

func (r plainWork) peopleAt(t int64) float64 {
	n := r.hands[0].n
	for _, h := range r.hands {
		if h.from <= t {
			n = h.n
		}
	}
	return n
}

func (p *plainDesk) told() []string {
	lines := []string{fmt.Sprintf("people %g notes %q changes %d", p.people, p.notes, p.changes)}
	for _, r := range p.readings {
		lines = append(lines, p.line(r))
	}
	return lines
}

// toldPlainly is a session in the same words.
func toldPlainly(s stopwatch.State, moved bool) []string {
	people := s.Session.People
	if s.Session.Name == "" {
		people = 1
	}
	lines := []string{fmt.Sprintf("people %g notes %q changes %d", people, s.Session.Notes, len(s.Changes))}
	for _, r := range s.Readings {
		text := fmt.Sprintf("%s of %v setups %v note %q void %q", r.Step, r.Counted, r.Setups, r.Note, r.Void)
		if r.Ended.IsZero() {
			lines = append(lines, text+" runs")
			continue
		}
		if !moved {
			text += fmt.Sprintf(" people %.6f", r.People)
		}
		lines = append(lines, text+fmt.Sprintf(" net %.0f paused %.0f judged %t", 1000*r.Seconds, 1000*r.Paused, r.Source == study.ByJudgement))
	}
	return lines
}
