package terminal

import (
	"fmt"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// newScreen is the screen at the start: it asks first about readings that earlier
// sessions left open, then for whom the work is, unless that was given in full.
func newScreen(d *desk, given Names, notice string, at stopwatch.Instant) *screen {
	s := &screen{desk: d, mode: workMode{}, mark: noMark, notice: notice}
	s.offer(given, at)
	return s
}

// offer asks about readings that earlier sessions left open, the last first, and
// then for whom the work is; given are the names of the command line. The sessions
// of another worker than the one given are none of theirs.
func (s *screen) offer(given Names, at stopwatch.Instant) {
	var questions []mode
	for _, state := range slices.Backward(s.sessions) {
		if r, runs := state.Running(); runs && given.mayOwn(state.Session) {
			questions = append(questions, s.openReading(state, r, at))
		}
	}
	for _, state := range slices.Backward(s.sessions) {
		if r, ok := firstUncounted(state); ok && given.mayOwn(state.Session) {
			questions = append(questions, s.howMany(state.Session.Name, r))
		}
	}
	s.questions = questions
	s.whole = given.Grow != "" && given.Workflow != "" && given.Worker != ""
	s.goOnAsking()
}

// mayOwn says whether a session may be of the worker that the command line names.
func (n Names) mayOwn(s stopwatch.Session) bool {
	return n.Worker == "" || s.Worker == "" || s.Worker == n.Worker
}

// goOnAsking puts the next of the questions at the start.
func (s *screen) goOnAsking() outcome {
	switch {
	case len(s.questions) > 0:
		s.mode, s.questions = s.questions[0], s.questions[1:]
	case !s.whole && s.state.Session.Name == "":
		s.mode = s.forWhom()
	default:
		s.mode = workMode{}
	}
	return outcome{}
}

// openReading asks what became of a reading that was left running; that it was
// forgotten is the first answer where it has run for longer than it would.
func (s *screen) openReading(state stopwatch.State, r stopwatch.Reading, at stopwatch.Instant) pick {
	session := state.Session.Name
	paused := ""
	if state.Paused {
		paused = ", paused"
	}
	question := fmt.Sprintf("%s is open since %s%s: %s so far%s", r.Step, since(r.Began, at.Wall), paused, clock(state.Elapsed(at).Seconds()), ofWhom(r))
	end := endedWhen(r, session)
	end.leave = func(s *screen) outcome { return s.goOnAsking() }
	answer := end.answer
	end.answer = func(s *screen, text string, at stopwatch.Instant) (outcome, string) {
		do, wrong := answer(s, text, at)
		do.then = func(_ error, _ stopwatch.Instant) outcome {
			if !r.Counted.Known && r.Counts() {
				s.questions = append([]mode{s.howMany(session, s.asItIs(session, r))}, s.questions...)
			}
			return s.goOnAsking()
		}
		return do, wrong
	}
	usual := func(string) (float64, bool) { return s.usualOf(r) }
	forgotten := state.Question(at, usual) != ""
	return pick{question: question, stay: true, at: index(forgotten), items: []item{
		{"t", "take it up: still at it", func(s *screen, _ stopwatch.Instant) outcome {
			return outcome{takeUp: session, then: func(err error, _ stopwatch.Instant) outcome {
				if err != nil {
					return s.goOnAsking()
				}
				s.questions, s.mode = nil, workMode{}
				return outcome{}
			}}
		}},
		{"c", "close it: say when it ended", func(s *screen, _ stopwatch.Instant) outcome { s.mode = end; return outcome{} }},
		{"o", "leave it, for later or for others", func(s *screen, _ stopwatch.Instant) outcome { return s.goOnAsking() }},
	}}
}

// asItIs is a reading of an earlier session as that has come to stand.
func (s *screen) asItIs(session string, r stopwatch.Reading) stopwatch.Reading {
	for _, state := range s.sessions {
		for _, now := range state.Readings {
			if state.Session.Name == session && now.ID == r.ID {
				return now
			}
		}
	}
	return r
}

// index is the second of two things where that is so.
func index(second bool) int {
	if second {
		return 1
	}
	return 0
}

// howMany asks for the count that a reading of an earlier session lacks.
func (s *screen) howMany(session string, r stopwatch.Reading) ask {
	what := s.units(r.Step)
	wrong := s.countOnce(r)
	return ask{
		question: fmt.Sprintf("%s of %s%s lacks its count: how many %s? (empty: ask next time)", reading(r), r.Began.Format("2006-01-02 15:04"), ofWhom(r), what),
		empty:    true,
		answer: func(s *screen, text string, _ stopwatch.Instant) (outcome, string) {
			next := func(error, stopwatch.Instant) outcome { return s.goOnAsking() }
			if text == "" {
				return outcome{then: next}, ""
			}
			n, err := numberIn(text)
			if err != nil {
				return outcome{}, err.Error()
			}
			if why := wrong(n); why != "" {
				return outcome{}, why
			}
			return outcome{events: []stopwatch.Event{{Kind: stopwatch.Count, Of: r.ID, Count: n}}, in: session, then: next}, ""
		},
		leave: func(s *screen) outcome { return s.goOnAsking() },
	}
}

// forWhom asks for grow, workflow and worker; those in hand are offered.
func (s *screen) forWhom() pick {
	return pick{question: "what is being worked on?", items: []item{
		{"b", "begin with these", func(s *screen, _ stopwatch.Instant) outcome { s.mark = noMark; s.plan(); return outcome{} }},
		{"g", "grow      " + orNone(s.names.Grow), func(s *screen, _ stopwatch.Instant) outcome {
			s.mode = s.chooseName("grow", s.grows(), (*screen).setGrow)
			return outcome{}
		}},
		{"w", "workflow  " + orNone(s.names.Workflow), func(s *screen, _ stopwatch.Instant) outcome {
			s.mode = s.chooseName("workflow", s.study.WorkflowNames(), func(s *screen, name string) { s.names.Workflow = name })
			return outcome{}
		}},
		{"k", "worker    " + orNone(s.names.Worker), func(s *screen, _ stopwatch.Instant) outcome {
			s.mode = s.chooseName("worker", s.workers(), func(s *screen, name string) { s.names.Worker = name })
			return outcome{}
		}},
	}}
}

func (s *screen) setGrow(name string) {
	s.names.Grow = name
	if w := s.workflowOf(name); w != "" {
		s.names.Workflow = w
	}
	s.read(maxWait)
}

// chooseName lets a name of a kind be chosen, or for all but a workflow a new one typed.
func (s *screen) chooseName(kind string, names []string, set func(s *screen, name string)) pick {
	back := func(s *screen) outcome { s.mode = s.forWhom(); return outcome{} }
	var items []item
	if kind != "workflow" {
		items = append(items, item{"n", "another: type its name", func(s *screen, _ stopwatch.Instant) outcome {
			s.mode = ask{question: "name of the " + kind, leave: back, answer: func(s *screen, text string, _ stopwatch.Instant) (outcome, string) {
				set(s, text)
				s.mode = s.forWhom()
				return outcome{}, ""
			}}
			return outcome{}
		}})
	}
	for _, name := range names {
		items = append(items, item{text: name, do: func(s *screen, _ stopwatch.Instant) outcome { set(s, name); return back(s) }})
	}
	p := pick{question: "which " + kind + "?", items: numbered(items), leave: back}
	p.at = min(len(items)-1, len(items)-len(names)) // the first that is known, if any
	return p
}

// grows are the names of grows that are known, those timed last first.
func (s *screen) grows() []string {
	var names []string
	for _, g := range s.study.Grows {
		names = append(names, g.Name)
	}
	return s.lastFirst(names, s.namesInModels(func(m *answer.Models) []string { return m.Grows }), func(r study.Reading) string { return r.Grow })
}

func (s *screen) workers() []string {
	return s.lastFirst(nil, s.namesInModels(func(m *answer.Models) []string { return m.Workers }), func(r study.Reading) string { return r.Worker })
}

// namesInModels is the names of a kind that logs have, the first first.
func (s *screen) namesInModels(of func(*answer.Models) []string) []string {
	if s.latest.Models == nil {
		return nil
	}
	return of(s.latest.Models)
}

// lastFirst is names with those of logs and then of readings put in front, the last of
// them first.
func (s *screen) lastFirst(names, logged []string, of func(study.Reading) string) []string {
	var found []string
	add := func(name string) {
		if name != "" && !slices.Contains(found, name) {
			found = append(found, name)
		}
	}
	for _, state := range slices.Backward(append(slices.Clip(s.sessions), s.state)) {
		for _, r := range slices.Backward(state.Readings) {
			add(of(r.Reading))
		}
	}
	for _, name := range slices.Backward(logged) {
		add(name)
	}
	for _, name := range slices.Backward(names) {
		add(name)
	}
	return found
}
