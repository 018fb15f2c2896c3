package sums

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/study"
)

const (
	minAge      = 30 * time.Second // of what is known, before journals that have grown are read anew
	maxProblems = 20               // that are told
	maxGrows    = 64               // whose work is kept in mind
)

// holdMistakes is the first of the problems where logs or journals hold any.
const holdMistakes = "task logs or journals hold mistakes, so what is usual is not known: headhours check lists them"

// Snapshot is what the readings of a study come to, as far as they are read.
type Snapshot struct {
	Models *answer.Models // nil while nothing is known
	// Holds says whether a log holds a journal's reading, by its study.Reading.Journal;
	// Ours gives one the study's names. Both are nil while nothing is known.
	Holds func(journal string) bool
	Ours  func(study.Reading) study.Reading
	// The names of the last reading. They are looked for only where just the logs are read.
	Grow, Workflow, Worker string
	Problems               []string // what is wrong with logs and journals
	Ready                  bool     // that is all, as it stands now
}

// Keeper reads a study's logs and journals in the background, once for all who ask, when
// it is asked and they have changed.
type Keeper struct {
	dir      string
	onlyLogs bool

	mu          sync.Mutex
	latest      Snapshot
	fingerprint string // what the files were like that this was read from
	at          time.Time
	reading     chan struct{} // closed when it is done; nil: nothing is read
	grows       map[string]*grow
}

// grow is what was done in a grow by the logs.
type grow struct {
	ready chan struct{} // closed when it is known
	done  []answer.Done
}

// New is a keeper of the study folder dir, of its task logs alone or of its journals too.
func New(dir string, onlyLogs bool) *Keeper { return &Keeper{dir: dir, onlyLogs: onlyLogs} }

// Latest is what is known by now, or in so long a time, for which it waits where files have
// changed.
func (k *Keeper) Latest(wait time.Duration) Snapshot {
	ready := within(k.refresh(), wait)
	k.mu.Lock()
	defer k.mu.Unlock()
	latest := k.latest
	latest.Ready = ready
	return latest
}

// Ours gives a journal's reading the study's names, as they were when it was read last; it
// reads nothing.
func (k *Keeper) Ours(r study.Reading) study.Reading {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.latest.Ours == nil {
		return r
	}
	return k.latest.Ours(r)
}

// DoneIn is what was done in a grow, as Known has it; false where that is not known by
// then.
func (k *Keeper) DoneIn(name string, wait time.Duration) ([]answer.Done, bool) {
	before := time.Now()
	models := k.Latest(wait).Models
	if models == nil || name == "" {
		return nil, name == ""
	}
	k.mu.Lock()
	g := k.grows[name]
	if g == nil {
		if len(k.grows) >= maxGrows || k.grows == nil {
			k.grows = map[string]*grow{}
		}
		g = &grow{ready: make(chan struct{})}
		k.grows[name] = g
		go func() {
			defer close(g.ready)
			g.done, _ = answer.DoneIn(models, name) // logs that changed are read anew, by Known
		}()
	}
	k.mu.Unlock()
	if !within(g.ready, wait-time.Since(before)) {
		return nil, false
	}
	return g.done, true
}

// within waits for a channel's end for so long, and says whether it came.
func within(done <-chan struct{}, wait time.Duration) bool {
	select {
	case <-done:
		return true
	default:
	}
	if wait <= 0 {
		return false
	}
	select {
	case <-done:
		return true
	case <-time.After(wait):
		return false
	}
}

// refresh reads the study anew where it has changed. The channel is closed once what
// is known is up to date.
func (k *Keeper) refresh() <-chan struct{} {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.reading != nil {
		return k.reading
	}
	done := make(chan struct{})
	logs, all := k.fingerprints()
	now := logs + all
	same := now == k.fingerprint || k.latest.Models != nil && strings.HasPrefix(k.fingerprint, logs) && time.Since(k.at) < minAge
	if same {
		close(done)
		return done
	}
	k.reading = done
	go k.read(now, done)
	return done
}

func (k *Keeper) read(fingerprint string, done chan struct{}) {
	opened, err := folder.Open(k.dir, nil, folder.How{OnlyLogs: k.onlyLogs})
	latest := Snapshot{Problems: k.problems(err)}
	if err == nil {
		latest.Models = answer.NewModels(opened.Readings, answer.Options{})
		latest.Holds, latest.Ours = opened.Holds, opened.Ours
	}
	if k.onlyLogs && err == nil {
		latest.Grow, latest.Workflow, latest.Worker, _ = answer.LastNames(latest.Models) // else none are offered
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.latest, k.fingerprint, k.at, k.reading, k.grows = latest, fingerprint, time.Now(), nil, nil
	close(done)
}

// problems is an error in lines, files named within the study.
func (k *Keeper) problems(err error) []string {
	list := []string{}
	problems, ok := errors.AsType[study.Problems](err)
	switch {
	case err == nil:
		return list
	case !ok:
		return append(list, err.Error())
	}
	list = append(list, holdMistakes)
	for _, line := range strings.Split(problems.Error(), "\n") {
		if len(list) == maxProblems {
			return append(list, "and more: headhours check names them all")
		}
		list = append(list, strings.ReplaceAll(line, k.dir+string(filepath.Separator), ""))
	}
	return list
}

// fingerprints tell whether files have changed: of the study and its logs, and of its
// journals.
func (k *Keeper) fingerprints() (logs, journals string) {
	logs = looks(filepath.Join(k.dir, "study.toml")) + each(filepath.Join(k.dir, "timings")) + "\n\n"
	if k.onlyLogs {
		return logs, ""
	}
	return logs, each(filepath.Join(k.dir, "journal"))
}

func each(dir string) string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err.Error()
	}
	var b strings.Builder
	for _, e := range entries {
		b.WriteString(looks(filepath.Join(dir, e.Name())))
	}
	return b.String()
}

func looks(path string) string {
	info, err := os.Stat(path)
	if err != nil {
		return err.Error() + "\n"
	}
	return fmt.Sprintln(path, info.Size(), info.ModTime().UnixNano())
}
