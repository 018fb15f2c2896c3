package tasklog

import (
	"errors"
	"math"
	"slices"
	"strings"

	"headhours/timing/study"
)

var errTotals = errors.New("is blank, and the row looks like one of totals: take it out")

// IsTotal says whether a text is what stands at the head of a row of totals rather than a
// name.
func IsTotal(text string) bool {
	switch strings.ToLower(strings.TrimRight(strings.TrimSpace(text), ": ")) {
	case "total", "totals", "grand total", "subtotal", "sum", "sums":
		return true
	}
	return false
}

// noStep says what a row without a step lacks, or that it is one of totals.
func (r *reader) noStep() error {
	if len(r.problems) <= study.MaxProblems && (slices.ContainsFunc(r.record, IsTotal) || r.isSum()) {
		return errTotals
	}
	return errNoStep
}

// isSum says whether the count or the time of the row in hand is the sum of those above it, as
// far as they are at hand.
func (r *reader) isSum() bool {
	above := r.collected
	if r.sumAbove != nil {
		above = r.sumAbove
	}
	n, counts, seconds := above()
	if n < 2 {
		return false
	}
	count, _, err := r.figures[countColumn].of(r.cell(countColumn))
	if err == nil && isAbout(count, counts) {
		return true
	}
	time, _, err := r.figures[timeColumn].of(r.cell(timeColumn))
	return err == nil && isAbout(time, seconds)
}

func isAbout(x, sum float64) bool { return x > 0 && math.Abs(x-sum) <= 1e-6*sum }

// collected sums the readings of the log so far.
func (r *reader) collected() (n int, counts, seconds float64) {
	for i := range r.log.Readings {
		counts += r.log.Readings[i].Count
		seconds += r.log.Readings[i].Seconds
	}
	return len(r.log.Readings), counts, seconds
}

// taken sums the readings of the chunk so far.
func (p *parser) taken() (n int, counts, seconds float64) {
	rows := &p.parsed.batch.Rows
	for i := range rows.Len() {
		counts += rows.Count[i]
		seconds += rows.Seconds[i]
	}
	return rows.Len(), counts, seconds
}
