package condense

import (
	"slices"
	"sync"

	"headhours/timing/study"
)

// Gather begins to take readings in, those that a filter takes. Without a study its steps
// are those that the readings name, in order of first appearance.
func Gather(st *study.Study, filter Filter) *Gathering {
	g := newGathering()
	g.open = st == nil
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
		g.digestAlone(b)
	}
	g.know(b)
	var keeping sync.WaitGroup // nothing that is kept is among what the parts are taken into
	if len(b.Digest.keep) < manyToKeep {
		g.keep(b)
	} else {
		keeping.Go(func() { g.keep(b) })
	}
	g.takeParts(b)
	g.takeGrows(b)
	keeping.Wait()
	switch {
	case g.many > maxKinds && !g.joined.Load():
		g.join()
	case len(g.loose.readings) > maxLoose:
		g.takeLoose()
	}
	for i := range g.condensed.Steps {
		if s := &g.condensed.Steps[i]; s.Kept.isOld(s.Readings) {
			g.takeLoose()
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

// takeParts takes in the parts of a batch.
func (g *Gathering) takeParts(b *Batch) {
	d := b.Digest
	places := d.list.places
	places = append(places, make([]partPlace, max(0, len(d.parts)-len(places)))...)
	d.list.places = places
	g.loose.widen(int(d.few))
	for i := range d.tallies {
		t, at := &d.tallies[i], &places[i]
		if t.rows == 0 {
			continue
		}
		if at.slot == 0 {
			*at = g.placeOf(b, &d.parts[i])
		}
		s := &g.condensed.Steps[at.step]
		if d.parts[i].voided {
			s.Voided += int(t.rows)
			continue
		}
		s.Readings += int(t.rows)
		s.Guessed += int(t.judged)
		if t.rows <= maxFew {
			g.loose.add(at.slot, t)
			continue
		}
		o := g.slots[at.slot]
		o.dateRange.merge(t.dateRange)
		o.merge(d.sums[t.sums])
	}
	g.loose.readings = append(g.loose.readings, d.readings[:d.few]...)
	if d.list != &d.own {
		d.list.order()
	}
}

// placeOf is where readings of a part are taken.
func (g *Gathering) placeOf(b *Batch, p *part) partPlace {
	step := g.stageIn(g.at[p.step], p.period)
	if p.voided {
		return partPlace{step: int32(step)}
	}
	kinds := &g.condensed.Steps[step].Kinds
	before := kinds.count
	place := kinds.placeOf(g.kindOf(b, p))
	g.many += kinds.count - before
	slot := &kinds.slots[place]
	if *slot == 0 {
		*slot = uint32(len(g.slots))
		g.slots = append(g.slots, kinds.inOrder(place))
	}
	return partPlace{int32(step), *slot}
}

// join makes room: readings are no longer told apart by grow and worker, of any step, since
// what grows have in common is told by all of them together.
func (g *Gathering) join() {
	g.takeLoose()
	g.slots, g.loose = g.slots[:1:1], loose{}
	g.joined.Store(true)
	g.kinds.addWorkflows()
	var steps sync.WaitGroup
	for i := range g.condensed.Steps {
		steps.Go(g.condensed.Steps[i].Kinds.join)
	}
	steps.Wait()
}

// Condensed is what was taken in; the gathering is used up. again goes through the same
// readings once more, for what needs the readings themselves.
func (g *Gathering) Condensed(again Readings) *Condensed {
	c := g.condensed
	c.Again = again
	c.Grows, c.Workers = g.seen[GrowNames].names, g.seen[WorkerNames].names
	g.takeLoose()
	g.loose, g.slots = loose{}, nil
	var steps sync.WaitGroup
	for i := range c.Steps {
		steps.Go(func() { c.Steps[i].Sums = c.Steps[i].Kinds.sums() })
	}
	steps.Wait()
	c.settleStages()
	return c
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
