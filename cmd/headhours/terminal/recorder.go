package terminal

import (
	"cmp"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// Config is what a face is started with.
type Config struct {
	Dir     string // the study folder
	Study   study.Study
	Logs    Logs   // nil: none
	Names   Names  // as far as the command line says; "" leaves it open
	Command string // what headhours is called by, with its study: "headhours"
	Now     func() stopwatch.Instant
}

// recorder keeps the desk: it opens sessions and writes what is pressed.
type recorder struct {
	desk
	command string               // what headhours is called by
	dir     string               // of the journals
	at      stopwatch.Instant    // when what is being done was asked for
	given   Names                // by the command line
	offers  Names                // what was offered
	watch   *stopwatch.Stopwatch // nil while no session is at hand

	unread study.Problems // journals that cannot be read, and lines of them
}

// newRecorder is a recorder that begins at a moment.
func newRecorder(c Config, at stopwatch.Instant) *recorder {
	r := &recorder{command: cmp.Or(c.Command, "headhours"), dir: filepath.Join(c.Dir, "journal"), at: at, given: c.Names}
	r.study, r.today, r.logs = c.Study, midnight(at.Wall), c.Logs
	if r.logs == nil {
		r.logs = noLogs{}
	}
	r.logs.Latest(0) // they are read while the journals are
	r.sessions, r.unread = readSessions(r.dir)
	r.latest = r.logs.Latest(maxWait)
	r.offers = r.offered()
	r.names = r.offers
	r.look(stopwatch.Fold("", nil))
	wait := maxWait
	if !r.latest.Ready { // so long was waited already
		wait = 0
	}
	r.read(wait)
	r.judge()
	return r
}

// readSessions reads the journals of a folder, and says what cannot be read; work can be
// timed without it.
func readSessions(dir string) ([]stopwatch.State, study.Problems) {
	sessions, problems := stopwatch.ReadFolder(dir, nil)
	sessions = slices.DeleteFunc(sessions, func(s stopwatch.State) bool { return s.Session.Name == "" })
	inOrder(sessions)
	return sessions, problems
}

func inOrder(sessions []stopwatch.State) {
	slices.SortStableFunc(sessions, func(a, b stopwatch.State) int {
		return cmp.Or(a.Session.Began.Compare(b.Session.Began), cmp.Compare(a.Session.Name, b.Session.Name))
	})
}

// offered fills in the names that are not given with those of the last reading,
// of a session or else of a log, and the workflow with the grow's own.
func (r *recorder) offered() Names {
	asked, last := r.given, Names{r.latest.Grow, r.latest.Workflow, r.latest.Worker}
	for _, s := range r.sessions {
		last = Names{s.Session.Grow, s.Session.Workflow, s.Session.Worker}
		if n := len(s.Readings); n > 0 {
			last = Names{s.Readings[n-1].Grow, s.Readings[n-1].Workflow, s.Readings[n-1].Worker}
		}
	}
	names := Names{cmp.Or(asked.Grow, last.Grow), asked.Workflow, cmp.Or(asked.Worker, last.Worker)}
	if names.Workflow == "" {
		names.Workflow = cmp.Or(r.workflowOf(names.Grow), last.Workflow)
	}
	if _, err := r.study.Workflow(names.Workflow); err != nil {
		names.Workflow = ""
	}
	if names.Workflow == "" && len(r.study.Workflows) > 0 {
		names.Workflow = r.study.Workflows[0].Name
	}
	return names
}

// instant is when what is being done was asked for: what comes in between is no part of
// anybody's work.
func (r *recorder) instant() stopwatch.Instant { return r.at }

// afterwards does, once a press is answered, what rests on logs and on models: see judge.
// It says what is new to be told, "" where nothing is.
func (r *recorder) afterwards() (news string) {
	before := r.latest.Problems
	if r.read(0) {
		if r.watch == nil && r.names == r.offers {
			r.offers = r.offered()
			r.names = r.offers
			r.read(0)
		}
		if len(before) == 0 && len(r.latest.Problems) > 0 {
			news = r.latest.Problems[0]
		} else if r.latest.Ready {
			news = r.strangers()
		}
	}
	r.judge()
	return news
}

// press takes presses into the session at hand, which the first of them begins. A
// press that cannot be written counts all the same, see trouble; an error is of
// one that does not fit.
func (r *recorder) press(events ...stopwatch.Event) error {
	if r.watch == nil {
		watch, err := stopwatch.New(r.dir, stopwatch.NewSession(r.at.Wall, r.names.Worker), r.instant)
		if err != nil {
			return err
		}
		r.watch = watch
	}
	s := r.watch.State().Session
	if s.Name == "" {
		n := r.names
		begin := stopwatch.Event{Kind: stopwatch.Begin, Grow: n.Grow, Workflow: n.Workflow, Worker: n.Worker}
		s.Grow, s.Workflow, s.Worker = n.Grow, n.Workflow, n.Worker
		events = slices.Concat([]stopwatch.Event{begin}, events)
	}
	for i := range events {
		if e := &events[i]; e.Kind == stopwatch.Start || e.Kind == stopwatch.Next {
			e.Grow, e.Workflow, e.Worker = unlike(r.names.Grow, s.Grow), unlike(r.names.Workflow, s.Workflow), unlike(r.names.Worker, s.Worker)
		}
	}
	return r.took(r.watch.Press(events...))
}

// unlike is a name where it is not the session's.
func unlike(name, sessions string) string {
	if name == sessions {
		return ""
	}
	return name
}

// took looks at what a press or a save has come to.
func (r *recorder) took(err error) error {
	r.trouble = ""
	if errors.Is(err, stopwatch.ErrUnsaved) {
		r.trouble, err = strings.TrimPrefix(err.Error(), stopwatch.ErrUnsaved.Error()+": "), nil
	}
	r.unsaved, r.undoes = 0, ""
	if r.watch != nil {
		r.unsaved = r.watch.Unsaved()
		if e, ok := r.watch.Last(); ok && e.Kind != stopwatch.Begin {
			r.undoes = r.described(e)
		}
		r.today = midnight(r.at.Wall)
		r.look(r.watch.State())
	}
	return err
}

// save tries again to write what could not be written.
func (r *recorder) save() {
	if r.watch != nil && r.watch.Unsaved() > 0 {
		_ = r.took(r.watch.Save()) // what is still unsaved shows as trouble
	}
}

// takeUp goes on with an earlier session, by its name. The error says why its
// journal cannot be opened; then nothing has changed.
func (r *recorder) takeUp(session string) error {
	watch, err := stopwatch.Open(r.dir, session, r.instant)
	if err != nil {
		return err
	}
	r.leave()
	r.watch = watch
	r.sessions = slices.DeleteFunc(r.sessions, func(s stopwatch.State) bool { return s.Session.Name == session })
	s := watch.State()
	if n := len(s.Readings); n > 0 {
		r.names = Names{s.Readings[n-1].Grow, s.Readings[n-1].Workflow, s.Readings[n-1].Worker}
	}
	err = r.took(nil)
	r.read(maxWait)
	return err
}

// leave puts the session at hand with the others. The next press begins another.
func (r *recorder) leave() {
	if r.watch == nil {
		return
	}
	if s := r.watch.State(); s.Session.Name != "" {
		r.sessions = append(r.sessions, s)
		inOrder(r.sessions)
	}
	_ = r.watch.Close() // with nothing unsaved there is nothing to lose
	r.watch = nil
	r.undoes = ""
	r.look(stopwatch.Fold("", nil))
}

// pressIn takes presses into a session other than the one at hand, such as the
// count that a reading of last week lacks. An error says why they do not fit or
// could not be written; then they are not kept.
func (r *recorder) pressIn(session string, events ...stopwatch.Event) error {
	watch, err := stopwatch.Open(r.dir, session, r.instant)
	if err != nil {
		return err
	}
	err = watch.Press(events...)
	if errors.Is(err, stopwatch.ErrUnsaved) {
		return errors.Join(err, watch.Close())
	}
	for i, s := range r.sessions {
		if s.Session.Name == session {
			r.sessions[i] = watch.State()
		}
	}
	r.models = nil
	r.plan()
	return errors.Join(err, watch.Close())
}

// midnight is the day of a time as readings have it.
func midnight(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// workflowOf is the workflow that the study gives a grow; "" where it gives none.
func (d *desk) workflowOf(grow string) string {
	for _, g := range d.study.Grows {
		if g.Name == grow {
			return g.Workflow
		}
	}
	return ""
}
