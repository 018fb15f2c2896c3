package answer

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// A filter that leaves readings out is told of, and one that leaves none as well.
func TestChosenReadings(t *testing.T) {
	day := func(d int) time.Time { return time.Date(2026, 9, d, 0, 0, 0, 0, time.UTC) }
	var readings []study.Reading
	for i := range 4 {
		r := aReading("pack", 1, 60)
		r.Date, r.Grow, r.Worker = day(i+1), "b1", "k1"
		readings = append(readings, r)
	}
	readings[3].Grow, readings[3].Worker = "b2", "k2"
	for _, c := range []struct {
		filter condense.Filter
		want   string
		none   bool
	}{
		{condense.Filter{}, "", false},
		{condense.Filter{Since: day(3)}, "Only readings of days from 2026-09-03 on count here, 2 readings: whatever else was timed is left out.", false},
		{condense.Filter{Until: day(1)}, "Only readings of days up to 2026-09-01 count here, 1 reading: whatever else was timed is left out.", false},
		{condense.Filter{Since: day(2), Until: day(4), Grow: "b1", Worker: "k1"},
			`Only readings of days from 2026-09-02 to 2026-09-04, of grow "b1" and by worker "k1" count here, 2 readings: whatever else was timed is left out.`, false},
		{condense.Filter{Since: day(9)}, "No reading that counts is of days from 2026-09-09 on: whatever else was timed is left out.", true},
	} {
		text, none := Fit(oneStep(study.Step{}), readings, Options{Filter: c.filter}).ChosenReadings()
		assert.Equal(t, c.want, text)
		assert.Equal(t, c.none, none)
	}
}
