package answer

import (
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// rankCosts finds the cheapest workflow of each crop, and how much more the others cost:
// what is bought is taken as exact, and labour that both have cancels.
func (m *Models) rankCosts(c *Costs, workflows []study.Workflow, tool tools) {
	if m.Study.Labour == nil {
		return
	}
	c.PerHour = study.Known(m.Study.Labour.PerHour())
	gives := make([]Harvest, len(workflows))
	for i, w := range c.Workflows {
		gives[i] = w.Gives
	}
	for _, group := range crops(gives) {
		if len(group) > 1 {
			c.Ranks = append(c.Ranks, m.rank(c, group, workflows, tool))
		}
	}
}

// rank ranks the ways of one crop.
func (m *Models) rank(c *Costs, group []int, workflows []study.Workflow, tool tools) CostRank {
	gives := make([]Harvest, len(group))
	for i, w := range group {
		gives[i] = c.Workflows[w].Gives
	}
	by, ok := measureOf(gives)
	r := CostRank{Crop: gives[0].Crop, By: by, Unlike: !ok}
	if !ok {
		return r
	}
	costs := make([]workflowCost, len(group))
	best := 0
	for i, w := range group {
		costs[i] = m.workflowCostOf(c.Workflows[w], workflows[w], float64(c.Heads), by, tool)
		if costs[i].cost < costs[best].cost {
			best = i
		}
	}
	r.Cheapest = costs[best].name
	for i, w := range costs {
		if i != best {
			r.Dearer = append(r.Dearer, m.costMore(w, costs[best]))
		}
	}
	return r
}

// workflowCost is a way as it is ranked by cost: all of it for one of what ways are compared by.
type workflowCost struct {
	name       string
	cost       float64
	otherCosts float64 // of cost, what is taken as exact
	loads      linear
	visits     []visit
}

// workflowCostOf works out a way for one of a measure. By the head, chores and outlays are the same
// in all ways and left out.
func (m *Models) workflowCostOf(c GrowCost, w study.Workflow, heads float64, by Measure, tool tools) workflowCost {
	r := workflowCost{name: w.Name, visits: m.visits(w, heads)}
	loads := m.loads(r.visits)
	amount, otherCosts := heads, c.Supplies+c.Space
	if r.cost = c.PerHead.Value; !by.ByHead {
		amount, otherCosts = by.amount(c.Gives).Value, otherCosts+c.Outlay
		r.cost = c.Total.Value / amount
		for _, chore := range m.Study.Chores {
			loads.add(m.choreShare(chore))
		}
	}
	r.otherCosts = otherCosts / amount
	r.loads = make(linear, len(m.Steps)).plus(loads.times(tool.factors), 1/amount)
	return r
}

// costMore is how much more a way costs than the cheapest.
func (m *Models) costMore(w, cheapest workflowCost) CostMore {
	d := w.loads.minus(cheapest.loads)
	span := m.span(workload{loads: d}).times(m.perHour() * m.Study.Labour.PerHour())
	exact := w.otherCosts - cheapest.otherCosts
	return CostMore{
		Workflow: w.name, More: span.Value + exact, Low: span.Low.Plus(exact), High: span.High.Plus(exact),
		Gaps: m.gaps(append(slices.Clone(w.visits), cheapest.visits...), func(i int) bool { return d[i] != stepfit.Load{} }),
	}
}
