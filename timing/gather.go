package timing

import (
	"slices"
	"sync"
	"sync/atomic"

	"headhours/timing/stepfit"
)

// Gathering takes readings in, each once and in order, in bounded memory, and condenses
// them.
type Gathering struct {
	made     *Condensed
	open     bool             // steps come with their first reading
	steps    map[string]*Step // the study's
	outlines sync.Map         // *outline of the steps with readings enough, by their names
	joined   atomic.Bool      // they are no longer told apart by grow and worker
	kinds    int              // of all steps together, until then
	dates    []Day            // on which steps were changed
	met      [naming]nameSet  // the workers and the grows

	tables map[*Table]*known
	*known // of the batch in hand
}

// Condensed is what the readings of a study come to, from which models of every kind are
// fitted. It is not changed any more.
type Condensed struct {
	Study Study
	Steps []StepReadings // in the study's order, then stages of steps before changes
	// The workers and the grows that readings name, whether or not the filter takes
	// them, in order of first appearance; no more than the first MostNames.
	Workers, Grows []string

	filter Filter
	index  map[string]int    // of a step by its name
	stages []*stages         // of each of the study's steps, nil of those that were not changed
	begun  []*stages         // the same before stages that were not timed are answered for
	taken  []StepReadings    // Steps likewise
	before Study             // as it was before steps were dropped
	grown  map[string]*grown // the study's grows, by name
	again  Readings          // all that were gathered
}

// StepReadings is what the readings of one step come to.
type StepReadings struct {
	Step     Step
	Readings int // that count
	Voided   int
	Guessed  int // of the readings, those judged rather than timed
	sums     stepfit.Sums
	kinds    kinds
	kept     kept
}

// Gather begins to take readings in, those that a filter takes. Without a study its steps
// are those that the readings name, in order of first appearance.
func Gather(study *Study, filter Filter) *Gathering {
	g := &Gathering{open: study == nil, steps: map[string]*Step{}, tables: map[*Table]*known{}}
	if study == nil {
		study = &Study{Confidence: DefaultConfidence}
	}
	g.made = &Condensed{Study: study.AsItIs(), before: *study, filter: filter, index: map[string]int{}, grown: map[string]*grown{}}
	for i := range study.Steps {
		g.begin(study.Steps[i])
		g.steps[study.Steps[i].Name] = &study.Steps[i]
	}
	g.beginStages()
	for _, grow := range study.Grows {
		g.made.grown[grow.Name] = &grown{workflow: grow.Workflow, begun: map[int]int{}}
	}
	return g
}

func (g *Gathering) begin(step Step) int {
	c := g.made
	i := len(c.Steps)
	c.index[step.Name] = i
	c.Steps = append(c.Steps, StepReadings{Step: step, kinds: kinds{joined: g.joined.Load()}})
	return i
}

// step is what is known of a step by its name beforehand, nil where the readings are not
// taken.
func (g *Gathering) step(name string) *Step {
	if g.open && name != "" {
		return &anyStep
	}
	return g.steps[name]
}

// anyStep is all that is known of steps without a study.
var anyStep Step

// outline is that of a step, nil while it is not known.
func (g *Gathering) outline(step string) *outline {
	o, _ := g.outlines.Load(step)
	known, _ := o.(*outline)
	return known
}

// Take takes in a batch of readings, and what Digest made of it where that was called. It
// returns nil.
func (g *Gathering) Take(b *Batch) error {
	if d := b.digest; d == nil || d.of != g || d.joined != g.joined.Load() {
		g.Digest(b)
	}
	g.know(b)
	for i := range b.digest.parts {
		g.take(b, &b.digest.parts[i])
	}
	g.takeGrown(b)
	for _, i := range b.digest.keep {
		r := &b.Rows[i]
		s := &g.made.Steps[g.stageIn(g.at[b.What[r.What].Step], g.period(b.Where[r.Where].Day))]
		if s.kept.take(b.timed(&s.Step, r)) {
			g.outlines.Store(s.Step.Name, &s.kept.outline)
		}
	}
	return nil
}

// known is what the names of a table of batches stand for.
type known struct {
	at      []int    // the step of each name, -1 where the study has none such
	grows   []*grown // likewise the study's grow, nil where it has none such
	workers int      // how many are known
}

// mostTables is of how many tables the names are kept in mind.
const mostTables = 64

// know finds what the names of a batch stand for.
func (g *Gathering) know(b *Batch) {
	m := g.made
	k := g.tables[b.Table]
	if k == nil || b.Table == nil {
		if len(g.tables) >= mostTables {
			clear(g.tables)
		}
		k = &known{}
		g.tables[b.Table] = k
	}
	g.known = k
	for _, name := range b.Names[StepNames][len(k.at):] {
		i, known := m.index[name]
		switch {
		case known:
		case g.open && name != "":
			i = g.begin(Step{Name: name})
			m.Study.Steps = append(m.Study.Steps, Step{Name: name})
		default:
			i = -1
		}
		k.at = append(k.at, i)
	}
	for _, name := range b.Names[GrowNames][len(k.grows):] {
		k.grows = append(k.grows, m.grown[name])
		g.met[GrowNames].add(name)
	}
	for _, name := range b.Names[WorkerNames][k.workers:] {
		g.met[WorkerNames].add(name)
		k.workers++
	}
}

