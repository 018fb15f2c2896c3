package condense

import "headhours/timing/stepfit"

// digest is what the readings of a batch come to: work that needs little of batches
// before it, and so can be done for several at once.
type digest struct {
	of     *Gathering
	joined bool           // they are not told apart by grow and worker
	parts  []part         // in order of first appearance
	sums   []stepfit.Sums // of those that have not few rows
	keep   []farRow       // that are to be kept, perhaps, in order

	readings []stepfit.Reading // of the rows, by part
}

// farRow is a row that may be far off.
type farRow struct {
	part    int32
	row     uint32 // see Brief
	reading stepfit.Reading
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

// add adds a row.
func (p *part) add(day Day) {
	p.rows++
	p.dateRange.add(day)
}

func (d *digest) readingsOf(p *part) []stepfit.Reading { return d.readings[p.from : p.from+p.rows] }

// takeInto takes the readings of a part to those of a kind, and says how many of them are loose now.
func (d *digest) takeInto(k *readingsByKind, kind uint32, p *part) (more int) {
	place := k.placeOf(kind)
	if p.rows <= maxFew {
		k.loose.add(place, d.readingsOf(p), p.dateRange)
		return int(p.rows)
	}
	o := k.inOrder(place)
	o.dateRange.merge(p.dateRange)
	o.merge(d.sums[p.sums])
	return 0
}
