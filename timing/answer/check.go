package answer

import (
	"fmt"
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/crop"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Check is what was read, everything that is wrong with it or worth a look, and
// the grows beside what their workflows say, the wall clock beside what has a name.
type Check struct {
	Files    []CheckedFile    `json:"files"`
	Problems study.Problems   `json:"problems"`
	Warnings study.Problems   `json:"warnings"`
	Grows    []GrowCheck      `json:"grows"`
	Clock    []Reconciliation `json:"clock"`
	Notes    []string         `json:"notes"`
}

// CheckedFile is a file that was read, how many readings it holds, voided ones too, and how
// many of them are void.
type CheckedFile struct {
	Name     string `json:"file"`
	Readings int    `json:"readings"`
	Voided   int    `json:"voided"`
}

// AllVoid says of each step with readings of which none counts that all of them are void. It
// says nothing where a filter leaves some out.
func (m *Models) AllVoid() []string {
	if m.Filter != (condense.Filter{}) {
		return nil
	}
	var cautions []string
	for i := range m.Study.Steps {
		s := &m.Steps[i]
		switch name := words.Show(s.Step.Name); {
		case s.Readings > 0 || s.Voided == 0:
		case s.Voided == 1:
			cautions = append(cautions, "the only reading of "+name+" is void, so it does not count")
		default:
			cautions = append(cautions, fmt.Sprintf("all %d readings of %s are void, so none of them counts", s.Voided, name))
		}
	}
	return cautions
}

// GrowCheck is what a grow's readings and figures say beside what its workflow
// says.
type GrowCheck struct {
	Grow     string   `json:"grow"`
	Workflow string   `json:"workflow"`
	Readings int      `json:"readings"`
	Remarks  []string `json:"remarks"`
}

// CheckGrows holds each grow of the study against its workflow: how often each
// step was timed, what came up and what was lost. It remarks on what differs.
func (m *Models) CheckGrows() []GrowCheck {
	checks := []GrowCheck{}
	for _, g := range m.Study.Grows {
		w, err := m.Study.OneWorkflow(g.Workflow)
		if err != nil {
			continue // the reader refuses such a study
		}
		check := GrowCheck{Grow: g.Name, Workflow: g.Workflow, Remarks: []string{}}
		inGrow := m.Grow(g.Name)
		if check.Readings = inGrow.Readings; check.Readings > 0 {
			check.Remarks = append(check.Remarks, m.visitRemarks(g, w, inGrow.Visits)...)
		} else {
			check.Remarks = append(check.Remarks, "no reading is of it")
		}
		if inGrow.Elsewhere > 0 {
			check.Remarks = append(check.Remarks, fmt.Sprintf("%d of its readings were logged under another way", inGrow.Elsewhere))
		}
		check.Remarks = append(check.Remarks, cropRemarks(g, m.Study.Propagation(w))...)
		check.Remarks = append(check.Remarks, weightRemarks(m.Study, g, w)...)
		checks = append(checks, check)
	}
	return checks
}

func (m *Models) visitRemarks(g study.Grow, w study.Workflow, begun map[int]int) []string {
	planned := map[int]int{}
	for _, v := range m.visits(w, m.growHeads(g, w)) {
		planned[v.step]++
	}
	var remarks []string
	for i, s := range m.Study.Steps {
		switch t, p := begun[i], planned[i]; {
		case t > 0 && p == 0 && slices.ContainsFunc(w.Tasks, func(t study.Task) bool { return t.Step == s.Name }):
			remarks = append(remarks, s.Name+" was timed, but this way has nothing to do of it")
		case t > 0 && p == 0:
			remarks = append(remarks, s.Name+" was timed but is in no task")
		case t == 0 && p > 0:
			remarks = append(remarks, s.Name+" was not timed")
		case t < p && s.Together: // a joint round is timed once for several grows
			remarks = append(remarks, fmt.Sprintf("%s timed %s, the workflow says %d; a joint round may stand under another grow", s.Name, words.Times(t), p))
		case t != p && !s.Together:
			remarks = append(remarks, fmt.Sprintf("%s timed %s, the workflow says %d", s.Name, words.Times(t), p))
		}
	}
	return remarks
}

// growHeads is how many heads a grow was for, as far as it is known.
func (m *Models) growHeads(g study.Grow, w study.Workflow) float64 {
	switch {
	case g.Heads.Known && g.Heads.Value > 0:
		return g.Heads.Value
	case g.Cells.Known && g.Cells.Value > 0:
		return g.Cells.Value / m.Study.Propagation(w).CellsPerHead()
	}
	return max(1, float64(m.Study.Heads))
}

func cropRemarks(g study.Grow, s crop.Propagation) []string {
	var remarks []string
	if odd(g.CameUp, g.Cells, s.FilledShare()) {
		share := "of the cells came up"
		if s.Bought {
			share = "of the young plants were alive once set"
		}
		remarks = append(remarks, fmt.Sprintf("%s %s, the study says %s",
			words.Percent(g.CameUp.Value/g.Cells.Value, 2), share, words.Percent(s.FilledShare(), 2)))
	}
	left := s.SurvivingShare(math.MaxInt)
	if !g.CameUp.Known && odd(g.Heads, g.Cells, s.FilledShare()*left) {
		of := "cells"
		if s.Bought {
			of = "young plants"
		}
		remarks = append(remarks, fmt.Sprintf("%s of the %s gave a head, the study says %s",
			words.Percent(g.Heads.Value/g.Cells.Value, 2), of, words.Percent(s.FilledShare()*left, 2)))
	}
	if odd(g.Heads, g.CameUp, left) {
		remarks = append(remarks, fmt.Sprintf("%s lost, the study says %s",
			words.Percent(1-g.Heads.Value/g.CameUp.Value, 2), words.Percent(1-left, 2)))
	}
	return remarks
}

// weightOff is by how large a share a grow's weight may differ from what the study says
// before it is worth a remark (an assumption of ours).
const weightOff = 0.1

// weightRemarks hold what a grow weighed against the cuts or the weight of a head that
// the study gives.
func weightRemarks(s study.Study, g study.Grow, w study.Workflow) []string {
	h := harvest(s, w, g.Heads.Value)
	weighed := len(w.Cuts) > 0 || w.HeadWeight.Known
	if !weighed || !g.Heads.Known || !g.Weight.Known || abs(g.Weight.Value-h.Kg.Value) <= weightOff*h.Kg.Value {
		return nil
	}
	return []string{fmt.Sprintf("it gave %s kg, the study says %s for as many heads", words.Digits(g.Weight.Value, 3), words.Digits(h.Kg.Value, 3))}
}

// odd says that a part of a whole is further from its expected share than two
// standard deviations of a binomial count, and than two in a hundred.
func odd(part, whole study.Maybe, share float64) bool {
	if !part.Known || !whole.Known || whole.Value == 0 {
		return false
	}
	off := abs(part.Value/whole.Value - share)
	return off > 0.02 && off > 2*math.Sqrt(share*(1-share)/whole.Value)
}
