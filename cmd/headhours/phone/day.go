package phone

import (
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"headhours/timing"
	"headhours/timing/stopwatch"
)

// mostJournals is how many journals of a day are shown.
const mostJournals = 200

// shown is a reading as the page shows those of other recorders.
type shown struct {
	Session string       `json:"session"`
	ID      string       `json:"id"` // of the event that began it
	Step    string       `json:"step"`
	Worker  string       `json:"worker"`
	Began   time.Time    `json:"began"`
	Running bool         `json:"running"`
	Paused  bool         `json:"paused"` // while it runs
	Seconds float64      `json:"seconds"`
	Count   timing.Maybe `json:"count"`
	Void    string       `json:"void"`
	Note    string       `json:"note"`
}

// day answers with the readings that began on a date, of all journals. A session
// of the day before may reach into it.
func (d *desk) day(w http.ResponseWriter, r *http.Request) {
	date, err := time.Parse(time.DateOnly, r.PathValue("date"))
	if err != nil {
		http.Error(w, "want a date such as 2026-03-31", http.StatusBadRequest)
		return
	}
	states, problems, err := d.sessions(date.AddDate(0, 0, -1), date)
	if err != nil {
		refuse(w, err)
		return
	}
	readings := []shown{}
	for _, s := range states {
		readings = append(readings, on(date, s)...)
	}
	answer(w, struct {
		Readings []shown  `json:"readings"`
		Problems []string `json:"problems"`
	}{readings, problems})
}

// sessions are those that began on one of some dates, and what is wrong with
// journals.
func (d *desk) sessions(dates ...time.Time) (states []stopwatch.State, problems []string, err error) {
	problems = []string{}
	entries, err := os.ReadDir(d.recorders.dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, nil, err
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) != stopwatch.Extension || !begunOn(e.Name(), dates) || len(states) == mostJournals {
			continue
		}
		path := filepath.Join(d.recorders.dir, e.Name())
		held, err := readJournal(path)
		if err != nil {
			problems = append(problems, strings.Split(strings.ReplaceAll(err.Error(), d.dir+string(filepath.Separator), ""), "\n")...)
			continue // the others' readings are shown all the same
		}
		states = append(states, stopwatch.Fold(path, held.Events))
	}
	return states, problems, nil
}

// maxJournal is how large a journal may be to be shown, in bytes.
const maxJournal = 64 << 20

// readJournal reads a journal: a file of a size that a day's work may come to. A
// press may be written meanwhile: half a line at its end is none.
func readJournal(path string) (stopwatch.Contents, error) {
	if err := plain(path); err != nil {
		return stopwatch.Contents{}, err
	}
	f, err := os.Open(path)
	if err != nil {
		return stopwatch.Contents{}, err
	}
	defer f.Close()
	return stopwatch.Read(f, path)
}

// plain refuses what is named like a file and is none, or none to be read: a pipe,
// a device, a folder, a link that leads nowhere, more than a day's work.
func plain(path string) error {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s is no file: it is a folder, a pipe or a device", path)
	case info.Size() > maxJournal:
		return fmt.Errorf("%s is larger than a journal can be: %d MiB, at most %d", path, info.Size()>>20, maxJournal>>20)
	}
	return nil
}

// begunOn says whether the name of a journal begins with one of some dates.
func begunOn(name string, dates []time.Time) bool {
	return slices.ContainsFunc(dates, func(d time.Time) bool { return strings.HasPrefix(name, d.Format(time.DateOnly)+"T") })
}

// on lists the readings of a session that began on a date of its own clock.
func on(date time.Time, s stopwatch.State) []shown {
	var list []shown
	for _, r := range s.Readings {
		if r.Date.Equal(date) {
			list = append(list, shown{
				Session: s.Session.Name, ID: r.ID, Step: r.Step, Worker: r.Worker, Began: r.Began, Running: r.Ended.IsZero(), Paused: r.Ended.IsZero() && s.Paused,
				Seconds: r.Seconds, Count: r.Counted, Void: r.Void, Note: r.Note,
			})
		}
	}
	return list
}
