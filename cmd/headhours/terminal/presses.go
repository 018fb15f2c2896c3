package terminal

import (
	"errors"
	"slices"
	"strings"

	"headhours/timing/stopwatch"
)

// press takes presses into the session at hand, which the first of them begins. A
// press that cannot be written counts all the same, see trouble; an error is of
// one that does not fit.
func (r *recorder) press(events ...stopwatch.Event) error {
	if r.watch == nil {
		watch, err := stopwatch.New(r.dir, stopwatch.NameSession(r.at.Wall, r.names.Worker), r.instant)
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
