package stopwatch

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Of lines from elsewhere those that are events of the session are taken, and each other is
// named by its number; sent again nothing is new.
func TestTakeLines(t *testing.T) {
	dir := t.TempDir()
	s := openStopwatch(t, dir, newHand())
	var lines [][]byte
	for _, e := range script(begin, minute, start("sow"), stop) {
		line, err := json.Marshal(e)
		require.NoError(t, err)
		lines = append(lines, line)
	}
	other := []byte(strings.Replace(string(lines[0]), s.journal.session, "2026-03-03T0810-w2-b4b4", 1))
	sent := [][]byte{lines[0], []byte("{"), other, lines[1], lines[2]}
	for _, want := range []int{3, 0} {
		added, refused, err := s.Take(sent)
		require.NoError(t, err)
		assert.Equal(t, want, added)
		require.Len(t, refused, 2)
		assert.Equal(t, []int{2, 3}, []int{refused[0].Event, refused[1].Event})
		assert.Equal(t, errOtherSession.Error(), refused[1].Why)
	}
	held, state, problems := ReadFile(filepath.Join(dir, s.journal.session+Extension), nil)
	assert.Empty(t, problems)
	assert.Len(t, held.Events, 3)
	assert.Equal(t, "sow", state.Readings[0].Step)
	_, _, problems = ReadFile(dir, nil)
	assert.ErrorContains(t, problems, "is a directory, not a journal")
}

// An event with the ID of another is refused, wherever that one stands; the same one again is
// not, however it is written.
func TestTakeOfOneID(t *testing.T) {
	dir := t.TempDir()
	s := openStopwatch(t, dir, newHand())
	var lines [][]byte
	for _, e := range script(begin, minute, start("sow"), count(24)) {
		line, err := json.Marshal(e)
		require.NoError(t, err)
		lines = append(lines, line)
	}
	other := []byte(strings.Replace(string(lines[2]), `"count":24`, `"count":25`, 1))
	again := []byte(strings.Replace(string(lines[2]), `"count":24`, `"count":24.0`, 1))
	require.NotEqual(t, lines[2], other)
	for _, c := range []struct {
		sent    [][]byte
		added   int
		refused []Refused
	}{
		{[][]byte{lines[0], lines[1], lines[2], other, again}, 3, []Refused{{4, "another event has its id already, and counts"}}},
		{[][]byte{again, other}, 0, []Refused{{2, "another event has its id already, and counts"}}},
	} {
		added, refused, err := s.Take(c.sent)
		require.NoError(t, err)
		assert.Equal(t, c.added, added)
		assert.Equal(t, c.refused, refused)
	}
	assert.Equal(t, 24.0, s.State().Readings[0].Count)
	assert.Equal(t, 3, s.Len())
}
