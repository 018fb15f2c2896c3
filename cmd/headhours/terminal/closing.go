package terminal

import (
	"fmt"
	"io"
	"path/filepath"

	"headhours/timing/stopwatch"
	"headhours/timing/words"
)

// finish closes the session and says in a line what it came to, and what it lacks.
func (r *recorder) finish(out io.Writer) error {
	if r.watch == nil {
		return nil
	}
	state := r.watch.State()
	if err := r.watch.Close(); err != nil {
		return fmt.Errorf("%w\nwrite these down:\n%s", err, listed(state))
	}
	if state.Session.Name == "" {
		return nil
	}
	fmt.Fprintf(out, "%s: %s\n", filepath.Join(r.dir, state.Session.Name+stopwatch.Extension), words.Many(len(state.Readings), "reading"))
	if running, runs := state.Running(); runs {
		fmt.Fprintf(out, "%s is still open: %s record takes it up\n", running.Step, r.command)
	}
	for _, o := range state.Readings {
		if lacksCount(o) {
			fmt.Fprintf(out, "%s lacks its count: %s record asks for it\n", reading(o), r.command)
		} else if ofNothing(o) {
			fmt.Fprintf(out, "%s has a count of 0 and no setup, so it is in no answer\n", reading(o))
		}
	}
	return nil
}

// answers is the command that answers from what was timed.
func (r *recorder) answers() string {
	if len(r.study.Workflows) == 0 {
		return r.command + " fit"
	}
	return r.command + " compare"
}

// afterEnd says what a session that ended has no count of, and how to go on.
func (l *lineFace) afterEnd() {
	for i, r := range l.state.Readings {
		if ofNothing(r) {
			l.say("   %s has a count of 0 and no setup, so it is in no answer: amend %d count N gives another", reading(r), i+1)
		}
		if !lacksCount(r) {
			continue
		}
		count, due := "N", ""
		if n, ok := l.planned(r); ok {
			count, due = words.UpTo(n, 2), ", as is due,"
		}
		l.say("   %s lacks its count, and is in no answer until then: amend %d count %s%s gives it", reading(r), i+1, count, due)
	}
	l.say("   next: %s", l.answers())
}

// ofLacking says of a reading that has just ended that its count is missing, and offers
// what is due.
func (l *lineFace) ofLacking(before stopwatch.State) {
	ran, runs := before.Running()
	if !runs || !l.state.Session.Ended.IsZero() {
		return
	}
	_, another := l.state.Running()
	for i, r := range l.state.Readings {
		if r.ID != ran.ID || !lacksCount(r) {
			continue
		}
		n, due := l.planned(r)
		switch {
		case due && another:
			l.say("   %s lacks its count: amend %d count %s gives what is due", reading(r), i+1, words.UpTo(n, 2))
		case due:
			l.say("   %s lacks its count: count alone gives the %s due, count N another", reading(r), l.counted(n, r.Step))
		case another:
			l.say("   %s lacks its count: amend %d count N gives it", reading(r), i+1)
		default:
			l.say("   %s lacks its count: count N gives it", reading(r))
		}
	}
}
