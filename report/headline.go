package report

import (
	"fmt"

	"headhours/timing"
)

// Headline is a number that a person looks for first.
type Headline struct {
	Value string // rounded to what its range supports; "?" where it is not known
	Unit  string
	Range string // what is known of it, in words
	Least bool   // it lacks a step: at least so much
	Most  bool   // likewise, and so at most so much
}

// Headlines are what a head costs, what an hour of work returns, and the time of a grow
// and of a head, of one way of working. Money comes first where there is a wage.
func (w Whole) Headlines(workflow string) []Headline {
	var h timing.Hours
	var c timing.GrowCost
	for i := range w.Compare.Workflows {
		if w.Compare.Workflows[i].Workflow == workflow {
			h, c = w.Compare.Workflows[i], w.Cost.Workflows[i]
		}
	}
	perHead := 60 / float64(w.Heads)
	u := unitFor(h.Hours)
	currency := "money"
	if w.Cost.Currency != nil {
		currency = show(*w.Cost.Currency)
	}
	cost := headline(c.PerHead, c.PerHeadLow, c.PerHeadHigh, currency+" a head")
	grow := headline(timing.Known(h.Hours*u.perHour), h.Low.Times(u.perHour), h.High.Times(u.perHour),
		fmt.Sprintf("%s a grow of %d", u.many, w.Heads))
	head := headline(timing.Known(h.MinutesPerHead), h.Low.Times(perHead), h.High.Times(perHead), "minutes a head")
	cost.Least, grow.Least, head.Least = len(c.Gaps) > 0, len(h.Gaps) > 0, len(h.Gaps) > 0
	lines := []Headline{cost, grow, head}
	if c.ReturnPerHour.Known {
		hour := Headline{Value: fixed(c.ReturnPerHour.Value, 2), Unit: currency + " returned by an hour", Most: len(c.Gaps) > 0}
		lines = []Headline{cost, hour, grow, head}
	}
	if !h.Gives.ByHead && c.PerUnit.Known {
		unit := headline(c.PerUnit, c.PerUnitLow, c.PerUnitHigh, currency+" "+aUnit(c.Unit)+" that is sold")
		unit.Least = len(c.Gaps) > 0
		lines = append([]Headline{unit}, lines...)
	}
	if nothingKnown(h) {
		for i := range lines {
			lines[i] = Headline{Value: "?", Unit: lines[i].Unit, Range: "nothing was timed or judged yet"}
		}
	}
	if !c.PerHead.Known { // nor is that of a unit
		lines[0] = Headline{Value: "?", Unit: lines[0].Unit, Range: "the study gives no wage"}
		lines = append(lines[1:], lines[0])
	}
	return lines
}

func headline(x, low, high timing.Maybe, unit string) Headline {
	line := Headline{Unit: unit}
	switch {
	case !low.Known:
		line.Value, line.Range = fixed(x.Value, enough(plainDecimals(x.Value), x)), "how sure is not known yet"
	case low.Value == high.Value:
		line.Value = fixed(x.Value, enough(plainDecimals(x.Value), x))
	default:
		d := enough(decimals((high.Value-low.Value)/2), x, low, high)
		line.Value = fixed(x.Value, d)
		line.Range = fixed(low.Value, d) + " to " + fixed(high.Value, d)
	}
	return line
}
