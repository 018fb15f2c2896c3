package answer

import (
	"errors"
	"slices"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// WhatIf is what-ifs to reckon with in a cost. The zero WhatIf has none.
type WhatIf struct {
	Changes      []string // by name
	HeadsPerYear float64  // over which their outlays are spread; needed where they have any
}

// ErrHeadsPerYear says that a change has an outlay and nobody says over how many
// heads to spread it.
var ErrHeadsPerYear = errors.New("a change has an outlay: over how many heads a year is it to be spread")

// Cost gives the cost of workflows for a number of heads, with what-ifs where
// there are any. The errors are those of Compare and ErrHeadsPerYear.
func (m *Models) Cost(names []string, heads int, what WhatIf) (Costs, error) {
	workflows, err := m.Study.Choose(names)
	if err != nil {
		return Costs{}, err
	}
	changes, err := m.Study.ChangesNamed(what.Changes)
	if err != nil {
		return Costs{}, err
	}
	costs := Costs{Heads: heads, Common: m.common(), Workflows: []GrowCost{}, Notes: m.notes(workflows...)}
	if len(changes) > 0 {
		costs.Notes = append(costs.Notes, "with "+study.Joined(what.Changes)+", taken as saving just what the study says")
	}
	tool := tools{factors: m.factors(changes)}
	for _, c := range changes {
		if c.Outlay.Known && what.HeadsPerYear == 0 {
			return Costs{}, ErrHeadsPerYear
		}
		if c.Outlay.Known {
			tool.perHead = append(tool.perHead, CostLine{Name: c.Name, Kind: OutlayLine, Amount: study.Known(c.Outlay.Value / what.HeadsPerYear)})
		}
	}
	if m.Study.Currency != "" {
		costs.Currency = &m.Study.Currency
	}
	for _, w := range workflows {
		costs.Workflows = append(costs.Workflows, m.cost(w, heads, tool))
	}
	var spaceless []string
	for _, c := range costs.Workflows {
		if c.NoSpace {
			spaceless = append(spaceless, c.Workflow)
		}
	}
	costs.Notes = append(costs.Notes, m.seasonNotes(workflows)...)
	if spaceless != nil {
		costs.Notes = append(costs.Notes, "space not counted, since these ways have no space in the study (space = [] says that one takes none): "+shortList(spaceless))
	}
	m.rankCosts(&costs, workflows, tool)
	return costs, nil
}

func (m *Models) cost(w study.Workflow, heads int, tool tools) GrowCost {
	visits := m.visits(w, float64(heads))
	tasks, chores := m.loads(visits).times(tool.factors), make(linear, len(m.Steps))
	for _, c := range m.Study.Chores {
		chores.add(m.choreShare(c))
	}
	chores = chores.times(tool.factors)
	ofTasks, ofChores := m.span(workload{loads: tasks}), m.span(workload{loads: chores})
	together := m.span(workload{loads: tasks.plus(chores, 1)}).aTime().times(m.perHour())

	c := GrowCost{
		Workflow: w.Name,
		Hours:    ofTasks.Value * m.perHour(), Chores: ofChores.Value * m.perHour(),
		Gaps:    m.costGaps(visits),
		NoSpace: m.Study.SpacePrice.Known && w.Space == nil,
	}
	c.Unshared = m.unshared(c.Gaps)
	c.Lines = m.labourLines(visits, tasks, tool.factors)
	for _, line := range tool.perHead {
		line.Amount = line.Amount.Times(float64(heads))
		c.Outlay += line.Amount.Value
		c.Lines = append(c.Lines, line)
	}
	for _, line := range m.otherLines(w, float64(heads)) {
		c.Lines = append(c.Lines, line)
		if line.Kind == SpaceLine {
			c.Space += line.Amount.Value
		} else {
			c.Supplies += line.Amount.Value
		}
	}
	for i := range c.Lines {
		c.Lines[i].PerHead = c.Lines[i].Amount.Times(1 / float64(heads))
	}
	c.gives(m.Study, w, float64(heads))
	c.sum(m.Study, w, together, float64(heads))
	return c
}

// sum adds labour to what is bought, per grow and per head.
func (c *GrowCost) sum(s study.Study, w study.Workflow, hours Span, heads float64) {
	sold := s.SaleOf(w).Sold(c.Units)
	otherCosts := c.Supplies + c.Space + c.Outlay
	if s.Labour != nil {
		perHour := s.Labour.PerHour()
		c.Labour = study.Known(hours.Value * perHour)
		c.Total = c.Labour.Plus(otherCosts)
		c.PerHead, c.LabourPerHead = c.Total.Times(1/heads), c.Labour.Times(1/heads)
		c.PerHeadLow = hours.Low.Times(perHour).Plus(otherCosts).Times(1 / heads)
		c.PerHeadHigh = hours.High.Times(perHour).Plus(otherCosts).Times(1 / heads)
	}
	low, high := c.PerHeadLow.Times(heads), c.PerHeadHigh.Times(heads)
	c.PerUnit, c.PerUnitLow, c.PerUnitHigh = c.Total.Over(sold), low.Over(sold), high.Over(sold)
	if plain := s.Sale == nil && w.Sale == nil; plain { // a head is the unit, and to the last digit
		c.PerUnit, c.PerUnitLow, c.PerUnitHigh = c.PerHead, c.PerHeadLow, c.PerHeadHigh
	}
	c.PerKg = c.Total.Over(c.Kg)
	c.MinutesAUnit = study.Known(c.Hours * 60).Over(sold)
	if c.SoldPerHead = s.SaleOf(w).Revenue(sold).Times(1 / heads); c.SoldPerHead.Known {
		left := func(cost study.Maybe) study.Maybe { return cost.Times(-1).Plus(c.SoldPerHead.Value) }
		c.LeftPerHead, c.LeftPerHeadLow, c.LeftPerHeadHigh = left(c.PerHead), left(c.PerHeadHigh), left(c.PerHeadLow)
	}
	if hours.Value > 0 {
		c.ReturnPerHour = s.SaleOf(w).Revenue(sold).Plus(-otherCosts).Times(1 / hours.Value)
	}
}

// costGaps are the gaps of the tasks, then of the chores: those never timed and,
// where grows are not sown regularly, all, since no share of them can be told.
func (m *Models) costGaps(visits []visit) []string {
	gaps := m.gaps(visits, func(int) bool { return true })
	for _, c := range m.Study.Chores {
		lacking := m.Study.SowEveryDays == 0 || m.Steps[m.Index[c.Step]].isGap()
		if lacking && !slices.Contains(gaps, c.Step) {
			gaps = append(gaps, c.Step)
		}
	}
	return gaps
}

// unshared are the gaps of a cost that are known: chores of which no share can be told.
func (m *Models) unshared(gaps []string) []string {
	return slices.DeleteFunc(slices.Clone(gaps), func(name string) bool { return m.Steps[m.Index[name]].isGap() })
}

func (m *Models) labourLines(visits []visit, tasks, factors linear) []CostLine {
	lines := []CostLine{}
	for _, i := range inOrder(visits) {
		lines = append(lines, m.labourLine(LabourLine, i, tasks[i]))
	}
	for _, c := range m.Study.Chores {
		i, share := m.choreShare(c)
		line := m.labourLine(ChoreLine, i, stepfit.Load{Setups: share.Setups * factors[i].Setups, Count: share.Count * factors[i].Count})
		if m.Study.SowEveryDays == 0 {
			line.Amount = study.Maybe{}
		}
		lines = append(lines, line)
	}
	return lines
}

func (m *Models) labourLine(kind LineKind, i int, load stepfit.Load) CostLine {
	line := CostLine{Name: m.Study.Steps[i].Name, Kind: kind}
	if !m.Steps[i].isGap() && m.Study.Labour != nil {
		hours := m.takes(i, load) * m.perHour()
		line.Amount = study.Known(hours * m.Study.Labour.PerHour())
	}
	return line
}

// beforeLosses is a day on which no plant is lost yet.
const beforeLosses = -1

// otherLines are the supplies of a workflow, and its space where that has a
// price.
func (m *Models) otherLines(w study.Workflow, heads float64) []CostLine {
	counts := m.Study.Propagation(w).Counts()
	var lines []CostLine
	for _, s := range m.Study.Supplies {
		if s.Workflows != nil && !slices.Contains(s.Workflows, w.Name) {
			continue
		}
		day := beforeLosses
		if s.Day != nil {
			day = *s.Day
		}
		amount := s.Price * counts.Count(s.Count, day, heads) * s.Each / s.Uses
		lines = append(lines, CostLine{Name: s.Name, Kind: SupplyLine, Amount: study.Known(amount)})
	}
	if m.Study.SpacePrice.Known {
		amount := squareMetreDays(w, counts, heads) * m.Study.SpacePrice.Value
		lines = append(lines, CostLine{Name: "space", Kind: SpaceLine, Amount: study.Known(amount)})
	}
	return lines
}

// squareMetreDays is the space a grow takes up. A count is that of the first
// day of its stretch: a lost plant's place stays taken.
func squareMetreDays(w study.Workflow, counts crop.Counts, heads float64) float64 {
	var sum float64
	for _, s := range w.Space {
		sum += float64(s.To-s.From) * s.M2 * counts.Count(s.Count, s.From, heads)
	}
	return sum
}
