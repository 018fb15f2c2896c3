package timing

import (
	"errors"
	"fmt"
	"strings"
)

// ErrNoWorkflow says that a study has no way of working to answer for.
var ErrNoWorkflow = errors.New("the study has no [[workflow]]")

// UnknownName is a name, given on the command line, that the study lacks.
type UnknownName struct {
	Kind  string // "workflow", "step" …
	Name  string
	Known []string
}

// Error names what was given, the nearest known name and, where none is near,
// all of them.
func (u UnknownName) Error() string {
	text := fmt.Sprintf("no %s is named %q", u.Kind, u.Name)
	if near := Nearest(u.Name, u.Known); near != "" {
		return text + fmt.Sprintf(": did you mean %q", near)
	}
	quoted := make([]string, len(u.Known))
	for i, k := range u.Known {
		quoted[i] = fmt.Sprintf("%q", k)
	}
	return text + ": there is " + strings.Join(quoted, ", ")
}

// choose finds workflows by name, in the order of the names, each once; no
// names mean all. The error is ErrNoWorkflow or an UnknownName.
func (s Study) choose(names []string) ([]Workflow, error) {
	if len(s.Workflows) == 0 {
		return nil, ErrNoWorkflow
	}
	if len(names) == 0 {
		return s.Workflows, nil
	}
	var chosen []Workflow
	seen := map[string]bool{}
	for _, name := range names {
		w, err := s.workflow(name)
		if err != nil {
			return nil, err
		}
		if !seen[name] {
			seen[name] = true
			chosen = append(chosen, w)
		}
	}
	return chosen, nil
}

func (s Study) workflow(name string) (Workflow, error) {
	for _, w := range s.Workflows {
		if w.Name == name {
			return w, nil
		}
	}
	return Workflow{}, UnknownName{Kind: "workflow", Name: name, Known: s.WorkflowNames()}
}
