package condense

import (
	"sync"
	"sync/atomic"

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
	slots     []*kindReadings        // of all steps, by their slots; nil the first
	loose     loose
	dates     []Day           // on which steps were changed
	seen      [naming]nameSet // the workers and the grows
	kinds     kinds

	tables      map[*NameTable]*tableNames
	*tableNames // of the batch in hand
}

func newGathering() *Gathering {
	return &Gathering{
		steps: map[string]*study.Step{}, tables: map[*NameTable]*tableNames{}, kinds: newKinds(),
		slots: make([]*kindReadings, 1),
	}
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

// outlined makes the outline of a step known as it now is, to digests in hand too.
func (g *Gathering) outlined(s *StepReadings) {
	outline := s.Kept.Outline
	g.outlines.Store(s.Step.Name, &outline)
}

// readingsOf are those of a step, of which none were taken in yet.
func (g *Gathering) readingsOf(step study.Step) StepReadings {
	return StepReadings{Step: step, Kinds: readingsByKind{kinds: &g.kinds, Joined: g.joined.Load()}}
}

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
