package timing

import (
	"cmp"
	"slices"

	"headhours/timing/crop"
)

// Sensitivity is what a fifth more or less of each input does to the cost of a
// head, the largest first.
type Sensitivity struct {
	Workflow string   `json:"workflow"`
	Heads    int      `json:"heads"`
	Currency *string  `json:"currency"`
	PerHead  float64  `json:"per_head"`
	Inputs   []Input  `json:"inputs"`
	Gaps     []string `json:"gaps"`
	Notes    []string `json:"notes"`
}

// Input is one input of a cost, and the cost of a head with it a fifth lower
// and a fifth higher (a share stops at 1).
type Input struct {
	Name   string  `json:"input"`
	Lower  float64 `json:"per_head_lower"`
	Higher float64 `json:"per_head_higher"`
}

// Reach is how far an input moves the cost of a head, between its two ends.
func (i Input) Reach() float64 { return abs(i.Higher - i.Lower) }

// swing is by how much each input is moved.
const swing = 0.2

// Sensitivity moves each input of the cost of one workflow, one at a time: the
// workflow named, or the study's first where name is "". ok is false without a
// wage. The errors are those of Compare.
func (m *Models) Sensitivity(name string, heads int) (s Sensitivity, ok bool, err error) {
	w, err := m.Study.Workflow(name)
	if err != nil || m.Study.Labour == nil {
		return Sensitivity{}, false, err
	}
	at := func(study Study, steps linear, heads int) float64 {
		moved := *m
		moved.Study = study
		way, _ := study.workflow(w.Name)
		return moved.cost(way, heads, tools{factors: steps}).PerHead.Value
	}
	s = Sensitivity{Workflow: w.Name, Heads: heads, PerHead: at(m.Study, m.factors(nil), heads), Inputs: []Input{}, Notes: m.notes()}
	visits := m.visits(w, float64(heads))
	s.Gaps = m.costGaps(visits)
	if m.Study.Currency != "" {
		s.Currency = &m.Study.Currency
	}
	try := func(name string, move func(study *Study, f float64)) {
		ends := [2]float64{}
		for i, f := range []float64{1 - swing, 1 + swing} {
			study := m.Study.copied()
			move(&study, f)
			ends[i] = at(study, m.factors(nil), heads)
		}
		if ends[0] != ends[1] {
			s.Inputs = append(s.Inputs, Input{name, ends[0], ends[1]})
		}
	}
	for _, input := range studyInputs {
		try(input.name, input.move)
	}
	for i, supply := range m.Study.Supplies {
		try("price of "+supply.Name, func(study *Study, f float64) { study.Supplies[i].Price *= f })
	}
	steps := inOrder(visits)
	for _, chore := range m.Study.Chores {
		if i := m.index[chore.Step]; !slices.Contains(steps, i) {
			steps = append(steps, i)
		}
	}
	for _, i := range steps {
		input := Input{Name: "time of " + m.Study.Steps[i].Name}
		for j, end := range []*float64{&input.Lower, &input.Higher} {
			factors := m.factors(nil)
			f := 1 - swing + 2*swing*float64(j)
			factors[i] = Load{f, f}
			*end = at(m.Study, factors, heads)
		}
		if input.Lower != input.Higher {
			s.Inputs = append(s.Inputs, input)
		}
	}
	slices.SortStableFunc(s.Inputs, func(a, b Input) int { return cmp.Compare(b.Reach(), a.Reach()) })
	return s, true, nil
}

// studyInputs are the inputs of a cost that a study has one of.
var studyInputs = []struct {
	name string
	move func(study *Study, f float64)
}{
	{"wage", func(s *Study, f float64) { s.Labour.Wage *= f }},
	{"on-costs", func(s *Study, f float64) { s.Labour.OnCost *= f }},
	{"allowance", func(s *Study, f float64) { s.Allowance *= f }},
	{"germination", func(s *Study, f float64) {
		s.Germination = crop.Germination{Share: min(1, s.Germination.Share*f)}
	}},
	{"losses", func(s *Study, f float64) {
		for i := range s.Workflows {
			for j := range s.Workflows[i].Losses {
				loss := &s.Workflows[i].Losses[j].Share
				*loss = min(0.99, *loss*f)
			}
		}
	}},
	{"price of space", func(s *Study, f float64) { s.SpacePrice = s.SpacePrice.Times(f) }},
}

// copied is the study with all that an input moves copied.
func (s Study) copied() Study {
	if s.Labour != nil {
		labour := *s.Labour
		s.Labour = &labour
	}
	s.Supplies = slices.Clone(s.Supplies)
	s.Workflows = slices.Clone(s.Workflows)
	for i := range s.Workflows {
		s.Workflows[i].Losses = slices.Clone(s.Workflows[i].Losses)
	}
	return s
}
