package condense

// Kind is what readings of a step may have in common.
type Kind struct{ Workflow, Grow, Worker string }

// kindKey is a kind by the numbers of its names: 32 bits of the workflow, 16 of the grow
// and 16 of the worker, who are numbered no further than there are kinds.
type kindKey uint64

const growBits, workerBits = 16, 16

// kinds are those that readings have, of all steps, and their names, by their numbers. The
// first name of all is "".
type kinds struct {
	names [naming]Index[string]
	keys  Index[kindKey]
	alone []uint32 // by workflow, of no grow or worker
}

func newKinds() kinds {
	var k kinds
	for of := range k.names {
		k.names[of].Of("")
	}
	return k
}

// nameOf is the number of a name.
func (k *kinds) nameOf(of int, name string) kindKey { return kindKey(k.names[of].Of(name)) }

// of is the number of a kind by those of its names.
func (k *kinds) of(workflow, grow, worker kindKey) uint32 {
	return k.keys.Of(workflow<<(growBits+workerBits) | grow<<workerBits | worker)
}

func (k *kinds) numberOf(what Kind) uint32 {
	return k.of(k.nameOf(WorkflowNames, what.Workflow), k.nameOf(GrowNames, what.Grow), k.nameOf(WorkerNames, what.Worker))
}

func (k *kinds) at(number uint32) Kind {
	key := k.keys.List[number]
	return Kind{
		Workflow: k.names[WorkflowNames].List[key>>(growBits+workerBits)],
		Grow:     k.names[GrowNames].List[uint16(key>>workerBits)],
		Worker:   k.names[WorkerNames].List[uint16(key)],
	}
}

// workflowOnly is the kind of the workflow alone. Several may ask for it at once when addWorkflows was called.
func (k *kinds) workflowOnly(number uint32) uint32 {
	workflow := int(k.keys.List[number] >> (growBits + workerBits))
	for len(k.alone) <= workflow {
		k.alone = append(k.alone, k.of(kindKey(len(k.alone)), 0, 0))
	}
	return k.alone[workflow]
}

// addWorkflows adds the kinds of all workflows alone.
func (k *kinds) addWorkflows() {
	for workflow := range k.names[WorkflowNames].List {
		k.workflowOnly(k.of(kindKey(workflow), 0, 0))
	}
}
