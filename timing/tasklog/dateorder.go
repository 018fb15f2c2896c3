package tasklog

import (
	"fmt"

	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/words"
)

// DateOrder is the order of day and month in dates such as 3/4/2026 and 3-4-2026.
type DateOrder struct {
	Order notation.Order
	Shown string      // the date that shows it, "" where it was said
	At    study.Place // of that
}

// note says how the dates of a log are read, where its own dates show it.
func (o DateOrder) note() string {
	way := "day first"
	if o.Order == notation.MonthFirst {
		way = "month first"
	}
	return fmt.Sprintf("dates are read %s, as %s in line %d shows", way, words.Quote(o.Shown), o.At.Line)
}

// noOrder is the key of dates whose order of day and month is not known.
const noOrder = "order"

// writeOrder is what to do about them.
func writeOrder() string {
	return fmt.Sprintf("write in study.toml, under [log]: dates = %q or dates = %q", notation.DayFirst.Pattern(), notation.MonthFirst.Pattern())
}
