package condense

import "headhours/timing/stepfit"

// kindReadings is all readings of a step of one kind. There are many kinds, of most of which
// there are few readings: those take less room than their sums. The others are taken into
// sums some at a time, which is quicker.
type kindReadings struct {
	sums    *stepfit.Sums   // of all but those that wait; nil before the first are taken in
	first   stepfit.Reading // of those that wait
	rest    *[maxWaiting - 1]stepfit.Reading
	waiting int32 // how many those are
	kind    uint32
	dateRange
}

const (
	maxWaiting = 8 // readings that are taken in together
	fewWaiting = 3 // that are taken in one by one
)

func (o *kindReadings) add(r stepfit.Reading) {
	if o.waiting == 0 {
		o.first = r
	} else {
		if o.rest == nil {
			o.rest = new([maxWaiting - 1]stepfit.Reading)
		}
		o.rest[o.waiting-1] = r
	}
	if o.waiting++; o.waiting == maxWaiting {
		o.takeWaiting(o.summed())
		o.waiting = 0
	}
}

// addAll adds readings.
func (o *kindReadings) addAll(readings []stepfit.Reading) {
	if len(readings) > maxWaiting {
		o.summed().TakeIn(readings)
		return
	}
	for _, r := range readings {
		o.add(r)
	}
}

// each goes through the readings that wait.
func (o *kindReadings) each(visit func(stepfit.Reading)) {
	if o.waiting > 0 {
		visit(o.first)
	}
	for i := range o.waiting - 1 {
		visit(o.rest[i])
	}
}

// takeWaiting takes them into sums.
func (o *kindReadings) takeWaiting(s *stepfit.Sums) {
	if o.waiting <= fewWaiting {
		o.each(func(r stepfit.Reading) { s.Add(r.Load, r.Seconds) })
		return
	}
	readings := [maxWaiting]stepfit.Reading{o.first}
	copy(readings[1:], o.rest[:])
	s.TakeIn(readings[:o.waiting])
}

func (o *kindReadings) merge(s stepfit.Sums) { o.summed().Merge(s) }

func (o *kindReadings) summed() *stepfit.Sums {
	if o.sums == nil {
		o.sums = new(stepfit.Sums)
		*o.sums = noSums
	}
	return o.sums
}

// noSums is written over new ones: memory that is read before it is written is taken from the system twice,
// and the second time the other cores are stopped.
var noSums stepfit.Sums

// all is the sums of all readings.
func (o *kindReadings) all() stepfit.Sums {
	var s stepfit.Sums
	o.Into(&s)
	return s
}

// Into takes all readings into sums.
func (o *kindReadings) Into(s *stepfit.Sums) {
	if o.sums != nil {
		s.Merge(*o.sums)
	}
	o.takeWaiting(s)
}

// dateRange are the dates that readings have.
type dateRange struct {
	First, Last Day // NoDay without
	Undated     int32
}

var noDays = dateRange{First: NoDay, Last: NoDay}

// add adds a day, or one that is not known. Nothing in it goes by what the days before it were,
// which cannot be foreseen.
func (d *dateRange) add(day Day) {
	d.First = min(d.First-1, day-1) + 1 // less one NoDay is the last of all
	d.Last = max(d.Last, day)
	if day == NoDay {
		d.Undated++
	}
}

func (d *dateRange) merge(o dateRange) {
	d.First = min(d.First-1, o.First-1) + 1
	d.Last = max(d.Last, o.Last)
	d.Undated += o.Undated
}

// Tally is what some readings come to, without how they scatter.
type Tally struct {
	Readings int
	stepfit.Load
	Seconds float64
}

func (t *Tally) add(o *kindReadings) {
	if o.sums != nil {
		load, seconds := o.sums.Totals()
		t.Readings += o.sums.Readings
		t.Load, t.Seconds = t.Load.Plus(load), t.Seconds+seconds
	}
	t.Readings += int(o.waiting)
	o.each(func(r stepfit.Reading) { t.Load, t.Seconds = t.Load.Plus(r.Load), t.Seconds+r.Seconds })
}
