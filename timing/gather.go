package timing

import (
	"cmp"
	"slices"
)

// Gathering takes readings in, each once and in order, in bounded memory, for the
// Models of them all.
type Gathering struct {
	models *Models
	open   bool            // steps come with their first reading
	kinds  int             // of all steps together
	room   int             // for how many there is
	met    [naming]nameSet // the workers and the grows

	tables  map[*Table]*known
	*known  // of the batch in hand
	serials int
}

// Gather begins the models of a study. Without one its steps are those that the
// readings name, in order of first appearance.
func Gather(study *Study, o Options) *Gathering {
	g := &Gathering{open: study == nil, room: mostKinds, tables: map[*Table]*known{}}
	if study == nil {
		study = &Study{Confidence: DefaultConfidence}
	}
	g.models = &Models{
		Study: *study, Confidence: cmp.Or(o.Confidence, study.Confidence, DefaultConfidence),
		index: map[string]int{}, grown: map[string]*grown{}, options: o,
	}
	for _, step := range study.Steps {
		g.begin(step)
	}
	for _, grow := range study.Grows {
		g.models.grown[grow.Name] = &grown{workflow: grow.Workflow, begun: map[int]int{}}
	}
	return g
}

func (g *Gathering) begin(step Step) int {
	m := g.models
	i := len(m.Steps)
	m.index[step.Name] = i
	m.Steps = append(m.Steps, StepModel{Step: step})
	return i
}

// Take takes in a batch of readings. It returns nil.
func (g *Gathering) Take(b *Batch) error {
	g.know(b)
	everything := g.models.options.Filter == Filter{}
	for i := range b.Rows {
		r := &b.Rows[i]
		step := g.steps[r.Named[StepNames]]
		if step < 0 || !everything && !g.models.options.Filter.takes(b, r) {
			continue
		}
		if grow := g.grows[r.Named[GrowNames]]; grow != nil {
			grow.take(b, r, step)
		}
		g.take(&g.models.Steps[step], b, r)
	}
	return nil
}

// known is what the names of a table of batches stand for.
type known struct {
	serial  int      // no other table has it
	steps   []int    // the step of each name, -1 where the study has none such
	grows   []*grown // likewise the study's grow, nil where it has none such
	workers int      // how many are known
}

// mostTables is of how many tables the names are kept in mind.
const mostTables = 64

// know finds what the names of a batch stand for.
func (g *Gathering) know(b *Batch) {
	m := g.models
	k := g.tables[b.Table]
	if k == nil || b.Table == nil {
		if len(g.tables) >= mostTables {
			clear(g.tables)
		}
		g.serials++
		k = &known{serial: g.serials}
		g.tables[b.Table] = k
	}
	g.known = k
	for _, name := range b.Names[StepNames][len(k.steps):] {
		i, known := m.index[name]
		switch {
		case known:
		case g.open && name != "":
			i = g.begin(Step{Name: name})
			m.Study.Steps = append(m.Study.Steps, Step{Name: name})
		default:
			i = -1
		}
		k.steps = append(k.steps, i)
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

// take takes in one reading of a step.
func (g *Gathering) take(s *StepModel, b *Batch, r *Brief) {
	if r.Flags&IsVoided != 0 {
		s.Voided++
		return
	}
	s.Readings++
	if r.Flags&IsJudged != 0 {
		s.FromMemory++
	}
	setups := s.Step.setupsOf(r)
	before := len(s.kinds.list)
	k := s.kinds.of(b, g.serial, r)
	k.add(setups, r.Count, r.Basic)
	k.dated(r.Day)
	s.kept.take(s, b, r, setups)
	if g.kinds += len(s.kinds.list) - before; g.kinds > g.room {
		g.join()
	}
}

// join makes room: the step with the most kinds is no longer told apart by grow and
// worker.
func (g *Gathering) join() {
	var most *kinds
	for i := range g.models.Steps {
		k := &g.models.Steps[i].kinds
		if !k.overflow && (most == nil || len(k.list) > len(most.list)) {
			most = k
		}
	}
	if most == nil || len(most.list) == 1 {
		g.room += mostKinds / 8 // that many steps and workflows: all there is to keep
		return
	}
	g.kinds -= len(most.list)
	most.join()
	g.kinds += len(most.list)
}

// Models fits every step to what was taken in. again goes through the same readings
// once more, for what needs the readings themselves.
func (g *Gathering) Models(again Readings) *Models {
	m := g.models
	m.again = again
	m.Grows, m.Workers = g.met[GrowNames].names, g.met[WorkerNames].names
	for i := range m.Steps {
		m.Steps[i].choose(m.options)
	}
	m.pool()
	m.share()
	for i := range m.Steps {
		m.lend(&m.Steps[i])
	}
	return m
}

// setupsOf is how many setups a reading of the step held, see Setups.
func (s Step) setupsOf(r *Brief) float64 {
	if r.Flags&HasSetups != 0 {
		return r.Setups
	}
	return s.setupsFor(r.Count)
}

// each goes once more through the readings that the filter takes and that count, by
// step.
func (m *Models) each(visit func(step int, b *Batch, r *Brief)) error {
	return m.again(func(b *Batch) error {
		for i := range b.Rows {
			r := &b.Rows[i]
			step, known := m.index[b.Name(r, StepNames)]
			if known && r.Flags&IsVoided == 0 && m.options.Filter.takes(b, r) {
				visit(step, b, r)
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
	if name == "" || n.has[name] || len(n.names) == MostNames {
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

func (g *grown) take(b *Batch, r *Brief, step int) {
	if r.Flags&IsVoided != 0 {
		return
	}
	g.readings++
	g.seconds += r.Basic
	if r.Flags&HasSetups == 0 || r.Setups > 0 {
		g.begun[step]++
	}
	if workflow := b.Name(r, WorkflowNames); workflow != "" && workflow != g.workflow {
		g.elsewhere++
	}
}

// grow is what readings say of a grow; nothing where the study has none such.
func (m *Models) grow(name string) grown {
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
func (m *Models) Voided() ([]VoidedReading, error) {
	voided := []VoidedReading{}
	if !slices.ContainsFunc(m.Steps, func(s StepModel) bool { return s.Voided > 0 }) {
		return voided, nil
	}
	err := m.again(func(b *Batch) error {
		reasons := b.Voids
		for i := range b.Rows {
			r := &b.Rows[i]
			if r.Flags&IsVoided == 0 {
				continue
			}
			reason := reasons[0]
			reasons = reasons[1:]
			if m.options.Filter.takes(b, r) {
				at := b.Place(r)
				voided = append(voided, VoidedReading{
					Step: b.Name(r, StepNames), File: at.File, Line: at.Line,
					Count: Known(r.Count), Seconds: r.Basic, Reason: reason,
				})
			}
		}
		return nil
	})
	return voided, err
}
