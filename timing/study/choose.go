package study

import (
	"errors"
	"fmt"

	"headhours/timing/words"
)

// errNoWorkflow says that a study has no way of working to answer for.
var errNoWorkflow = errors.New("the study has no [[workflow]] that says what is done on which days: take the # away from one that stands behind it in study.toml, or see headhours help study")

// UnknownName is a name, given on the command line, that the study lacks.
type UnknownName struct {
	Kind  string // "workflow", "step" …
	Name  string
	Known []string
}

// MaxKnown is how many known names an error lists.
const MaxKnown = 8

// Error names what was given, the nearest known name and, where none is near,
// the first of them.
func (u UnknownName) Error() string {
	text := NoneNamed(u.Kind, u.Name)
	if alike := Alike(u.Name, u.Known); len(alike) > 1 {
		return text + ": it may be " + words.Or(words.Quotes(alike)) + ", which differ in case or blanks alone"
	}
	if near := Nearest(u.Name, u.Known); near != "" {
		return text + ": did you mean " + words.Quote(near)
	}
	if len(u.Known) == 0 {
		return text + ": there is none at all"
	}
	return text + ": there is " + words.QuoteList(u.Known, MaxKnown)
}

// NoneNamed says that there is none of a kind and name.
func NoneNamed(kind, name string) string {
	return fmt.Sprintf("no %s is named %s", kind, words.Quote(name))
}

// Choose finds workflows by name, in the order of the names, each once; no
// names mean all. The error is ErrNoWorkflow or an UnknownName.
func (s Study) Choose(names []string) ([]Workflow, error) {
	if len(s.Workflows) == 0 {
		return nil, errNoWorkflow
	}
	if len(names) == 0 {
		return s.Workflows, nil
	}
	var chosen []Workflow
	seen := map[string]bool{}
	for _, name := range names {
		w, err := s.OneWorkflow(name)
		if err != nil {
			return nil, err
		}
		if !seen[w.Name] {
			seen[w.Name] = true
			chosen = append(chosen, w)
		}
	}
	return chosen, nil
}

// OneWorkflow is the one of a name. The error is an UnknownName.
func (s Study) OneWorkflow(name string) (Workflow, error) {
	same, _ := SameName(name, s.WorkflowNames())
	for _, w := range s.Workflows {
		if w.Name == same {
			return w, nil
		}
	}
	return Workflow{}, UnknownName{Kind: "workflow", Name: name, Known: s.WorkflowNames()}
}
