package stopwatch

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Last names what an undo then takes back, press after press.
func TestLast(t *testing.T) {
	s := openStopwatch(t, t.TempDir(), newHand())
	_, some := s.Last()
	assert.False(t, some)
	require.NoError(t, s.Press(begin, start("sow"), count(4), count(40)))
	fault(s.journal, faulty{room: 0})
	require.ErrorIs(t, s.Press(next("thin")), ErrUnsaved)
	for _, want := range []EventKind{Next, Count, Count, Start, Begin} {
		last, some := s.Last()
		require.True(t, some)
		assert.Equal(t, want, last.Kind)
		require.ErrorIs(t, s.Press(Event{Kind: Undo}), ErrUnsaved)
	}
	_, some = s.Last()
	assert.False(t, some)
}
