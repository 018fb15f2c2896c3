package answer

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// maxSeeds is the most seeds a cell that are looked at.
const maxSeeds = 6

// Seeding is what so many seeds a cell would take and cost.
type Seeding struct {
	Workflow    string           `json:"workflow"`
	Heads       int              `json:"heads"`
	Germination float64          `json:"germination"`
	Assurance   float64          `json:"assurance"`
	Choices     []SeedingChoice  `json:"choices"`
	Gaps        []string         `json:"gaps"`
	Notes       []string         `json:"notes"`
	Tested      crop.Germination `json:"-"`
	Currency    string           `json:"-"`
	Bought      bool             `json:"-"`                // young plants are bought, nothing is sown
	ByCost      bool             `json:"-"`                // the best is the cheapest, not the quickest
	Rivals      []int            `json:"-"`                // seeds a cell that are not clearly worse than the best
	TurnedBy    []string         `json:"-"`                // gaps of which others call for less than the best, which may be better then
	Unshared    []string         `json:"-"`                // gaps that are known: chores of which no share can be told
	Resown      *SeedingChoice   `json:"resown,omitempty"` // one seed a cell, empty cells sown once more
	ResowStep   string           `json:"-"`
	NoThinning  bool             `json:"-"` // no task counts the surplus, so that no choice has the time of thinning
}

// SeedingChoice is one number of seeds a cell. Cost is unknown without a wage;
// intervals are those of the labour.
type SeedingChoice struct {
	SeedsPerCell   int         `json:"seeds_per_cell"`
	EmptyShare     float64     `json:"empty_share"`
	SurplusPerCell float64     `json:"surplus_per_cell"`
	CellsExpected  float64     `json:"cells_expected"`
	CellsAssured   *int        `json:"cells_assured"` // nil where no number of cells is enough
	MinutesPerHead float64     `json:"minutes_per_head"`
	CostPerHead    study.Maybe `json:"cost_per_head"`
	Best           bool        `json:"best"`
	MinutesLow     study.Maybe `json:"-"`
	MinutesHigh    study.Maybe `json:"-"`
	CostLow        study.Maybe `json:"-"`
	CostHigh       study.Maybe `json:"-"`
}

// worth is what the best choice is the lowest of.
func (c SeedingChoice) worth() float64 {
	if c.CostPerHead.Known {
		return c.CostPerHead.Value
	}
	return c.MinutesPerHead
}

// Seeding works out 1 to maxSeeds seeds a cell for one workflow: the one named,
// or the study's first where name is "". The errors are those of Compare.
func (m *Models) Seeding(name string, heads int, assurance float64) (Seeding, error) {
	w, err := m.Study.Workflow(name)
	if err != nil {
		return Seeding{}, err
	}
	s := Seeding{
		Workflow: w.Name, Heads: heads, Germination: m.Study.GerminationOf(w).Share, Assurance: assurance,
		Choices: []SeedingChoice{}, Gaps: []string{}, Notes: m.notes(w),
		Tested: m.Study.GerminationOf(w), Bought: w.Bought, Currency: m.Study.Currency, ByCost: m.Study.Labour != nil,
	}
	best := 0
	var unassured []string // numbers of seeds
	maxTried := maxSeeds
	if w.Bought {
		maxTried = 1
	}
	for k := 1; k <= maxTried; k++ {
		w.SeedsPerCell = k
		c := m.seedingChoice(w, heads)
		if cells, ok := m.Study.Propagation(w).Assured(heads, assurance, m.Study.GerminationOf(w)); ok {
			c.CellsAssured = &cells
		} else {
			unassured = append(unassured, strconv.Itoa(k))
		}
		s.Gaps = united(s.Gaps, m.cost(w, heads, m.noTools()).Gaps)
		s.Choices = append(s.Choices, c)
		if lowest := s.Choices[best].worth(); c.worth() < lowest-1e-9*abs(lowest) {
			best = k - 1
		}
	}
	s.Choices[best].Best, s.Unshared = true, m.unshared(s.Gaps)
	if unassured != nil {
		s.Notes = append(s.Notes, fmt.Sprintf("no number of cells up to %d, the most that are looked at, gives that many heads with such assurance at these seeds a cell: %s",
			crop.MaxCells, strings.Join(unassured, ", ")))
	}
	if w.Bought {
		s.Notes = append(s.Notes, m.unpriced([]study.Workflow{w})...)
		return s, nil
	}
	s.Rivals = m.rivals(w, heads, best+1, s.Choices)
	s.TurnedBy = m.turnedBy(w, heads, best+1, s.Choices)
	s.resow(m, w, heads)
	if s.NoThinning = !countsOf(w, crop.Surplus); s.NoThinning {
		s.Notes = append(s.Notes, "no task of this way thins: with two seeds a cell and more thinning is not counted, so the least cost may not hold; "+
			`give it a task with count = "surplus", or a step of thinning to time`)
	}
	if !countsOf(w, crop.Seeds) {
		s.Notes = append(s.Notes, "no task of this way counts seeds, so three seeds seem as quick to sow as one; "+
			`give the sowing step's task count = "seeds" and time it by the seed`)
	}
	return s, nil
}

