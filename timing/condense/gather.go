package condense

import (
	"slices"
	"sync"
	"sync/atomic"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Gathering takes readings in, each once and in order, in bounded memory, and condenses
// them.
type Gathering struct {
	condensed *Condensed
	open      bool                   // steps come with their first reading
	steps     map[string]*study.Step // the study's
	outlines  sync.Map               // *outline of the steps with readings enough, by their names
	joined    atomic.Bool            // they are no longer told apart by grow and worker
	many      int                    // kinds of all steps together, until then
	dates     []Day                  // on which steps were changed
	seen      [naming]nameSet        // the workers and the grows
	kinds     kinds

	tables      map[*NameTable]*tableNames
	*tableNames // of the batch in hand
}

// Condensed is what the readings of a study come to, from which models of every kind are
// fitted. It is not changed any more.
type Condensed struct {
	Study study.Study
	Steps []StepReadings // in the study's order, then stages of steps before changes
	// The workers and the grows that readings name, whether or not the filter takes
	// them, in order of first appearance; no more than the first MaxNames.
	Workers, Grows []string

	Filter      Filter
	Index       map[string]int        // of a step by its name
	Stages      []*Stages             // of each of the study's steps, nil of those that were not changed
	allStages   []*Stages             // the same before stages that were not timed are answered for
	allSteps    []StepReadings        // Steps likewise
	Before      study.Study           // as it was before steps were dropped
	growTallies map[string]*growTally // the study's grows, by name
	Again       Readings              // all that were gathered
}

// StepReadings is what the readings of one step come to.
type StepReadings struct {
	Step     study.Step
	Readings int // that count
	Voided   int
	Guessed  int // of the readings, those judged rather than timed
	Sums     stepfit.Sums
	Kinds    readingsByKind
	Kept     Kept
}

// Gather begins to take readings in, those that a filter takes. Without a study its steps
// are those that the readings name, in order of first appearance.
func Gather(st *study.Study, filter Filter) *Gathering {
	g := &Gathering{open: st == nil, steps: map[string]*study.Step{}, tables: map[*NameTable]*tableNames{}, kinds: newKinds()}
	if st == nil {
		st = &study.Study{Confidence: study.DefaultConfidence}
	}
	g.condensed = &Condensed{Study: st.AsItIs(), Before: *st, Filter: filter, Index: map[string]int{}, growTallies: map[string]*growTally{}}
	for i := range st.Steps {
		g.begin(st.Steps[i])
		g.steps[st.Steps[i].Name] = &st.Steps[i]
	}
	g.beginStages()
	for _, grow := range st.Grows {
		g.condensed.growTallies[grow.Name] = &growTally{workflow: grow.Workflow, Visits: map[int]int{}}
	}
	return g
}

func (g *Gathering) begin(step study.Step) int {
	c := g.condensed
	i := len(c.Steps)
	c.Index[step.Name] = i
	c.Steps = append(c.Steps, g.readingsOf(step))
	return i
}

// readingsOf are those of a step, of which none were taken in yet.
func (g *Gathering) readingsOf(step study.Step) StepReadings {
	return StepReadings{Step: step, Kinds: readingsByKind{kinds: &g.kinds, Joined: g.joined.Load()}}
}

// step is what is known of a step by its name beforehand, nil where the readings are not
// taken.
func (g *Gathering) step(name string) *study.Step {
	if g.open && name != "" {
		return &anyStep
	}
	return g.steps[name]
}

// anyStep is all that is known of steps without a study.
var anyStep study.Step

// outline is that of a step, nil while it is not known.
func (g *Gathering) outline(step string) *outline {
	o, _ := g.outlines.Load(step)
	outline, _ := o.(*outline)
	return outline
}

// Take takes in a batch of readings, and what Digest made of it where that was called. It
// returns nil.
func (g *Gathering) Take(b *Batch) error {
	if d := b.Digest; d == nil || d.of != g || d.joined != g.joined.Load() {
		g.Digest(b)
	}
	g.know(b)
	for i := range b.Digest.parts {
		g.take(b, &b.Digest.parts[i])
	}
	g.takeGrows(b)
	for _, i := range b.Digest.keep {
		r := &b.Rows[i]
		s := &g.condensed.Steps[g.stageIn(g.at[b.What[r.What].Step], g.period(b.Where[r.Where].Day))]
		if s.Kept.take(b.Timed(&s.Step, r)) {
			g.outlines.Store(s.Step.Name, &s.Kept.Outline)
		}
	}
	return nil
}

// tableNames is what the names of a table of batches stand for.
type tableNames struct {
	at      []int             // the step of each name, -1 where the study has none such
	grows   []*growTally      // the study's grow of each name, nil where it has none such; none where it has no grows
	numbers [naming][]kindKey // the gathering's, from 1, of those that kinds name; 0 where not asked for yet
	upTo    [naming]int       // how many were seen, of workers and grows
}

// maxTables is of how many tables the names are kept in mind.
const maxTables = 64

// know finds what the names of a batch stand for.
func (g *Gathering) know(b *Batch) {
	m := g.condensed
	k := g.tables[b.Table]
	if k == nil || b.Table == nil {
		if len(g.tables) >= maxTables {
			clear(g.tables)
		}
		k = &tableNames{}
		g.tables[b.Table] = k
	}
	g.tableNames = k
	for _, name := range b.Names[StepNames][len(k.at):] {
		i, ok := m.Index[name]
		switch {
		case ok:
		case g.open && name != "":
			i = g.begin(study.Step{Name: name})
			m.Study.Steps = append(m.Study.Steps, study.Step{Name: name})
		default:
			i = -1
		}
		k.at = append(k.at, i)
	}
	if len(m.growTallies) > 0 {
		for _, name := range b.Names[GrowNames][len(k.grows):] {
			k.grows = append(k.grows, m.growTallies[name])
		}
	}
	for _, kind := range []int{GrowNames, WorkerNames} {
		for _, name := range b.Names[kind][k.upTo[kind]:] {
			g.seen[kind].add(name)
		}
		k.upTo[kind] = len(b.Names[kind])
	}
	for kind := range b.Names {
		k.numbers[kind] = append(k.numbers[kind], make([]kindKey, len(b.Names[kind])-len(k.numbers[kind]))...)
	}
}

// kindOf is the kind of a part of a batch.
func (g *Gathering) kindOf(b *Batch, p *part) uint32 {
	var grow, worker kindKey
	if !g.joined.Load() {
		grow, worker = g.number(b, GrowNames, p.grow), g.number(b, WorkerNames, p.worker)
	}
	return g.kinds.of(g.number(b, WorkflowNames, p.workflow), grow, worker)
}

// number is that of a name of a batch among those that kinds have.
func (g *Gathering) number(b *Batch, of int, name int32) kindKey {
	n := &g.numbers[of][name]
	if *n == 0 {
		*n = g.kinds.nameOf(of, b.Names[of][name]) + 1
	}
	return *n - 1
}

// take takes in a part of a batch.
func (g *Gathering) take(b *Batch, p *part) {
	s := &g.condensed.Steps[g.stageIn(g.at[p.step], p.period)]
	if p.voided {
		s.Voided += int(p.rows)
		return
	}
	s.Readings += int(p.rows)
	s.Guessed += int(p.judged)
	before := s.Kinds.count
	b.Digest.takeInto(s.Kinds.at(g.kindOf(b, p)), p)
	if g.many += s.Kinds.count - before; g.many > maxKinds && !g.joined.Load() {
		g.join()
	}
}

// join makes room: readings are no longer told apart by grow and worker, of any step, since
// what grows have in common is told by all of them together.
func (g *Gathering) join() {
	g.joined.Store(true)
	for i := range g.condensed.Steps {
		g.condensed.Steps[i].Kinds.join()
	}
}

// Condensed is what was taken in; the gathering is used up. again goes through the same
// readings once more, for what needs the readings themselves.
func (g *Gathering) Condensed(again Readings) *Condensed {
	c := g.condensed
	c.Again = again
	c.Grows, c.Workers = g.seen[GrowNames].names, g.seen[WorkerNames].names
	var steps sync.WaitGroup
	for i := range c.Steps {
		s := &c.Steps[i]
		steps.Go(func() { s.Sums = s.Kinds.sums() })
	}
	steps.Wait()
	c.settleStages()
	return c
}

// LoadOf is that of a reading of the step of a count: with the setups that it names, else as
// many as its count called for.
func LoadOf(s *study.Step, what *What, count float64) stepfit.Load {
	if what.Flags&HasSetups != 0 {
		return stepfit.Load{Setups: what.Setups, Count: count}
	}
	return s.LoadFor(count)
}

// Timed is a row on the scales of its step.
func (b *Batch) Timed(s *study.Step, r *Brief) Timed {
	what := &b.What[r.What]
	return Timed{b.From, b.Line + int(r.Row), stepfit.Reading{Load: LoadOf(s, what, r.Count), Seconds: what.Basic(r.Seconds)}}
}

// Each goes once more through the readings that the filter takes and that count, by
// step.
func (m *Condensed) Each(visit func(step int, b *Batch, r *Brief)) error {
	var steps []int   // of each of a batch's What, -1 where it is not taken
	var places []bool // whether each of its Where is taken
	return m.Again(func(b *Batch) error {
		steps, places = steps[:0], places[:0]
		for i := range b.What {
			step, ok := m.Index[b.Names[StepNames][b.What[i].Step]]
			if !ok || b.What[i].Flags&IsVoided != 0 || !m.Filter.takesWhat(b, &b.What[i]) {
				step = -1
			}
			steps = append(steps, step)
		}
		for i := range b.Where {
			places = append(places, m.Filter.takesWhere(b, &b.Where[i]))
		}
		for i := range b.Rows {
			r := &b.Rows[i]
			if step := steps[r.What]; step >= 0 && places[r.Where] {
				visit(m.stageOn(step, b.Where[r.Where].Day), b, r)
			}
		}
		return nil
	})
}

// MaxNames is how many workers and grows Models list.
const MaxNames = 10_000

// nameSet is names, each once.
type nameSet struct {
	names []string
	has   map[string]bool
}

func (n *nameSet) add(name string) {
	if name == "" || len(n.names) == MaxNames || n.has[name] {
		return
	}
	if n.has == nil {
		n.has = map[string]bool{}
	}
	n.has[name] = true
	n.names = append(n.names, name)
}

// growTally is what readings say of one of the study's grows.
type growTally struct {
	workflow  string // that the study gives it
	Readings  int
	Elsewhere int         // logged under another workflow
	Seconds   float64     // basic person-seconds
	Visits    map[int]int // how often a visit of each step was begun: laps carry one on
}

func (g *growTally) take(step int, workflow string, what *What, seconds float64) {
	g.Readings++
	g.Seconds += what.Basic(seconds)
	if what.Flags&HasSetups == 0 || what.Setups > 0 {
		g.Visits[step]++
	}
	if workflow != "" && workflow != g.workflow {
		g.Elsewhere++
	}
}

// takeGrows takes in what a batch says of the study's grows.
func (g *Gathering) takeGrows(b *Batch) {
	if len(g.condensed.growTallies) == 0 || !slices.ContainsFunc(b.Where, func(w Where) bool { return g.grows[w.Grow] != nil }) {
		return
	}
	for i := range b.Rows {
		r := &b.Rows[i]
		where, what := &b.Where[r.Where], &b.What[r.What]
		grow, step := g.grows[where.Grow], g.at[what.Step]
		if grow != nil && step >= 0 && what.Flags&IsVoided == 0 && g.condensed.Filter.Takes(b, r) {
			grow.take(step, b.Names[WorkflowNames][where.Workflow], what, r.Seconds)
		}
	}
}

// Grow is what readings say of a grow; nothing where the study has none such.
func (m *Condensed) Grow(name string) growTally {
	if g := m.growTallies[name]; g != nil {
		return *g
	}
	return growTally{}
}

// VoidedReading is a reading that does not count, and why.
type VoidedReading struct {
	Step    string      `json:"step"`
	File    string      `json:"file"`
	Line    int         `json:"line"`
	Count   study.Maybe `json:"count"`  // unknown where it was never given
	Seconds float64     `json:"time_s"` // basic person-seconds
	Reason  string      `json:"reason"`
}

// Voided lists the readings that the filter takes and that do not count. The error is
// that of reading them again.
func (m *Condensed) Voided() ([]VoidedReading, error) {
	voided := []VoidedReading{}
	if !slices.ContainsFunc(m.Steps, func(s StepReadings) bool { return s.Voided > 0 }) {
		return voided, nil
	}
	err := m.Again(func(b *Batch) error {
		reasons := b.Voids
		for i := range b.Rows {
			r := &b.Rows[i]
			what := &b.What[r.What]
			if what.Flags&IsVoided == 0 {
				continue
			}
			reason := reasons[0]
			reasons = reasons[1:]
			if m.Filter.Takes(b, r) {
				at := b.Place(r)
				voided = append(voided, VoidedReading{
					Step: b.Name(r, StepNames), File: at.File, Line: at.Line,
					Count: study.Known(r.Count), Seconds: what.Basic(r.Seconds), Reason: reason,
				})
			}
		}
		return nil
	})
	return voided, err
}
