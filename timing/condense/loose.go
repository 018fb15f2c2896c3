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
	readings []stepfit.Reading
	spans    []span
	bySlot   []span      // the same in the order of their slots, room for them
	ends     []int       // of each slot among these
	dates    []dateRange // by slot, those that are not of their kinds yet
}

// span is readings that follow each other and are of a slot.
type span struct {
	slot       uint32
	from, rows int32
}

// maxLoose is how many readings are loose at most, but for those of a batch.
const maxLoose = 1 << 17

// widen makes room for more readings.
func (l *loose) widen(more int) {
	if need := len(l.readings) + more; need > cap(l.readings) {
		room := 2 * need
		if need > maxLoose/8 { // room for all costs nothing until it is used
			room = max(need, maxLoose+more)
		}
		l.readings = append(make([]stepfit.Reading, 0, room), l.readings...)
	}
}

// add adds a span of a part; its readings are added with those of the other parts.
func (l *loose) add(slot uint32, t *partTally) {
	for int(slot) >= len(l.dates) {
		l.dates = append(l.dates, noDays)
	}
	l.dates[slot].merge(t.dateRange)
	l.spans = append(l.spans, span{slot, int32(len(l.readings)) + t.from, t.rows})
}

// takeLoose takes the loose readings to those of their kinds.
func (g *Gathering) takeLoose() {
	l := &g.loose
	if len(l.spans) == 0 {
		return
	}
	l.sortSpans()
	const share = 256 // of slots
	var shares sync.WaitGroup
	for from := 0; from < len(l.dates); from += share {
		shares.Go(func() {
			var readings []stepfit.Reading
			for slot := from; slot < min(from+share, len(l.dates)); slot++ {
				spans := l.spansOf(slot)
				if len(spans) == 0 {
					continue
				}
				readings = l.together(spans, readings)
				o := g.slots[slot]
				o.dateRange.merge(l.dates[slot])
				o.addAll(readings)
				l.dates[slot] = noDays
			}
		})
	}
	shares.Wait()
	l.spans, l.readings = l.spans[:0], l.readings[:0]
}

// sortSpans sorts the spans by their slots, those of one as they came.
func (l *loose) sortSpans() {
	ends := slices.Grow(l.ends[:0], len(l.dates)+1)[:len(l.dates)+1]
	clear(ends)
	for i := range l.spans {
		ends[l.spans[i].slot+1]++
	}
	for i := range l.dates {
		ends[i+1] += ends[i]
	}
	into := slices.Grow(l.bySlot[:0], len(l.spans))[:len(l.spans)]
	for _, s := range l.spans {
		into[ends[s.slot]] = s
		ends[s.slot]++ // it begins where the one before ends
	}
	l.bySlot, l.ends = into, ends
}

// spansOf are those of a slot, once they are sorted.
func (l *loose) spansOf(slot int) []span {
	from := 0
	if slot > 0 {
		from = l.ends[slot-1]
	}
	return l.bySlot[from:l.ends[slot]]
}

// together is the readings of spans, in memory that serves again.
func (l *loose) together(spans []span, into []stepfit.Reading) []stepfit.Reading {
	rows := 0
	for _, s := range spans {
		rows += int(s.rows)
	}
	into = slices.Grow(into[:0], rows)[:rows]
	at := 0
	for _, s := range spans {
		for _, r := range l.readings[s.from:][:s.rows] { // of few a call takes longer
			into[at] = r
			at++
		}
	}
	return into
}
