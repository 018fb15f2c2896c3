package terminal

import (
	"cmp"
	"path/filepath"
	"slices"

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
