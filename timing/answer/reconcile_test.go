package answer

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"headhours/timing/study"
)

func TestReconcile(t *testing.T) {
	day := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	at := func(worker, what string, start, end float64) study.Stretch {
		return study.Stretch{Place: study.Place{File: "a.csv", Line: 2}, What: what, Worker: worker, Date: day, Start: start * 60, End: end * 60}
	}
	got := Reconcile([]study.Stretch{
		at("w1", "thin", 530, 550), at("w1", "sow", 500, 520), at("w1", "interruption", 520, 525),
		at("w2", "sow", 500, 520), at("w2", "thin", 515, 530),
		at("w1", "look", 900, 901),
		at("w3", "sow", 500, 520), at("w3", "look", 505, 506.5), at("w3", "thin", 520, 530),
	})
	assert.Len(t, got, 4)
	assert.Equal(t, Reconciliation{Worker: "w1", Date: "2026-03-02", Minutes: 50, Named: 0.9, Nameless: 5, Overlaps: []string{}}, got[0])
	assert.True(t, got[0].Unnamed())
	assert.Equal(t, []string{"sow (a.csv:2) and thin (a.csv:2) overlap by 5 minutes"}, got[2].Overlaps)
	assert.False(t, got[2].Unnamed())
	assert.Equal(t, 1.0, got[1].Minutes)
	assert.Equal(t, 30.0, got[3].Minutes)
	assert.Equal(t, []string{"sow (a.csv:2) and look (a.csv:2) overlap by 2 minutes"}, got[3].Overlaps)
}

func TestNamedCrossesMidnight(t *testing.T) {
	r := aReading("sow", 10, 60)
	_, ok := r.Named()
	assert.False(t, ok)
	r.Date, r.Start, r.End = time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), study.Known(86000), study.Known(400)
	n, ok := r.Named()
	assert.True(t, ok)
	assert.Equal(t, 86800.0, n.End)
}
