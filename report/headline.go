package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Headline is a number that a person looks for first.
type Headline struct {
	Value string // rounded to what its range supports, at least or at most where a step lacks; "?" where it is not known
	Unit  string
	Range string // what is known of it, in words
}

// maxTied is how many ways have headlines where it cannot be told which is quickest.
const maxTied = 3

// Tied are the way in front and those of its crop that are not clearly slower; it alone
// where they are more than a reader takes in, or where nothing is known.
func (w Whole) Tied() []string {
	front := w.Front()
	ways := []string{front}
	for _, p := range answer.OfOneCrop(w.Compare.Pairs) {
		other := p.A
		if p.A == front {
			other = p.B
		} else if p.B != front {
			continue
		}
		if p.Low.Known && len(p.Gaps) == 0 && !p.Clear() {
			ways = append(ways, other)
		}
	}
	if len(ways) > maxTied || nothingKnown(w.Compare.Quickest()) {
		return ways[:1]
	}
	return ways
}

// Headlines are what is left of a head's price, what a head costs, its minutes and what
// an hour of work returns, of one way. Without a wage they are the minutes of a head and
// of a grow.
func (w Whole) Headlines(workflow string) []Headline {
	var h answer.Hours
	var c answer.GrowCost
	for i := range w.Compare.Workflows {
		if w.Compare.Workflows[i].Workflow == workflow {
			h, c = w.Compare.Workflows[i], w.Cost.Workflows[i]
		}
	}
	perHead := 60 / float64(w.Heads)
	u := words.UnitFor(h.Hours)
	if nothingKnown(h) {
		u = words.UnitFor(1)
	}
	currency := "money"
	if w.Cost.Currency != nil {
		currency = words.Show(*w.Cost.Currency)
	}
	cost := headline(c.PerHead, c.PerHeadLow, c.PerHeadHigh, currency+" a head costs", "≥ ", c.Gaps)
	left := headline(c.LeftPerHead, c.LeftPerHeadLow, c.LeftPerHeadHigh, currency+" left a head", "≤ ", c.Gaps)
	hour := headline(c.ReturnPerHour, c.ReturnPerHour, c.ReturnPerHour, currency+" an hour returns", "≤ ", c.Gaps)
	grow := headline(study.Known(h.Hours*u.PerHour), h.Low.Times(u.PerHour), h.High.Times(u.PerHour),
		fmt.Sprintf("%s a grow of %d", u.Name(), w.Heads), "≥ ", h.Gaps)
	head := headline(study.Known(h.MinutesPerHead), h.Low.Times(perHead), h.High.Times(perHead), "minutes a head", "≥ ", h.Gaps)
	var lines []Headline
	switch {
	case !c.PerHead.Known:
		lines = []Headline{head, grow, {Value: "?", Unit: cost.Unit, Range: "the study gives no wage"}}
	case c.LeftPerHead.Known:
		lines = []Headline{left, cost, head, hour}
	default:
		lines = []Headline{cost, head, grow}
	}
	if !h.Gives.ByHead && c.PerUnit.Known {
		unit := headline(c.PerUnit, c.PerUnitLow, c.PerUnitHigh, currency+" "+aUnit(c.Unit)+" that is sold costs", "≥ ", c.Gaps)
		lines = append([]Headline{unit}, lines...)
	}
	if nothingKnown(h) {
		for i := range lines {
			lines[i] = Headline{Value: "?", Unit: lines[i].Unit, Range: "nothing was timed or judged yet"}
		}
	}
	return lines
}

// headline is a number with its range; bound stands before one that lacks a step.
func headline(x, low, high study.Maybe, unit, bound string, gaps []string) Headline {
	line := Headline{Unit: unit}
	switch {
	case !low.Known:
		line.Value, line.Range = words.Fixed(x.Value, enough(words.PlainDecimals(x.Value), x)), "how sure is not known yet"
	case low.Value == high.Value:
		line.Value = words.Fixed(x.Value, enough(words.PlainDecimals(x.Value), x))
	default:
		d := enough(words.Decimals((high.Value-low.Value)/2), x, low, high)
		line.Value = words.Fixed(x.Value, d)
		line.Range = words.Fixed(low.Value, d) + " to " + words.Fixed(high.Value, d)
	}
	if len(gaps) > 0 {
		line.Value = bound + line.Value
	}
	return line
}