// take takes in a part of a batch.
func (g *Gathering) take(b *Batch, p *part) {
	s := &g.made.Steps[g.stageIn(g.at[p.step], p.period)]
	if p.voided {
		s.Voided += int(p.rows)
		return
	}
	s.Readings += int(p.rows)
	s.Guessed += int(p.judged)
	before := len(s.kinds.list)
	what := kind{b.Names[WorkflowNames][p.workflow], b.Names[GrowNames][p.grow], b.Names[WorkerNames][p.worker]}
	b.digest.takeInto(s.kinds.at(what), p)
	if g.kinds += len(s.kinds.list) - before; g.kinds > mostKinds && !g.joined.Load() {
		g.join()
	}
}

// join makes room: readings are no longer told apart by grow and worker, of any step, since
// what grows have in common is told by all of them together.
func (g *Gathering) join() {
	g.joined.Store(true)
	for i := range g.made.Steps {
		g.made.Steps[i].kinds.join()
	}
}

// Condensed is what was taken in; the gathering is used up. again goes through the same
// readings once more, for what needs the readings themselves.
func (g *Gathering) Condensed(again Readings) *Condensed {
	c := g.made
	c.again = again
	c.Grows, c.Workers = g.met[GrowNames].names, g.met[WorkerNames].names
	var steps sync.WaitGroup
	for i := range c.Steps {
		s := &c.Steps[i]
		steps.Go(func() { s.sums = s.kinds.sums() })
	}
	steps.Wait()
	c.settleStages()
	return c
}

// setupsOf is how many setups a reading of the step held, see Setups.
func (s *Step) setupsOf(what *What, count float64) float64 {
	if what.Flags&HasSetups != 0 {
		return what.Setups
	}
	return s.setupsFor(count)
}

// timed is a row on the scales of its step.
func (b *Batch) timed(s *Step, r *Brief) Timed {
	what := &b.What[r.What]
	return Timed{b.Place(r), s.setupsOf(what, r.Count), r.Count, what.Basic(r.Seconds)}
}

// each goes once more through the readings that the filter takes and that count, by
// step.
func (m *Condensed) each(visit func(step int, b *Batch, r *Brief)) error {
	return m.again(func(b *Batch) error {
		for i := range b.Rows {
			r := &b.Rows[i]
			step, known := m.index[b.Name(r, StepNames)]
			if known && b.What[r.What].Flags&IsVoided == 0 && m.filter.takes(b, r) {
				visit(m.stageOn(step, b.Where[r.Where].Day), b, r)
			}
		}
		return nil
	})
}

// MostNames is how many workers and grows Models list.
const MostNames = 10_000

// nameSet is names, each once.
type nameSet struct {
	names []string
	has   map[string]bool
}

func (n *nameSet) add(name string) {
	if name == "" || len(n.names) == MostNames || n.has[name] {
		return
	}
	if n.has == nil {
		n.has = map[string]bool{}
	}
	n.has[name] = true
	n.names = append(n.names, name)
}

// grown is what readings say of one of the study's grows.
type grown struct {
	workflow  string // that the study gives it
	readings  int
	elsewhere int         // logged under another workflow
	seconds   float64     // basic person-seconds
	begun     map[int]int // how often a visit of each step was begun: laps carry one on
}

func (g *grown) take(step int, workflow string, what *What, seconds float64) {
	g.readings++
	g.seconds += what.Basic(seconds)
	if what.Flags&HasSetups == 0 || what.Setups > 0 {
		g.begun[step]++
	}
	if workflow != "" && workflow != g.workflow {
		g.elsewhere++
	}
}

// takeGrown takes in what a batch says of the study's grows.
func (g *Gathering) takeGrown(b *Batch) {
	if !slices.ContainsFunc(b.Where, func(w Where) bool { return g.grows[w.Grow] != nil }) {
		return
	}
	for i := range b.Rows {
		r := &b.Rows[i]
		where, what := &b.Where[r.Where], &b.What[r.What]
		grow, step := g.grows[where.Grow], g.at[what.Step]
		if grow != nil && step >= 0 && what.Flags&IsVoided == 0 && g.made.filter.takes(b, r) {
			grow.take(step, b.Names[WorkflowNames][where.Workflow], what, r.Seconds)
		}
	}
}

// grow is what readings say of a grow; nothing where the study has none such.
func (m *Condensed) grow(name string) grown {
	if g := m.grown[name]; g != nil {
		return *g
	}
	return grown{}
}

// VoidedReading is a reading that does not count, and why.
type VoidedReading struct {
	Step    string  `json:"step"`
	File    string  `json:"file"`
	Line    int     `json:"line"`
	Count   Maybe   `json:"count"`  // unknown where it was never given
	Seconds float64 `json:"time_s"` // basic person-seconds
	Reason  string  `json:"reason"`
}

// Voided lists the readings that the filter takes and that do not count. The error is
// that of reading them again.
func (m *Condensed) Voided() ([]VoidedReading, error) {
	voided := []VoidedReading{}
	if !slices.ContainsFunc(m.Steps, func(s StepReadings) bool { return s.Voided > 0 }) {
		return voided, nil
	}
	err := m.again(func(b *Batch) error {
		reasons := b.Voids
		for i := range b.Rows {
			r := &b.Rows[i]
			what := &b.What[r.What]
			if what.Flags&IsVoided == 0 {
				continue
			}
			reason := reasons[0]
			reasons = reasons[1:]
			if m.filter.takes(b, r) {
				at := b.Place(r)
				voided = append(voided, VoidedReading{
					Step: b.Name(r, StepNames), File: at.File, Line: at.Line,
					Count: Known(r.Count), Seconds: what.Basic(r.Seconds), Reason: reason,
				})
			}
		}
		return nil
	})
	return voided, err
}
