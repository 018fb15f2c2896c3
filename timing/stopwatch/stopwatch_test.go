package stopwatch

import (
	"io/fs"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func openStopwatch(t *testing.T, dir string, h *hand) *Stopwatch {
	t.Helper()
	s, err := Open(dir, session, h.now)
	require.NoError(t, err)
	t.Cleanup(func() { s.Close() })
	return s
}

func TestPress(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	s := openStopwatch(t, dir, h)
	assert.Empty(t, s.State().Session.Name)
	require.NoError(t, s.Press(begin))
	require.NoError(t, s.Press(start("sow")))
	h.run(minute)
	assert.Equal(t, minute, s.State().Elapsed(h.now()))
	require.NoError(t, s.Press(count(40), next("thin")), "two presses in one")
	h.run(10 * second)
	require.NoError(t, s.Press(stop, count(4), end))
	assert.Equal(t, []string{"sow 60s of 40", "thin 10s of 4"}, told(s.State()))
	assert.Equal(t, session+".jsonl:4", s.State().Readings[1].Journal)
	assert.Zero(t, s.Unsaved())
	require.NoError(t, s.Close())

	again := openStopwatch(t, dir, h)
	assert.Equal(t, told(s.State()), told(again.State()))
	for i, e := range again.journal.events {
		assert.Equal(t, int64(i+1), e.Seq)
		assert.NotEmpty(t, e.ID)
	}
}

// A session that was broken off goes on, from wall time, with the same numbers.
func TestBrokenOff(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	s := openStopwatch(t, dir, h)
	require.NoError(t, s.Press(begin, start("sow")))
	h.run(minute)
	h.Boot, h.Mono = "b2", 3
	h.run(4 * minute)
	again := openStopwatch(t, dir, h)
	r, runs := again.State().Running()
	assert.True(t, runs)
	assert.Equal(t, "sow", r.Step)
	assert.Equal(t, 5*minute, again.State().Elapsed(h.now()))
	h.run(second)
	require.NoError(t, again.Press(stop))
	assert.Equal(t, []string{"sow 301s"}, told(again.State()))
	assert.Equal(t, int64(3), again.journal.events[2].Seq)
	assert.Empty(t, again.State().Warnings)
}

// What is wrong or does not fit is refused, and nothing of it is kept.
func TestRefusedPress(t *testing.T) {
	h := newHand()
	s := openStopwatch(t, t.TempDir(), h)
	require.NoError(t, s.Press(begin))
	for _, c := range []struct {
		events []Event
		want   string
	}{
		{[]Event{stop}, "stop: nothing runs"},
		{[]Event{start("sow"), resume}, "resume: nothing is paused"},
		{[]Event{{Kind: Undo, Of: "nothing"}}, `undo: no event before it has the id "nothing"`},
		{[]Event{{Kind: Start}}, `start without "step": want one`},
		{[]Event{{Kind: "lunch"}}, `kind "lunch": want one of begin, start, next, lot, pause, resume, count, setups, people, note, void, undo, change, amend, stop, end`},
		{[]Event{begin}, "begin: the session has begun already"},
	} {
		assert.EqualError(t, s.Press(c.events...), c.want)
		assert.Empty(t, s.State().Readings)
		assert.Empty(t, s.State().Warnings)
	}
	require.NoError(t, s.Press(start("sow")))
	assert.Len(t, s.journal.events, 2)
}

// While the disk is full the work goes on in memory, and all of it is written as
// soon as there is room.
func TestFullDisk(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	s := openStopwatch(t, dir, h)
	require.NoError(t, s.Press(begin))
	fault(s.journal, faulty{room: 20})
	err := s.Press(start("sow"))
	require.ErrorIs(t, err, ErrUnsaved)
	require.ErrorIs(t, err, syscall.ENOSPC)
	assert.EqualError(t, err, "not saved yet: "+s.journal.path+" cannot be written: the disk is full, make room on it (no space left on device)")
	h.run(minute)
	assert.Equal(t, minute, s.State().Elapsed(h.now()))
	require.ErrorIs(t, s.Press(count(40), next("thin")), ErrUnsaved)
	assert.Equal(t, 3, s.Unsaved())
	require.ErrorIs(t, s.Save(), ErrUnsaved)
	assert.EqualError(t, s.Press(resume), "resume: nothing is paused")
	assert.Equal(t, []string{"sow 60s of 40", "thin 0s runs"}, told(s.State()))
	assert.Empty(t, s.State().Readings[0].Journal, "it stands in no journal yet")

	s.journal.open = openFile
	require.NoError(t, s.Save())
	assert.Zero(t, s.Unsaved())
	h.run(second)
	require.NoError(t, s.Press(stop))
	assert.Equal(t, session+".jsonl:2", s.State().Readings[0].Journal)
	want := s.State()
	again := openStopwatch(t, dir, h)
	assert.Equal(t, []string{"sow 60s of 40", "thin 1s"}, told(again.State()))
	assert.Equal(t, told(want), told(again.State()))
}

// A folder that cannot be written to from the start does not stop the watch.
func TestFolderThatCannotBeMade(t *testing.T) {
	h := newHand()
	s := openStopwatch(t, t.TempDir(), h)
	s.journal.open = func(path string) (disk, error) { return nil, &fs.PathError{Op: "open", Path: path, Err: syscall.EROFS} }
	require.ErrorIs(t, s.Press(begin, start("sow")), ErrUnsaved)
	h.run(minute)
	require.ErrorIs(t, s.Press(stop, count(4)), ErrUnsaved)
	assert.ErrorIs(t, s.Close(), ErrUnsaved)
	s.journal.open = openFile
	require.NoError(t, s.Close())
	assert.Equal(t, []string{"sow 60s of 4"}, told(Fold("", openJournal(t, s.journal.path[:len(s.journal.path)-len(session+Extension)]).events)))
}

// A phone's events come late, out of order and twice; what does not fit yet is
// kept, and what fails is not.
func TestTake(t *testing.T) {
	dir := t.TempDir()
	s := openStopwatch(t, dir, newHand())
	events := script(begin, start("sow"), minute, count(40), stop)
	added, err := s.take(events[2:])
	require.NoError(t, err)
	assert.Equal(t, 2, added)
	assert.Empty(t, s.State().Readings)
	assert.NotEmpty(t, s.State().Warnings)
	added, err = s.take(events)
	require.NoError(t, err)
	assert.Equal(t, 2, added)
	assert.Equal(t, []string{"sow 60s of 40"}, told(s.State()))
	assert.Empty(t, s.State().Warnings)
	assert.Equal(t, session+".jsonl:4", s.State().Readings[0].Journal, "the number is that of the line, wherever it came to stand")

	fault(s.journal, faulty{room: 20})
	late := script(begin, start("sow"), minute, count(40), stop, time.Second, end)[4:]
	_, err = s.take(late)
	assert.ErrorIs(t, err, syscall.ENOSPC)
	assert.True(t, s.State().Session.Ended.IsZero())
	assert.Zero(t, s.Unsaved())
}

func TestTornLineIsSaid(t *testing.T) {
	dir := t.TempDir()
	s := openStopwatch(t, dir, newHand())
	require.NoError(t, s.Press(begin, start("sow")))
	require.NoError(t, s.Close())
	f, err := openFile(s.journal.path)
	require.NoError(t, err)
	_, err = f.Write([]byte(`{"session":`))
	require.NoError(t, err)
	require.NoError(t, f.Close())
	again := openStopwatch(t, dir, newHand())
	require.Len(t, again.State().Warnings, 1)
	assert.Contains(t, again.State().Warnings[0].Error(), session+".jsonl:3: torn when the recorder died")
	assert.Equal(t, []string{"sow 0s runs"}, told(again.State()))
}
