package condense

import (
	"slices"
	"sync"

	"headhours/timing/stepfit"
)

// loose are readings that are not with those of their kinds yet. Where kinds are thousands each
// has a few of a batch, and its own are far apart in memory: of many batches they are more, and
// are brought together at once.
type loose struct {
	spans    []span
	readings []stepfit.Reading // of the spans, one behind the other
	dates    []dateRange       // by slot, those that are not of their kinds yet
	sorted   []stepfit.Reading // by slot, room for as many
	ends     []int             // of each slot among these
}

// span is how many readings that follow each other are of a slot.
type span struct {
	slot uint32
	rows int32
}

// maxLoose is how many readings are loose at most, but for those of a batch.
const maxLoose = 1 << 17

// widen makes room for more readings, in so many spans at most.
func (l *loose) widen(more int) {
	if need := len(l.readings) + more; need > cap(l.readings) {
		room := max(need, min(2*len(l.readings), maxLoose+more))
		l.readings = append(make([]stepfit.Reading, 0, room), l.readings...)
		l.spans = append(make([]span, 0, room), l.spans...)
	}
}

// add adds how many of a part there are in a slot; the readings are added by themselves.
func (l *loose) add(slot uint32, t *partTally) {
	for int(slot) >= len(l.dates) {
		l.dates = append(l.dates, noDays)
	}
	l.dates[slot].merge(t.dateRange)
	l.spans = append(l.spans, span{slot, t.rows})
}

// takeLoose takes the loose readings to those of their kinds.
func (g *Gathering) takeLoose() {
	l := &g.loose
	if len(l.spans) == 0 {
		return
	}
	slots := len(l.dates)
	ends := slices.Grow(l.ends[:0], slots+1)[:slots+1]
	clear(ends)
	for _, s := range l.spans {
		ends[s.slot+1] += int(s.rows)
	}
	for i := range slots {
		ends[i+1] += ends[i]
	}
	sorted := slices.Grow(l.sorted[:0], len(l.readings))[:len(l.readings)]
	sortSpans(l.spans, l.readings, sorted, ends)
	var tasks sync.WaitGroup
	const share = 256
	for from := 0; from < slots; from += share {
		tasks.Go(func() {
			begin := 0
			if from > 0 {
				begin = ends[from-1]
			}
			for i := from; i < min(from+share, slots); i++ {
				if ends[i] > begin {
					o := g.slots[i]
					o.dateRange.merge(l.dates[i])
					o.addAll(sorted[begin:ends[i]])
					l.dates[i], begin = noDays, ends[i]
				}
			}
		})
	}
	tasks.Wait()
	l.spans, l.readings, l.sorted, l.ends = l.spans[:0], l.readings[:0], sorted, ends
}

// sortSpans sorts the readings of spans by their slots, given where each slot begins; then that is
// where it ends.
func sortSpans(spans []span, readings, into []stepfit.Reading, ends []int) {
	at := 0
	for _, s := range spans {
		to := ends[s.slot]
		ends[s.slot] = to + int(s.rows)
		for range s.rows {
			into[to] = readings[at]
			to, at = to+1, at+1
		}
	}
}
