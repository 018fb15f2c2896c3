package condense

import "headhours/timing/stepfit"

// digest is what the readings of a batch come to: work that needs little of batches
// before it, and so can be done for several at once.
type digest struct {
	of     *Gathering
	joined bool           // they are not told apart by grow and worker
	parts  []part         // in order of first appearance
	sums   []stepfit.Sums // of those that have not few rows
	keep   []uint32       // rows that are to be kept, perhaps, in order

	setups, counts, times []float64 // of the rows, by part
}

// part is the readings of a batch that are of one step and kind, or those of a step that
// are voided. Its names are indices of its batch's.
type part struct {
	step, workflow, grow, worker int32
	period                       int32 // how many of the days on which steps were changed are past
	voided                       bool
	dateRange
	rows   int32
	judged int32 // of them
	from   int32 // in what is by part
	sums   int32 // the index of the digest's, where there are not few rows
}

func (d *digest) rowsOf(p *part) (setups, counts, times []float64) {
	to := p.from + p.rows
	return d.setups[p.from:to], d.counts[p.from:to], d.times[p.from:to]
}

// takeInto takes the readings of a part into those of a kind.
func (d *digest) takeInto(o *kindReadings, p *part) {
	o.dateRange.merge(p.dateRange)
	if p.rows > maxFew {
		o.merge(d.sums[p.sums])
		return
	}
	setups, counts, times := d.rowsOf(p)
	for i, count := range counts {
		o.add(stepfit.Reading{Load: stepfit.Load{Setups: setups[i], Count: count}, Seconds: times[i]})
	}
}
