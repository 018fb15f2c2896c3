package timing

import (
	"fmt"
	"slices"
)

// Separation is by what the readings of a step may be fitted apart.
type Separation string

// The separations.
const (
	ApartByWorkflow Separation = "workflow"
	ApartByWorker   Separation = "worker"
)

// Separations lists the separations.
var Separations = []Separation{ApartByWorkflow, ApartByWorker}

// of is the workflow or worker of a kind of readings.
func (s Separation) of(k kind) string {
	if s == ApartByWorker {
		return k.worker
	}
	return k.workflow
}

// Apart is the same readings with a step for each workflow, or worker, that they
// name, where they name more than one: "transplant (w1)". It is for Fits and Curves,
// which take a workflow to use every part of a step that it uses.
func (m *Models) Apart(by Separation) *Models {
	parts := m.parts(by)
	study := m.Study
	study.Steps, study.Workflows = nil, nil
	for _, step := range m.Study.Steps {
		for _, name := range parts[step.Name].names {
			step.Name = name
			study.Steps = append(study.Steps, step)
		}
	}
	for _, w := range m.Study.Workflows {
		var tasks []Task
		for _, t := range w.Tasks {
			for _, name := range parts[t.Step].names {
				t.Step = name
				tasks = append(tasks, t)
			}
		}
		w.Tasks = tasks
		study.Workflows = append(study.Workflows, w)
	}
	readings := slices.Clone(m.Readings)
	for i, r := range readings {
		readings[i].Step = parts[r.Step].of[by.of(kindOf(r))]
	}
	return Fit(study, readings, m.options)
}

// parts are what a step falls into: the new steps' names in order of first
// appearance, and by the workflow or worker of a reading.
type parts struct {
	names []string
	of    map[string]string
}

// parts gives each step the parts it falls into; one whose readings name no more
// than one workflow or worker stays itself.
func (m *Models) parts(by Separation) map[string]*parts {
	values := map[string][]string{}
	for _, r := range m.Readings {
		if value := by.of(kindOf(r)); !slices.Contains(values[r.Step], value) {
			values[r.Step] = append(values[r.Step], value)
		}
	}
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
	return all
}

// partName names a part of a step, as no step of the study is named.
func (m *Models) partName(step string, by Separation, value string) string {
	if value == "" {
		value = "no " + string(by)
	}
	name := fmt.Sprintf("%s (%s)", step, value)
	for _, taken := m.index[name]; taken; _, taken = m.index[name] {
		name += "*"
	}
	return name
}
