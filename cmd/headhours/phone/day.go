package phone

import (
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// maxJournals is how many journals of a day are shown.
const maxJournals = 200

// dayReading is a reading as the page shows those of other recorders.
type dayReading struct {
	Session string      `json:"session"`
	ID      string      `json:"id"` // of the event that began it
	Step    string      `json:"step"`
	Worker  string      `json:"worker"`
	Began   time.Time   `json:"began"`
	Running bool        `json:"running"`
	Paused  bool        `json:"paused"` // while it runs
	Seconds float64     `json:"seconds"`
	Count   study.Maybe `json:"count"`
	Void    string      `json:"void"`
	Note    string      `json:"note"`
}

// answerDay answers with the readings that began on a date, of all journals. A session
// of the day before may reach into it.
func (d *desk) answerDay(w http.ResponseWriter, r *http.Request) {
	date, err := time.Parse(time.DateOnly, r.PathValue("date"))
	if err != nil {
		http.Error(w, "want a date such as 2026-03-31", http.StatusBadRequest)
		return
	}
	states, problems := d.sessionsOn(date.AddDate(0, 0, -1), date)
	readings := []dayReading{}
	for _, s := range states {
		readings = append(readings, on(date, s)...)
	}
	reply(w, struct {
		Readings []dayReading `json:"readings"`
		Problems []string     `json:"problems"`
	}{readings, problems})
}

// sessionsOn are those that began on one of some dates, and what is wrong with their
// journals: the others' readings are shown all the same. A press may be written
// meanwhile: half a line at its end is none.
func (d *desk) sessionsOn(dates ...time.Time) (states []stopwatch.State, problems []string) {
	problems = []string{}
	count := 0
	states, wrong := stopwatch.ReadFolder(d.recorders.dir, func(name string) bool {
		if !begunOn(name, dates) || count == maxJournals {
			return false
		}
		count++
		return true
	})
	for _, p := range wrong {
		problems = append(problems, strings.ReplaceAll(p.Error(), d.dir+string(filepath.Separator), ""))
	}
	return states, problems
}

// begunOn says whether the name of a journal begins with one of some dates.
func begunOn(name string, dates []time.Time) bool {
	return slices.ContainsFunc(dates, func(d time.Time) bool { return strings.HasPrefix(name, d.Format(time.DateOnly)+"T") })
}

// on lists the readings of a session that began on a date of its own clock.
func on(date time.Time, s stopwatch.State) []dayReading {
	var list []dayReading
	for _, r := range s.Readings {
		if r.Date.Equal(date) {
			list = append(list, dayReading{
				Session: s.Session.Name, ID: r.ID, Step: r.Step, Worker: r.Worker, Began: r.Began, Running: r.Ended.IsZero(), Paused: r.Ended.IsZero() && s.Paused,
				Seconds: r.Seconds, Count: r.Counted, Void: r.Void, Note: r.Note,
			})
		}
	}
	return list
}
