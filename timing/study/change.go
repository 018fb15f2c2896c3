package study

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"headhours/timing/words"
)

// Workflow finds the workflow that an answer about a single one is for: the named
// one, or the study's first where name is "". The errors are those of choose.
func (s Study) Workflow(name string) (Workflow, error) {
	var names []string
	if name != "" {
		names = []string{name}
	}
	chosen, err := s.Choose(names)
	if err != nil {
		return Workflow{}, err
	}
	return chosen[0], nil
}

// ErrMade says that a change is no what-if: it was made, and answers have it.
var ErrMade = errors.New("was made, so every answer has it already; improve says what it saves")

// ChangesNamed finds what-ifs by name. The error is an UnknownName or an ErrMade.
func (s Study) ChangesNamed(names []string) ([]Change, error) {
	var found []Change
	var ours, made []string
	for _, c := range s.Changes {
		ours = append(ours, c.Name)
	}
	for _, c := range s.Made {
		made = append(made, c.Name)
	}
	for _, name := range names {
		same, ok := SameName(name, ours)
		i := slices.Index(ours, same)
		if _, isMade := SameName(name, made); !ok && isMade {
			return nil, fmt.Errorf("the change %s %w", words.Quote(name), ErrMade)
		}
		if !ok {
			return nil, UnknownName{Kind: "change", Name: name, Known: ours}
		}
		found = append(found, s.Changes[i])
	}
	return found, nil
}

// Joined is names taken together as one.
func Joined(names []string) string { return strings.Join(names, " + ") }