func united(a, b []string) []string {
	for _, name := range b {
		if !slices.Contains(a, name) {
			a = append(a, name)
		}
	}
	return a
}

// countsOf says whether a task of a way of working counts by a word.
func countsOf(w study.Workflow, word crop.Word) bool {
	return slices.ContainsFunc(w.Tasks, func(t study.Task) bool { return t.Count == word })
}

func (m *Models) seedingChoice(w study.Workflow, heads int) SeedingChoice {
	sowing := m.Study.Propagation(w)
	hours, cost := m.hours(w, heads), m.cost(w, heads, m.noTools())
	perHead := 60 / float64(heads)
	return SeedingChoice{
		SeedsPerCell: w.SeedsPerCell,
		EmptyShare:   sowing.EmptyShare(), SurplusPerCell: sowing.SurplusPerCell(),
		CellsExpected:  float64(heads) * sowing.CellsPerHead(),
		MinutesPerHead: hours.MinutesPerHead,
		MinutesLow:     hours.Low.Times(perHead), MinutesHigh: hours.High.Times(perHead),
		CostPerHead: cost.PerHead, CostLow: cost.PerHeadLow, CostHigh: cost.PerHeadHigh,
	}
}

// rivals are the numbers of seeds a cell that are not clearly worse than the
// best: the interval of the difference reaches zero, or is not known.
func (m *Models) rivals(w study.Workflow, heads, best int, choices []SeedingChoice) []int {
	var rivals []int
	with := func(k int) linear { w.SeedsPerCell = k; return m.loads(m.visits(w, float64(heads))) }
	bought := func(k int) float64 {
		w.SeedsPerCell = k
		c := m.cost(w, heads, m.noTools())
		return c.Supplies + c.Space
	}
	for _, c := range choices {
		if c.SeedsPerCell == best {
			continue
		}
		more := m.span(workload{loads: with(c.SeedsPerCell).minus(with(best))}).times(m.perHour())
		low := more.Low
		if m.Study.Labour != nil {
			low = low.Times(m.Study.Labour.PerHour()).Plus(bought(c.SeedsPerCell) - bought(best))
		}
		if !low.Known || low.Value <= 0 {
			rivals = append(rivals, c.SeedsPerCell)
		}
	}
	return rivals
}

// turnedBy are the steps neither timed nor judged of which some other number of seeds a cell
// calls for less than the best: they may turn the order round.
func (m *Models) turnedBy(w study.Workflow, heads, best int, choices []SeedingChoice) []string {
	with := func(k int) []visit { w.SeedsPerCell = k; return m.visits(w, float64(heads)) }
	visits := with(best)
	return m.gaps(visits, func(i int) bool {
		return slices.ContainsFunc(choices, func(c SeedingChoice) bool {
			more := m.loads(with(c.SeedsPerCell)).minus(m.loads(visits))[i]
			return more.Setups < 0 || more.Count < 0
		})
	})
}

