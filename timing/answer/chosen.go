package answer

import (
	"fmt"
	"time"

	"headhours/timing/condense"
	"headhours/timing/words"
)

// ChosenReadings says which readings alone count where a filter leaves some out, and whether
// it leaves none; "" without a filter.
func (m *Models) ChosenReadings() (text string, none bool) {
	if m.Filter == (condense.Filter{}) {
		return "", false
	}
	n := 0
	for i := range m.Steps {
		n += m.Steps[i].Readings
	}
	if n == 0 {
		return fmt.Sprintf("No reading that counts is %s: whatever else was timed is left out.", chosenWords(m.Filter)), true
	}
	return fmt.Sprintf("Only readings %s count here, %s: whatever else was timed is left out.", chosenWords(m.Filter), words.Many(n, "reading")), false
}

// chosenWords say which readings a filter takes.
func chosenWords(f condense.Filter) string {
	var parts []string
	switch since, until := f.Since.Format(time.DateOnly), f.Until.Format(time.DateOnly); {
	case !f.Since.IsZero() && !f.Until.IsZero():
		parts = append(parts, fmt.Sprintf("of days from %s to %s", since, until))
	case !f.Since.IsZero():
		parts = append(parts, fmt.Sprintf("of days from %s on", since))
	case !f.Until.IsZero():
		parts = append(parts, fmt.Sprintf("of days up to %s", until))
	}
	if f.Grow != "" {
		parts = append(parts, "of grow "+words.Quote(f.Grow))
	}
	if f.Worker != "" {
		parts = append(parts, "by worker "+words.Quote(f.Worker))
	}
	return words.And(parts)
}
