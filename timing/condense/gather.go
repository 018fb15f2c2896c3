package condense

import (
	"slices"
	"sync"

	"headhours/timing/study"
)

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

// Take takes in a batch of readings, and what Digest made of it where that was called. It
// returns nil.
func (g *Gathering) Take(b *Batch) error {
	if d := b.Digest; d == nil || d.of != g || d.joined != g.joined.Load() {
		g.Digest(b)
	}
	g.know(b)
	var keeping sync.WaitGroup // nothing that is kept is among what the parts are taken into
	if len(b.Digest.keep) < manyToKeep {
		g.keep(b)
	} else {
		keeping.Go(func() { g.keep(b) })
	}
	for i := range b.Digest.parts {
		g.take(b, &b.Digest.parts[i])
	}
	g.takeGrows(b)
	keeping.Wait()
	if g.loose > maxLoose {
		g.eachStep(func(s *StepReadings) { s.Kinds.takeLoose() })
		g.loose = 0
	}
	for i := range g.condensed.Steps {
		if s := &g.condensed.Steps[i]; s.Kept.isOld(s.Readings) {
			s.Kinds.takeLoose()
			s.Kept.refine(s.Kinds.sums())
			g.outlined(s)
		}
	}
	return nil
}

// manyToKeep is how many readings take longer to keep than it takes to have that done beside.
const manyToKeep = 256

// keep keeps the readings of a batch that are to be kept as they are.
func (g *Gathering) keep(b *Batch) {
	for _, far := range b.Digest.keep {
		p := &b.Digest.parts[far.part]
		s := &g.condensed.Steps[g.stageIn(g.at[p.step], p.period)]
		if s.Kept.take(Timed{b.From, b.Line + int(far.row), far.reading}) {
			g.outlined(s)
		}
	}
}

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
	g.loose += b.Digest.takeInto(&s.Kinds, g.kindOf(b, p), p)
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
	g.eachStep(func(s *StepReadings) {
		s.Kinds.takeLoose()
		s.Kinds.loose = loose{}
		s.Sums = s.Kinds.sums()
	})
	c.settleStages()
	return c
}

// eachStep does something with all steps, at once.
func (g *Gathering) eachStep(do func(*StepReadings)) {
	var steps sync.WaitGroup
	for i := range g.condensed.Steps {
		steps.Go(func() { do(&g.condensed.Steps[i]) })
	}
	steps.Wait()
}

// takeGrows takes in what a batch says of the study's grows.
func (g *Gathering) takeGrows(b *Batch) {
	if len(g.condensed.growTallies) == 0 || !slices.ContainsFunc(b.Where, func(w Where) bool { return g.grows[w.Grow] != nil }) {
		return
	}
	for i := range b.Rows.Len() {
		r := b.Rows.At(i)
		where, what, how := &b.Where[r.Where], &b.What[r.What], &b.How[r.How]
		grow, step := g.grows[where.Grow], g.at[what.Step]
		if grow != nil && step >= 0 && !what.Voided && g.condensed.Filter.Takes(b, r) {
			grow.take(step, b.Names[WorkflowNames][where.Workflow], how, r.Seconds)
		}
	}
}
