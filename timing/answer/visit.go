package answer

import "headhours/timing/stepfit"

// visit is one doing of a task on one day, for one grow.
type visit struct {
	step     int // in the study's order
	day      int
	count    float64      // of this grow
	whole    stepfit.Load // of the whole doing, all grows that share it together
	sharedBy float64      // grows that share it; of a joint doing, the doing's count over this one
	joint    bool         // with all that falls on one day
}

// load is what this grow bears of the doing.
func (v visit) load() stepfit.Load {
	return stepfit.Load{Setups: v.whole.Setups / v.sharedBy, Count: v.count}
}

// countPerSetup is how much one setup of the doing serves.
func (v visit) countPerSetup() float64 { return v.whole.Count / v.whole.Setups }

// inOrder lists the steps of visits, each once, in order of first use.
func inOrder(visits []visit) []int {
	var steps []int
	seen := map[int]bool{}
	for _, v := range visits {
		if !seen[v.step] {
			seen[v.step] = true
			steps = append(steps, v.step)
		}
	}
	return steps
}
