package tasklog

import (
	"strings"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// names decode what the steps, or the like, of a column are called, and remember what each name stands for.
type names struct {
	is      column
	dialect *Dialect
	met     map[string]meaning
}

// meaning is what a name stands for, and what is wrong with it.
type meaning struct {
	ours string
	err  error
}

// maxNames is how many names of a kind are remembered.
const maxNames = 10_000

// of is what a name stands for, one copy of it but of a grow; where it is unknown it is the name itself, and the error
// says what is wrong.
func (n *names) of(text string) (ours string, err error) {
	if n.is == growColumn { // they are many, and any name is one
		return n.dialect.OurGrow(text), nil
	}
	if m, ok := n.met[text]; ok {
		return m.ours, m.err
	}
	text = strings.Clone(text) // of a whole row
	m := n.meaning(text)
	if n.met == nil || len(n.met) >= maxNames {
		n.met = map[string]meaning{}
	}
	n.met[text] = m
	return m.ours, m.err
}

func (n *names) meaning(text string) meaning {
	m, isKnown, known := meaning{ours: text}, true, []string(nil)
	switch n.is {
	case stepColumn:
		m.ours, isKnown = n.dialect.OurStep(text)
		known = n.dialect.Steps
	case workflowColumn:
		m.ours, isKnown = n.dialect.OurWorkflow(text)
		known = n.dialect.Workflows
	case workerColumn:
		m.ours = n.dialect.OurWorker(text)
	}
	if !isKnown {
		m.ours = text
		m.err = &often{key: study.FoldedName(text), words: func() (what, do string) { return unknownName(n.is, text, known) }}
	}
	return m
}

// What the names of a batch are of: see condense.StepNames and those after it.
const nameKinds = condense.WorkerNames + 1

// nameKind is of what kind a column's names are.
func nameKind(is column) (kind int, ok bool) {
	switch is {
	case stepColumn:
		return condense.StepNames, true
	case workflowColumn:
		return condense.WorkflowNames, true
	case growColumn:
		return condense.GrowNames, true
	case workerColumn:
		return condense.WorkerNames, true
	}
	return 0, false
}
