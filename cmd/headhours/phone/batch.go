package phone

import (
	"bytes"
	"errors"
	"io"
	"net/http"
	"slices"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

const maxBatch = 1000 // events

// refused is an event of a batch, by its number from 1, that is none.
type refused struct {
	Event int    `json:"event"`
	Why   string `json:"why"`
}

// takeBatch writes a batch, an event of the session a line, into the journal. An
// answer without an error says that all but the refused events stand there, and
// that those never will; with one, that none does yet.
func (d *desk) takeBatch(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body) // all of it is here
	if err != nil {
		refuse(w, err)
		return
	}
	session := r.PathValue("session")
	lines := bytes.Split(bytes.TrimSuffix(body, []byte("\n")), []byte("\n"))
	if len(lines) > maxBatch {
		http.Error(w, "too many events in one batch", http.StatusRequestEntityTooLarge)
		return
	}
	batch, wrong := decode(session, lines)
	done, err := d.recorders.take(session, batch)
	if err != nil {
		refuse(w, err)
		return
	}
	reply(w, struct {
		Held     int       `json:"held"` // events of the session in the journal
		Added    int       `json:"added"`
		Refused  []refused `json:"refused"`
		Warnings []string  `json:"warnings"`
	}{done.held, done.added, wrong, d.warnings(done.state)})
}

// decode reads the lines of a batch.
func decode(session string, lines [][]byte) (batch []stopwatch.Event, wrong []refused) {
	wrong = []refused{}
	for i, line := range lines {
		e, err := stopwatch.Decode(line)
		if err == nil && e.Session != session {
			err = errors.New("is of another session")
		}
		if err != nil {
			wrong = append(wrong, refused{i + 1, err.Error()})
			continue
		}
		batch = append(batch, e)
	}
	return batch, wrong
}

// warnings are a session's, with those of names that the study has not.
func (d *desk) warnings(s stopwatch.State) []string {
	list := texts(s.Warnings)
	study, err := d.study()
	if err != nil {
		return append(list, strings.Split(err.Error(), "\n")...)
	}
	return append(list, unknown(study, s, d.usual.Ours)...)
}

// unknown says which steps and workflows of a session the study has not, even by another
// name: until it has, or the journal is put right, such a step is in no answer.
func unknown(st study.Study, s stopwatch.State, ours func(study.Reading) study.Reading) []string {
	var list []string
	check := func(kind, name string, names []string) {
		if _, ok := study.SameName(name, names); ok || name == "" {
			return
		}
		text := study.UnknownName{Kind: kind, Name: name, Known: names}.Error() + ". If it has another name now, " + tasklog.Joins(kind, name, study.Nearest(name, names))
		if !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	for _, r := range s.Readings {
		r := ours(r.Reading)
		check("step", r.Step, st.StepNames())
		check("workflow", r.Workflow, st.WorkflowNames())
	}
	return list
}
