package phone

import (
	"bytes"
	"io"
	"net/http"
	"slices"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

const maxBatch = 1000 // events

// takeBatch writes a batch, an event of the session a line, into the journal. An
// answer without an error says that all but the refused events stand there, and
// that those never will; with one, that none does yet.
func (d *desk) takeBatch(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body) // all of it is here
	if err != nil {
		refuse(w, err)
		return
	}
	lines := bytes.Split(bytes.TrimSuffix(body, []byte("\n")), []byte("\n"))
	if len(lines) > maxBatch {
		http.Error(w, "too many events in one batch", http.StatusRequestEntityTooLarge)
		return
	}
	done, err := d.recorders.take(r.PathValue("session"), lines)
	if err != nil {
		refuse(w, err)
		return
	}
	reply(w, struct {
		Held     int                 `json:"held"` // events of the session in the journal
		Added    int                 `json:"added"`
		Refused  []stopwatch.Refused `json:"refused"`
		Warnings []string            `json:"warnings"`
	}{done.held, done.added, append([]stopwatch.Refused{}, done.refused...), d.warnings(done.state)})
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
