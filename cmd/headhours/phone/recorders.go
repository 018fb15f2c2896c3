package phone

import (
	"errors"
	"fmt"
	"sync"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// Bounds on what phones may ask of the server, far above a day's work.
const (
	maxOpen   = 16     // journals open at once
	maxNew    = 100    // journals begun in one run of the server
	maxEvents = 50_000 // of a session
)

var errFlood = errors.New("too much at once")

// recorders are the sessions of phones.
type recorders struct {
	dir      string // of the journals
	mu       sync.Mutex
	open     map[string]*stopwatch.Stopwatch
	sessions int // journals
	added    int // events
}

func newRecorders(dir string) *recorders {
	return &recorders{dir: dir, open: map[string]*stopwatch.Stopwatch{}}
}

// batchResult is what became of a batch.
type batchResult struct {
	held, added int
	refused     []stopwatch.Refused
	state       stopwatch.State
}

// take writes a session's events that are new, a line each, into its journal, in one go
// before it returns. The error is errFlood, of the session's name, or why they could not
// be written; then none is kept.
func (r *recorders) take(session string, lines [][]byte) (batchResult, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	s, err := r.session(session)
	if err != nil {
		return batchResult{}, err
	}
	before := s.Len()
	switch {
	case before+len(lines) > maxEvents:
		return batchResult{}, fmt.Errorf("%w: the session would have more than %d events, end work and begin anew", errFlood, maxEvents)
	case before == 0 && r.sessions >= maxNew:
		return batchResult{}, fmt.Errorf("%w: %d sessions have begun, start headhours phone again for more", errFlood, maxNew)
	}
	added, refused, err := s.Take(lines)
	if err != nil {
		return batchResult{}, err
	}
	if before == 0 && added > 0 {
		r.sessions++
	}
	r.added += added
	return batchResult{s.Len(), added, refused, s.State()}, nil
}

// session opens a session's stopwatch. Its clock is the phone's, so it has none.
func (r *recorders) session(name string) (*stopwatch.Stopwatch, error) {
	if s, open := r.open[name]; open {
		return s, nil
	}
	if len(r.open) >= maxOpen {
		if err := r.closeAll(); err != nil {
			return nil, err
		}
	}
	s, err := stopwatch.Open(r.dir, name, nil)
	if err == nil {
		r.open[name] = s
	}
	return s, err
}

// closeAll closes the journals; a session that goes on opens its own again.
func (r *recorders) closeAll() error {
	var errs []error
	for name, s := range r.open {
		errs = append(errs, s.Close())
		delete(r.open, name)
	}
	return errors.Join(errs...)
}

// close closes the journals and tells how many events were written, into how
// many journals that are new.
func (r *recorders) close() (added, sessions int, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.added, r.sessions, r.closeAll()
}

// texts are problems without their places, which say little on a phone.
func texts(problems []study.Problem) []string {
	list := make([]string, len(problems))
	for i, p := range problems {
		list[i] = p.Text
	}
	return list
}
