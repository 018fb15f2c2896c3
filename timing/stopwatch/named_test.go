package stopwatch

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Held against the wall clock, what a session names leaves what it does not.
func TestNamed(t *testing.T) {
	s := fold(t, begin, minute, start("sow"), 2*minute, pause, 4*minute, resume, 8*minute, pause, 16*minute, stop, 32*minute, start("thin"), 64*minute, end)
	var got []string
	for _, n := range s.Named() {
		assert.Equal(t, session, n.Session)
		assert.Equal(t, "w1", n.Worker)
		got = append(got, n.What)
	}
	assert.Equal(t, []string{"session", "sow", "thin", "interruption", "session"}, got)
	r := answer.Reconcile(s.Named())
	require.Len(t, r, 1)
	assert.Equal(t, 127.0, r[0].Minutes)
	assert.InDelta(t, s.Unnamed.Minutes(), r[0].Nameless, 1e-9)
	assert.InDelta(t, 33, r[0].Nameless, 1e-9)
	assert.Empty(t, r[0].Overlaps)

	// A judged end within a pause leaves of it what lies behind.
	s = fold(t, begin, start("sow"), minute, pause, 2*minute, resume, minute, stop, Event{Kind: Amend, End: at("08:12:00")}, end)
	r = answer.Reconcile(s.Named())
	assert.Equal(t, 4.0, r[0].Minutes)
	assert.InDelta(t, 1, r[0].Nameless, 1e-9)
	assert.Empty(t, r[0].Overlaps)
	assert.Equal(t, 60.0, s.Named()[2].End-s.Named()[2].Start)
	assert.Empty(t, Fold("", nil).Named())
}
