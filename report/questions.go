package report

import (
	"strings"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// maxQuestioned is in how many of the largest steps something is asked.
const maxQuestioned = 3

// questionsBlock asks one thing about each of the largest steps, by what is known of
// it: is it needed, could it be joined with another, done elsewhere or in another
// order, made simpler? After the critical examination of the ILO's Introduction to
// Work Study, in words of our own. Steps of hygiene are never questioned, and never
// how quickly somebody works.
func questionsBlock(in answer.Improvement) string {
	lines := []string{"What to ask of the largest steps before buying anything:"}
	for _, s := range in.Steps {
		if len(lines) > maxQuestioned {
			break
		}
		if !s.Hygiene && s.Hours.Known && s.Hours.Value > 0 {
			lines = append(lines, words.Show(s.Step)+": "+question(s))
		}
	}
	if len(lines) == 1 {
		return ""
	}
	return strings.Join(lines, "\n")
}

// question is the one to ask of a step.
func question(s answer.StepShare) string {
	mostlySetup := !s.Bracketed && s.SetupHours.Known && 2*s.SetupHours.Value > s.Hours.Value
	switch {
	case s.Rework:
		return "it undoes earlier work. What makes it needed, and could that be prevented?"
	case mostlySetup:
		return "more than half of it is setup. Could fewer, larger visits do, or could things stay set up?"
	}
	switch s.Class {
	case study.Transport:
		return "how far is it, and how often? Could things stand nearer, or go in one trip?"
	case study.Inspection:
		return "what is done about what is found? Could one look while doing another step?"
	case study.Delay:
		return "what is waited for? Could other work be done meanwhile, or in another order?"
	case study.Storage:
		return "must it be put away at all? Could it go straight to where it is needed next?"
	}
	return "is each part of it needed? Could it be joined with another step, or made simpler by a tool or a better place?"
}
