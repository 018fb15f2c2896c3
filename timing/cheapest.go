package timing

// CostRank is which way of a crop is cheapest by what they are fairly compared by, and
// how much more each other's cost.
type CostRank struct {
	Crop     string // "" of ways without one
	By       Measure
	Unlike   bool // the ways have no common measure, so none is cheapest
	Cheapest string
	Dearer   []CostMore
}

// CostMore is how much more a workflow costs than the cheapest for what they are compared
// by, with the interval of the labour in which they differ. Gaps are steps never timed
// that do not cancel.
type CostMore struct {
	Workflow  string
	More      float64
	Low, High Maybe
	Gaps      []string
}

// rankCosts finds the cheapest workflow of each crop, and how much more the others cost:
// what is bought is taken as exact, and labour that both have cancels.
func (m *Models) rankCosts(c *Costs, workflows []Workflow, tool tools) {
	if m.Study.Labour == nil {
		return
	}
	c.PerHour = Known(m.Study.Labour.PerHour())
	gives := make([]Harvest, len(workflows))
	for i, w := range c.Workflows {
		gives[i] = w.Gives
	}
	groups := crops(gives)
	for _, group := range groups {
		if len(group) > 1 {
			c.Ranks = append(c.Ranks, m.rank(c, group, workflows, tool))
		}
	}
}

// rank ranks the ways of one crop. By the head, chores are the same in all and left out.
func (m *Models) rank(c *Costs, group []int, workflows []Workflow, tool tools) CostRank {
	gives := make([]Harvest, len(group))
	for i, w := range group {
		gives[i] = c.Workflows[w].Gives
	}
	by, ok := measureOf(gives)
	r := CostRank{Crop: gives[0].Crop, By: by, Unlike: !ok}
	if !ok {
		return r
	}
	amount := func(i int) float64 {
		if by.ByHead {
			return float64(c.Heads)
		}
		return by.amount(c.Workflows[i].Gives).Value
	}
	cost := func(i int) float64 { return c.Workflows[i].Total.Value / amount(i) }
	if by.ByHead {
		cost = func(i int) float64 { return c.Workflows[i].PerHead.Value }
	}
	best := group[0]
	for _, i := range group {
		if cost(i) < cost(best) {
			best = i
		}
	}
	r.Cheapest = c.Workflows[best].Workflow
	chores := make(linear, len(m.Steps))
	if !by.ByHead {
		for _, chore := range m.Study.Chores {
			chores.add(m.choreShare(chore))
		}
	}
	loads := func(visits []Visit, i int) linear {
		return make(linear, len(m.Steps)).plus(m.loads(visits).plus(chores, 1).times(tool.factors), 1/amount(i))
	}
	bought := func(i int) float64 {
		w := c.Workflows[i]
		if by.ByHead { // outlays are spread over heads
			return (w.Supplies + w.Space) / amount(i)
		}
		return (w.Supplies + w.Space + w.Outlay) / amount(i)
	}
	perHour := m.Study.Labour.PerHour()
	cheapest := m.visits(workflows[best], float64(c.Heads))
	for _, i := range group {
		if i == best {
			continue
		}
		visits := m.visits(workflows[i], float64(c.Heads))
		d := loads(visits, i).minus(loads(cheapest, best))
		more := m.span(work{loads: d}).times(m.perHour() * perHour)
		exact := bought(i) - bought(best)
		r.Dearer = append(r.Dearer, CostMore{
			Workflow: workflows[i].Name, More: more.Value + exact, Low: more.Low.Plus(exact), High: more.High.Plus(exact),
			Gaps: m.gaps(append(visits, cheapest...), func(i int) bool { return d[i] != Load{} }),
		})
	}
	return r
}
