package answer

import (
	"fmt"
	"time"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/words"
)

// madeNotes say what answers make of changes that were made.
func (m *Models) madeNotes() []string {
	var notes []string
	for _, s := range m.Stages {
		if s == nil {
			continue
		}
		last := len(s.Changes) - 1
		change := m.Study.Made[s.Changes[last]]
		if n := m.undatedBefore(s); n > 0 {
			notes = append(notes, fmt.Sprintf("%s: %s without a date, taken as from before %s", change.Step, words.Many(n, "reading"), m.Study.Made[s.Changes[0]].Name))
		}
		if model := &m.Steps[s.At[last+1]]; s.Readings[last+1] == 0 && !change.Drop && !model.isGap() {
			what, asIs := "its earlier readings", " as they are"
			if model.isJudged() {
				what, asIs = "its estimate", " as it is"
			}
			notes = append(notes, fmt.Sprintf("%s was not timed since %s (%s): answers take %s%s",
				change.Step, change.Since.Format(time.DateOnly), change.Name, what, hopedWords(s.Hoped[last+1], asIs)))
		}
		if change.Drop {
			notes = append(notes, fmt.Sprintf("%s is not done any more since %s (%s)", change.Step, change.Since.Format(time.DateOnly), change.Name))
		}
	}
	return notes
}

func hopedWords(f stepfit.Load, asIs string) string {
	if f == (stepfit.Load{Setups: 1, Count: 1}) {
		return asIs
	}
	return fmt.Sprintf(" with what was hoped for: setup times × %s, unit times × %s", words.InFull(f.Setups), words.InFull(f.Count))
}

// undatedBefore is how many readings of the first stage have no date.
func (m *Models) undatedBefore(s *condense.Stages) int {
	n := 0
	for _, k := range m.Steps[s.At[0]].Kinds.All() {
		n += int(k.Undated)
	}
	return n
}
