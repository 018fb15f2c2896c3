package folder

import (
	"fmt"
	"hash/maphash"
	"math"
	"math/bits"
	"sync/atomic"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/words"
)

// tally is how many readings of a log count, and a sum of what each says: the same for logs that
// hold the same, in whatever order and kind of file.
type tally struct{ readings, sum atomic.Uint64 }

// tallying is the seed of all sums of a run.
var tallying = maphash.MakeSeed()

// take takes in a batch of the log. It may be called for several at once.
func (t *tally) take(b *condense.Batch) {
	where, what, how := make([]uint64, len(b.Where)), make([]uint64, len(b.What)), make([]uint64, len(b.How))
	for i, w := range b.Where {
		where[i] = hashed(b.Names[condense.GrowNames][w.Grow]) + 3*hashed(b.Names[condense.WorkflowNames][w.Workflow])
	}
	counts := make([]uint64, len(b.What)) // all bits of what counts, else none
	for i, w := range b.What {
		what[i] = 5*hashed(b.Names[condense.StepNames][w.Step]) + 7*hashed(b.Names[condense.WorkerNames][w.Worker])
		if !w.Voided {
			counts[i] = math.MaxUint64
		}
	}
	for i, h := range b.How {
		how[i] = maphash.Comparable(tallying, h)
	}
	const odd = 0x9e3779b97f4a7c15 // of bits without a pattern
	var sum uint64
	rows := &b.Rows
	n := rows.Len()
	days, numbers, seconds, wheres, hows := rows.Day[:n], rows.Count[:n], rows.Seconds[:n], rows.Where[:n], rows.How[:n]
	for i, is := range rows.What[:n] {
		names := where[wheres[i]] + what[is] + how[hows[i]] + uint64(days[i])*odd
		high, low := bits.Mul64(names^math.Float64bits(numbers[i]), math.Float64bits(seconds[i])^odd)
		sum += (high ^ low) & counts[is]
	}
	t.readings.Add(uint64(n - len(b.Voids)))
	t.sum.Add(sum)
}

func hashed(name string) uint64 { return maphash.String(tallying, name) }

// lookAtTwins has every answer say which logs hold the same readings as another: all of them
// count twice.
func (o *opener) lookAtTwins() {
	type held struct{ readings, sum uint64 }
	first := map[held]*logFile{}
	for _, l := range o.opened.logs {
		has := held{l.tally.readings.Load(), l.tally.sum.Load()}
		other, again := first[has]
		switch {
		case has.readings < minTwins:
		case !again:
			first[has] = l
		default:
			text := fmt.Sprintf("has the same %d readings as %s, and all of them count twice: take one of the two away",
				has.readings, words.Show(o.opened.called(other.path)))
			o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: study.Place{File: l.path}, Text: text})
			o.opened.Cautions = append(o.opened.Cautions, words.Show(o.opened.called(l.path))+" "+text)
		}
	}
}

// minTwins is how many readings two logs must have in common to look like one: a single one may
// well recur.
const minTwins = 2