// resow works out the alternative of one seed a cell with empty cells sown once
// more, where the study has a step for it: one whose name begins with "resow" or
// "re-sow", counted by the cell. Cells that stay empty then are (1 − g)².
func (s *Seeding) resow(m *Models, w study.Workflow, heads int) {
	step := m.resowStep()
	if step < 0 || m.Steps[step].isGap() {
		return
	}
	w.SeedsPerCell = 1
	once := m.Study.GerminationOf(w).Share
	w.Germination = nil
	name := m.Study.Steps[step].Name
	w.Tasks = slices.DeleteFunc(slices.Clone(w.Tasks), func(t study.Task) bool { return t.Step == name })
	st := m.Study
	st.Germination.Share = 1 - (1-once)*(1-once)
	twice := m.with(st)
	c := twice.seedingChoice(w, heads)
	again := c.CellsExpected * (1 - once)
	load := make(linear, len(m.Steps))
	load.add(step, m.Study.Steps[step].LoadFor(again))
	extra := m.span(workload{loads: load}).Value * m.perHour()
	c.MinutesPerHead += extra * 60 / float64(heads)
	if m.Study.Labour != nil {
		seeds := 0.0
		for _, supply := range m.Study.Supplies {
			if supply.Count == crop.Seeds && (supply.Workflows == nil || slices.Contains(supply.Workflows, w.Name)) {
				seeds += supply.Price * again * supply.Each / supply.Uses
			}
		}
		c.CostPerHead = c.CostPerHead.Plus((extra*m.Study.Labour.PerHour() + seeds) / float64(heads))
	}
	c.MinutesLow, c.MinutesHigh, c.CostLow, c.CostHigh = study.Maybe{}, study.Maybe{}, study.Maybe{}, study.Maybe{}
	s.Resown, s.ResowStep = &c, name
}

// resowStep is the step for sowing empty cells again, −1 where there is none.
func (m *Models) resowStep() int {
	for i, step := range m.Study.Steps {
		letters := strings.Map(func(r rune) rune {
			if unicode.IsLetter(r) {
				return unicode.ToLower(r)
			}
			return -1
		}, step.Name)
		if strings.HasPrefix(letters, "resow") {
			return i
		}
	}
	return -1
}

// SeedingCurve is the cost per head (minutes per head without a wage) at each
// germination for a number of seeds a cell.
type SeedingCurve struct {
	SeedsPerCell int
	Germination  []float64
	PerHead      []float64
}

// SeedingCurves shows how the best number of seeds moves with germination, from
// 0.4 to 1; none where plants are bought. The errors are those of Compare.
func (m *Models) SeedingCurves(name string, heads int) ([]SeedingCurve, error) {
	w, err := m.Study.Workflow(name)
	if err != nil {
		return nil, err
	}
	curves := make([]SeedingCurve, 0, maxSeeds)
	if w.Bought {
		return curves, nil
	}
	w.Germination = nil
	for k := 1; k <= maxSeeds; k++ {
		w.SeedsPerCell = k
		curve := SeedingCurve{SeedsPerCell: k}
		for percent := 40; percent <= 100; percent++ {
			study := m.Study
			study.Germination = crop.Germination{Share: float64(percent) / 100}
			at := m.with(study)
			curve.Germination = append(curve.Germination, at.Study.Germination.Share)
			curve.PerHead = append(curve.PerHead, at.worth(w, heads))
		}
		curves = append(curves, curve)
	}
	return curves, nil
}

// worth is the cost of a head, or its minutes without a wage; see SeedingChoice.
func (m *Models) worth(w study.Workflow, heads int) float64 {
	loads, bought, perHour := m.loads(m.visits(w, float64(heads))), 0.0, 60.0
	if m.Study.Labour != nil {
		perHour = m.Study.Labour.PerHour()
		for _, c := range m.Study.Chores {
			loads.add(m.choreShare(c))
		}
		for _, line := range m.otherLines(w, float64(heads)) {
			bought += line.Amount.Value
		}
	}
	return (m.evaluate(workload{loads: loads}, asModelled).value*m.perHour()*perHour + bought) / float64(heads)
}
