package condense

import (
	"slices"

	"headhours/timing/stepfit"
)

// loose are readings of a step that are not with those of their kinds yet. Where kinds are
// thousands each has a few of a batch, and its own are far apart in memory: of many batches
// they are more, and are brought together at once.
type loose struct {
	places   []uint32 // of their kinds
	readings []stepfit.Reading
	dates    []dateRange       // by place, those that are not of their kinds yet
	sorted   []stepfit.Reading // by kind, room for as many
	ends     []int             // of each kind among these
}

// maxLoose is how many readings of all steps are loose at most.
const maxLoose = 1 << 17

// add adds readings of the kind in a place, and their dates.
func (l *loose) add(place int, readings []stepfit.Reading, dates dateRange) {
	for place >= len(l.dates) {
		l.dates = append(l.dates, noDays)
	}
	l.dates[place].merge(dates)
	for range readings {
		l.places = append(l.places, uint32(place))
	}
	l.readings = append(l.readings, readings...)
}

// takeLoose takes the loose readings to those of their kinds.
func (k *readingsByKind) takeLoose() {
	l := &k.loose
	if len(l.readings) == 0 {
		return
	}
	ends := slices.Grow(l.ends[:0], k.count+1)[:k.count+1]
	clear(ends)
	for _, place := range l.places {
		ends[place+1]++
	}
	for i := range k.count {
		ends[i+1] += ends[i]
	}
	sorted := slices.Grow(l.sorted[:0], len(l.readings))[:len(l.readings)]
	for i, place := range l.places {
		sorted[ends[place]] = l.readings[i]
		ends[place]++ // it begins where the one before ends
	}
	from := 0
	for i := range l.dates {
		o, to := k.inOrder(i), ends[i]
		o.dateRange.merge(l.dates[i])
		o.addAll(sorted[from:to])
		l.dates[i], from = noDays, to
	}
	l.places, l.readings, l.sorted, l.ends = l.places[:0], l.readings[:0], sorted, ends
}
