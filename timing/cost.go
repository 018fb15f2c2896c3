package timing

import (
	"slices"

	"headhours/timing/crop"
)

// Costs is what a grow and a head of each workflow cost.
type Costs struct {
	Heads     int        `json:"heads"`
	Currency  *string    `json:"currency"` // nil where the study names none
	Workflows []GrowCost `json:"workflows"`
	Notes     []string   `json:"notes"`
}

// GrowCost is what one grow of a workflow costs, in the study's currency. Labour
// and what rests on it is unknown without a wage. The interval is that of
// labour alone: prices and counts are taken as exact.
type GrowCost struct {
	Workflow      string     `json:"workflow"`
	Hours         float64    `json:"hours_h"`
	Chores        float64    `json:"chores_h"`
	Labour        Maybe      `json:"labour"`
	Supplies      float64    `json:"supplies"`
	Space         float64    `json:"space"`
	Total         Maybe      `json:"total"`
	PerHead       Maybe      `json:"per_head"`
	PerHeadLow    Maybe      `json:"per_head_low"`
	PerHeadHigh   Maybe      `json:"per_head_high"`
	LabourPerHead Maybe      `json:"labour_per_head"`
	ReturnPerHour Maybe      `json:"return_per_hour"`
	Gaps          []string   `json:"gaps"`
	Lines         []CostLine `json:"lines"`
}

// LineKind says what a line of a cost is for.
type LineKind string

// The kinds of cost lines.
const (
	LabourLine LineKind = "labour"
	ChoreLine  LineKind = "chore"
	SupplyLine LineKind = "supply"
	SpaceLine  LineKind = "space"
)

// CostLine is one line of a grow's cost, unknown where it cannot be told.
type CostLine struct {
	Name    string   `json:"name"`
	Kind    LineKind `json:"kind"`
	Amount  Maybe    `json:"amount"`
	PerHead Maybe    `json:"per_head"`
}

// Cost gives the cost of workflows for a number of heads. The errors are those
// of Compare.
func (m *Models) Cost(names []string, heads int) (Costs, error) {
	workflows, err := m.Study.choose(names)
	if err != nil {
		return Costs{}, err
	}
	costs := Costs{Heads: heads, Workflows: []GrowCost{}, Notes: m.notes()}
	if m.Study.Currency != "" {
		costs.Currency = &m.Study.Currency
	}
	for _, w := range workflows {
		costs.Workflows = append(costs.Workflows, m.cost(w, heads))
	}
	return costs, nil
}

func (m *Models) cost(w Workflow, heads int) GrowCost {
	visits := m.visits(w, float64(heads))
	tasks, chores := m.loads(visits), make(linear, len(m.Steps))
	for _, c := range m.Study.Chores {
		i, load := m.choreShare(c)
		chores.add(i, load)
	}
	ofTasks, ofChores := m.span(work{loads: tasks}), m.span(work{loads: chores})
	together := m.span(work{loads: tasks.plus(chores, 1)}).times(m.perHour())

	c := GrowCost{
		Workflow: w.Name,
		Hours:    ofTasks.Value * m.perHour(), Chores: ofChores.Value * m.perHour(),
		Gaps: m.costGaps(visits),
	}
	c.Lines = m.labourLines(visits, tasks)
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
	c.sum(m.Study, together, float64(heads))
	return c
}

// sum adds labour to what is bought, per grow and per head.
func (c *GrowCost) sum(s Study, hours Span, heads float64) {
	bought := c.Supplies + c.Space
	if s.Labour != nil {
		perHour := s.Labour.PerHour()
		c.Labour = Known(hours.Value * perHour)
		c.Total = c.Labour.Plus(bought)
		c.PerHead, c.LabourPerHead = c.Total.Times(1/heads), c.Labour.Times(1/heads)
		c.PerHeadLow = hours.Low.Times(perHour).Plus(bought).Times(1 / heads)
		c.PerHeadHigh = hours.High.Times(perHour).Plus(bought).Times(1 / heads)
	}
	c.ReturnPerHour = s.PricePerHead.Times(heads).Plus(-bought).Times(1 / hours.Value)
}

// choreShare is what one grow bears of a chore: as many doings as fall between
// two sowings; none where grows are not sown regularly.
func (m *Models) choreShare(c Chore) (step int, share Load) {
	i := m.index[c.Step]
	doings := float64(m.Study.SowEveryDays) / float64(c.EveryDays)
	return i, Load{doings * m.Study.Steps[i].setupsFor(c.Count), doings * c.Count}
}

// costGaps are the gaps of the tasks, then of the chores: those never timed and,
// where grows are not sown regularly, all, since no share of them can be told.
func (m *Models) costGaps(visits []Visit) []string {
	gaps := m.gaps(visits, func(int) bool { return true })
	for _, c := range m.Study.Chores {
		lacking := m.Study.SowEveryDays == 0 || m.Steps[m.index[c.Step]].Gap()
		if lacking && !slices.Contains(gaps, c.Step) {
			gaps = append(gaps, c.Step)
		}
	}
	return gaps
}

func (m *Models) labourLines(visits []Visit, tasks linear) []CostLine {
	lines := []CostLine{}
	for _, i := range inOrder(visits) {
		lines = append(lines, m.labourLine(LabourLine, i, tasks[i]))
	}
	for _, c := range m.Study.Chores {
		i, share := m.choreShare(c)
		line := m.labourLine(ChoreLine, i, share)
		if m.Study.SowEveryDays == 0 {
			line.Amount = Maybe{}
		}
		lines = append(lines, line)
	}
	return lines
}

func (m *Models) labourLine(kind LineKind, i int, load Load) CostLine {
	line := CostLine{Name: m.Study.Steps[i].Name, Kind: kind}
	if model := m.Steps[i].Model; model != nil && m.Study.Labour != nil {
		hours := model.At(load.Setups, load.Count) * m.perHour()
		line.Amount = Known(hours * m.Study.Labour.PerHour())
	}
	return line
}

// beforeLosses is a day on which no plant is lost yet.
const beforeLosses = -1

// otherLines are the supplies of a workflow, and its space where that has a
// price.
func (m *Models) otherLines(w Workflow, heads float64) []CostLine {
	sowing := m.Study.sowing(w)
	var lines []CostLine
	for _, s := range m.Study.Supplies {
		if s.Workflows != nil && !slices.Contains(s.Workflows, w.Name) {
			continue
		}
		day := beforeLosses
		if s.Day != nil {
			day = *s.Day
		}
		amount := s.Price * sowing.Count(s.Count, day, heads) * s.Each / s.Uses
		lines = append(lines, CostLine{Name: s.Name, Kind: SupplyLine, Amount: Known(amount)})
	}
	if m.Study.SpacePrice.Known {
		amount := squareMetreDays(w, sowing, heads) * m.Study.SpacePrice.Value
		lines = append(lines, CostLine{Name: "space", Kind: SpaceLine, Amount: Known(amount)})
	}
	return lines
}

// squareMetreDays is the space a grow takes up. A count is that of the first
// day of its stretch: a lost plant's place stays taken.
func squareMetreDays(w Workflow, sowing crop.Sowing, heads float64) float64 {
	var sum float64
	for _, s := range w.Space {
		sum += float64(s.To-s.From) * s.M2 * sowing.Count(s.Count, s.From, heads)
	}
	return sum
}
