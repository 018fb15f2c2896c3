package answer

import (
	"cmp"
	"slices"

	"headhours/timing/crop"
	"headhours/timing/study"
	"headhours/timing/words"
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
	Unshared []string `json:"-"` // gaps that are known: chores of which no share can be told
}

// Input is one input of a cost, and the cost of a head with it a fifth lower
// and a fifth higher (a share stops at 1).
type Input struct {
	Name   string  `json:"input"`
	Lower  float64 `json:"per_head_lower"`
	Higher float64 `json:"per_head_higher"`
}

// reach is how far an input moves the cost of a head, between its two ends.
func (i Input) reach() float64 { return abs(i.Higher - i.Lower) }

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
	cost := m.cost(w, heads, m.noTools())
	s = Sensitivity{Workflow: w.Name, Heads: heads, PerHead: cost.PerHead.Value, Inputs: []Input{}, Gaps: cost.Gaps, Notes: m.notes(w), Unshared: m.unshared(cost.Gaps)}
	if m.Study.Currency != "" {
		s.Currency = &m.Study.Currency
	}
	add := func(name string, at func(f float64) float64) {
		if input := (Input{name, at(1 - swing), at(1 + swing)}); input.Lower != input.Higher {
			s.Inputs = append(s.Inputs, input)
		}
	}
	for _, input := range studyInputs {
		add(input.name, func(f float64) float64 {
			study := copied(m.Study)
			input.move(&study, f)
			moved := m.with(study)
			way, _ := study.OneWorkflow(w.Name)
			return moved.cost(way, heads, m.noTools()).PerHead.Value
		})
	}
	// a price, or the time of a step, moves the cost by as much as its own part of it
	var names []string
	parts := map[string]float64{}
	for _, kinds := range [][]LineKind{{SupplyLine}, {LabourLine, ChoreLine}} {
		for _, line := range cost.Lines {
			if !slices.Contains(kinds, line.Kind) {
				continue
			}
			name := "time of " + line.Name
			if line.Kind == SupplyLine {
				name = "price of " + line.Name
			}
			if _, ok := parts[name]; !ok {
				names = append(names, name)
			}
			parts[name] += line.PerHead.Value
		}
	}
	for _, name := range names {
		add(name, func(f float64) float64 { return s.PerHead + (f-1)*parts[name] })
	}
	s.Notes = append(s.Notes, m.stops(w)...)
	slices.SortStableFunc(s.Inputs, func(a, b Input) int { return cmp.Compare(b.reach(), a.reach()) })
	return s, true, nil
}

// mostLost is the most of the plants that a loss is moved to: with all of them lost no head
// is left to cost anything.
const mostLost = 0.99

// stops says which inputs a fifth more would take beyond what there can be, and where they
// stop.
func (m *Models) stops(w study.Workflow) (notes []string) {
	if !w.Bought && m.Study.GerminationOf(w).Share*(1+swing) > 1 {
		notes = append(notes, "germination stops at 1, which is less than a fifth more")
	}
	if slices.ContainsFunc(w.Losses, func(l crop.Loss) bool { return l.Share*(1+swing) > mostLost }) {
		notes = append(notes, "a loss stops at "+words.Digits(mostLost, 3)+", which is less than a fifth more")
	}
	return notes
}

// studyInputs are the inputs of a cost that a study has one of.
var studyInputs = []struct {
	name string
	move func(st *study.Study, f float64)
}{
	{"wage", func(s *study.Study, f float64) { s.Labour.Wage *= f }},
	{"on-costs", func(s *study.Study, f float64) { s.Labour.OnCost *= f }},
	{"allowance", func(s *study.Study, f float64) { s.Allowance *= f }},
	{"germination", func(s *study.Study, f float64) {
		s.Germination = crop.Germination{Share: min(1, s.Germination.Share*f)}
		s.Workflows = slices.Clone(s.Workflows)
		for i, w := range s.Workflows {
			if w.Germination != nil {
				s.Workflows[i].Germination = &crop.Germination{Share: min(1, w.Germination.Share*f)}
			}
		}
	}},
	{"losses", func(s *study.Study, f float64) {
		for i := range s.Workflows {
			for j := range s.Workflows[i].Losses {
				loss := &s.Workflows[i].Losses[j].Share
				*loss = min(mostLost, *loss*f)
			}
		}
	}},
	{"price of space", func(s *study.Study, f float64) { s.SpacePrice = s.SpacePrice.Times(f) }},
}

// copied is the study with all that an input moves copied.
func copied(s study.Study) study.Study {
	if s.Labour != nil {
		labour := *s.Labour
		s.Labour = &labour
	}
	s.Workflows = slices.Clone(s.Workflows)
	for i := range s.Workflows {
		s.Workflows[i].Losses = slices.Clone(s.Workflows[i].Losses)
	}
	return s
}
