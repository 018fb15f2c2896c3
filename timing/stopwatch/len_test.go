package stopwatch

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHeld(t *testing.T) {
	h := newHand()
	s := openStopwatch(t, t.TempDir(), h)
	assert.Zero(t, s.Len())
	require.NoError(t, s.Press(begin, start("sow")))
	_, err := s.take(script(begin, minute, start("sow"), stop))
	require.NoError(t, err)
	assert.Equal(t, 5, s.Len())
	_, err = s.take(script(begin, minute, start("sow"), stop))
	require.NoError(t, err)
	assert.Equal(t, 5, s.Len(), "each event once")
}
