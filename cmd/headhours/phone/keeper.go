package phone

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"headhours/timing"
	"headhours/timing/folder"
)

// Bounds on what the keeper waits for and keeps.
const (
	maxKeeperWait = 300 * time.Millisecond // of a page for logs that are being read
	leastAge      = 30 * time.Second       // of what is known, before journals that have grown are read anew
	maxProblems   = 20                     // that a page is told
)

// keeper knows the usual times: it reads the study's logs and journals in the
// background, once for all phones, when a page asks and they have changed. No press
// waits for it.
type keeper struct {
	dir string

	mu      sync.Mutex
	known   *timing.Models // nil: none yet
	wrong   []string
	of      string // what the files were like that this was read from
	at      time.Time
	reading chan struct{} // closed when it is done; nil: nothing is read
}

func newKeeper(dir string) *keeper { return &keeper{dir: dir} }

// models are those of the readings as far as they are known, what is wrong with logs
// and journals, and whether that is all as it stands now. Where nothing is known yet
// the usual times are judged ones.
func (k *keeper) models(study timing.Study) (models *timing.Models, problems []string, ready bool) {
	done := k.refresh()
	ready = true
	select {
	case <-done:
	case <-time.After(maxKeeperWait):
		ready = false
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.known == nil {
		return timing.Fit(study, nil, timing.Options{}), k.wrong, ready
	}
	return k.known, k.wrong, ready
}

// refresh reads the study anew where it has changed. The channel is closed once what
// is known is up to date.
func (k *keeper) refresh() <-chan struct{} {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.reading != nil {
		return k.reading
	}
	done := make(chan struct{})
	logs, all := fingerprints(k.dir)
	now := logs + all
	same := now == k.of || k.known != nil && strings.HasPrefix(k.of, logs) && time.Since(k.at) < leastAge
	if same {
		close(done)
		return done
	}
	k.reading = done
	go k.read(now, done)
	return done
}

func (k *keeper) read(of string, done chan struct{}) {
	opened, err := folder.Open(k.dir, nil, folder.How{})
	k.mu.Lock()
	defer k.mu.Unlock()
	k.known, k.wrong, k.of, k.at, k.reading = opened.Models, k.said(err), of, time.Now(), nil
	close(done)
}

// said is an error as a page says it, files named within the study.
func (k *keeper) said(err error) []string {
	list := []string{}
	problems, ok := errors.AsType[timing.Problems](err)
	switch {
	case err == nil:
		return list
	case !ok:
		return append(list, err.Error())
	}
	list = append(list, "task logs or journals hold mistakes, so what is usual is not known: headhours check lists them")
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
func fingerprints(dir string) (logs, journals string) {
	logs = looks(filepath.Join(dir, "study.toml")) + each(filepath.Join(dir, "timings")) + "\n\n"
	return logs, each(filepath.Join(dir, "journal"))
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
