package condense

import "headhours/timing/stepfit"

// kindReadings is all readings of a step of one kind. There are many kinds, of most of which
// there are few readings: those take less room than their sums.
type kindReadings struct {
	sums  *stepfit.Sums   // of all, the few among them; nil while those are all
	first stepfit.Reading // of the few
	rest  *[maxFew - 1]stepfit.Reading
	few   int32 // how many those are
	kind  uint32
	dateRange
}

// maxFew is how many readings are sooner taken in one by one than together.
const maxFew = 3

func (o *kindReadings) add(r stepfit.Reading) {
	switch {
	case o.sums != nil || o.few == maxFew:
		o.summed().Add(r.Load, r.Seconds)
		return
	case o.few == 0:
		o.first = r
	default:
		if o.rest == nil {
			o.rest = new([maxFew - 1]stepfit.Reading)
		}
		o.rest[o.few-1] = r
	}
	o.few++
}

// each goes through the few readings.
func (o *kindReadings) each(visit func(stepfit.Reading)) {
	if o.few > 0 {
		visit(o.first)
	}
	for i := range o.few - 1 {
		visit(o.rest[i])
	}
}

func (o *kindReadings) merge(s stepfit.Sums) { o.summed().Merge(s) }

func (o *kindReadings) summed() *stepfit.Sums {
	if o.sums == nil {
		all := o.all()
		o.sums = &all
	}
	return o.sums
}

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
		return
	}
	o.each(func(r stepfit.Reading) { s.Add(r.Load, r.Seconds) })
}

// dateRange are the dates that readings have.
type dateRange struct {
	First, Last Day // NoDay without
	Undated     int32
}

var noDays = dateRange{First: NoDay, Last: NoDay}

func (d *dateRange) add(day Day) {
	switch {
	case day == NoDay:
		d.Undated++
	case d.First == NoDay || day < d.First:
		d.First = day
	}
	d.Last = max(d.Last, day)
}

func (d *dateRange) merge(o dateRange) {
	d.Undated += o.Undated
	if o.First != NoDay {
		d.add(o.First)
		d.add(o.Last)
	}
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
		return
	}
	t.Readings += int(o.few)
	o.each(func(r stepfit.Reading) { t.Load, t.Seconds = t.Load.Plus(r.Load), t.Seconds+r.Seconds })
}
