package study

import "slices"

// Sown are the workflows that the study's sowings name.
func (s Study) Sown() []Workflow {
	workflows := []Workflow{}
	for _, w := range s.Workflows {
		if slices.ContainsFunc(s.Sowings, func(o Sowing) bool { return o.Workflow == w.Name }) {
			workflows = append(workflows, w)
		}
	}
	return workflows
}

// SharedTask says whether a task of a step, in any workflow, is said to serve several
// grows.
func (s Study) SharedTask(step string) bool {
	return slices.ContainsFunc(s.Workflows, func(w Workflow) bool {
		return slices.ContainsFunc(w.Tasks, func(t Task) bool { return t.Step == step && t.SharedBy > 1 })
	})
}
