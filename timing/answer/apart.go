package answer

import (
	"fmt"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// Separation is by what the readings of a step may be fitted apart.
type Separation string

// The separations.
const (
	apartByWorkflow Separation = "workflow"
	apartByWorker   Separation = "worker"
)

// Separations lists the separations.
var Separations = []Separation{apartByWorkflow, apartByWorker}

// kind is that of a batch's names which hold it.
func (s Separation) kind() int {
	if s == apartByWorker {
		return condense.WorkerNames
	}
	return condense.WorkflowNames
}

// nameIn is the workflow or worker of a kind of readings.
func (s Separation) nameIn(k condense.Kind) string {
	if s == apartByWorker {
		return k.Worker
	}
	return k.Workflow
}

// Apart is the same readings with a step for each workflow, or worker, that they
// name, where they name more than one: "transplant (w1)". It is for Fits and Curves,
// which take a workflow to use every part of a step that it uses. The error is that of
// reading them again.
func (m *Models) Apart(by Separation) (*Models, error) {
	parts, err := m.parts(by)
	if err != nil {
		return nil, err
	}
	st := m.Study
	st.Steps, st.Workflows = nil, nil
	for _, step := range m.Study.Steps {
		for _, name := range parts[step.Name].names {
			step.Name = name
			st.Steps = append(st.Steps, step)
		}
	}
	for _, w := range m.Study.Workflows {
		var tasks []study.Task
		for _, t := range w.Tasks {
			for _, name := range parts[t.Step].names {
				t.Step = name
				tasks = append(tasks, t)
			}
		}
		w.Tasks = tasks
		st.Workflows = append(st.Workflows, w)
	}
	st.Made = nil
	for _, change := range m.Study.Made {
		for _, name := range parts[change.Step].names {
			change.Step = name
			st.Made = append(st.Made, change)
		}
	}
	apart := func(look func(*condense.Batch), take func(*condense.Batch) error) error {
		return m.Again(nil, func(b *condense.Batch) error {
			b = renamed(b, by, parts)
			if look != nil {
				look(b)
			}
			return take(b)
		})
	}
	g := condense.Gather(&st, m.Filter)
	if err := apart(nil, g.Take); err != nil {
		return nil, err
	}
	return NewModels(g.Condensed(apart), m.options), nil
}

// renamed is a batch whose rows name the parts of their steps.
func renamed(b *condense.Batch, by Separation, parts map[string]*parts) *condense.Batch {
	other := *b
	other.Table, other.Digest = nil, nil
	other.Rows.What, other.What = make([]uint32, b.Rows.Len()), nil
	names, whats := condense.Index[string]{}, condense.Index[condense.What]{}
	names.Of("")
	for i := range other.Rows.What {
		r := b.Rows.At(i)
		what, name := b.What[r.What], ""
		if p := parts[b.Name(r, condense.StepNames)]; p != nil {
			name = p.of[b.Name(r, by.kind())]
		}
		what.Step = int32(names.Of(name))
		other.Rows.What[i] = whats.Of(what)
	}
	other.Names[condense.StepNames], other.What = names.List, whats.List
	return &other
}

// parts are what a step falls into: the new steps' names in order of first
// appearance, and by the workflow or worker of a reading.
type parts struct {
	names []string
	of    map[string]string
}

// parts gives each step the parts it falls into; one whose readings name no more
// than one workflow or worker stays itself.
func (m *Models) parts(by Separation) (map[string]*parts, error) {
	values := map[string][]string{}
	err := m.Again(nil, func(b *condense.Batch) error {
		seen := map[[2]string]bool{}
		for i := range b.Rows.Len() {
			r := b.Rows.At(i)
			step, value := b.Name(r, condense.StepNames), b.Name(r, by.kind())
			if seen[[2]string{step, value}] || !m.Filter.Takes(b, r) {
				continue
			}
			seen[[2]string{step, value}] = true
			if !slices.Contains(values[step], value) {
				values[step] = append(values[step], value)
			}
		}
		return nil
	})
	all := map[string]*parts{}
	for _, step := range m.Study.Steps {
		p := &parts{of: map[string]string{}}
		all[step.Name] = p
		for _, value := range values[step.Name] {
			p.of[value] = step.Name
			if len(values[step.Name]) > 1 {
				p.of[value] = m.partName(step.Name, by, value)
				p.names = append(p.names, p.of[value])
			}
		}
		if p.names == nil {
			p.names = []string{step.Name}
		}
	}
	return all, err
}

// partName names a part of a step, as no step of the study is named.
func (m *Models) partName(step string, by Separation, value string) string {
	if value == "" {
		value = "no " + string(by)
	}
	name := fmt.Sprintf("%s (%s)", step, value)
	for _, ok := m.Index[name]; ok; _, ok = m.Index[name] {
		name += "*"
	}
	return name
}
