package stopwatch

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func openJournal(t *testing.T, dir string) *Journal {
	t.Helper()
	j, err := openToAppend(dir, session)
	require.NoError(t, err)
	t.Cleanup(func() { j.close() })
	return j
}

func TestJournal(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "study", "journal")
	j := openJournal(t, dir)
	assert.NoDirExists(t, dir, "nothing is made before something is pressed")
	events := everyKind()
	added, err := j.append(events[:1])
	require.NoError(t, err)
	assert.Equal(t, 1, added)
	added, err = j.append(append(events[1:], events[0], events[1]))
	require.NoError(t, err)
	assert.Equal(t, len(events)-1, added)
	added, err = j.append(events)
	require.NoError(t, err)
	assert.Zero(t, added)
	assert.Equal(t, events, j.events)
	text, err := os.ReadFile(j.path)
	require.NoError(t, err)
	assert.Equal(t, journalText(t, events), string(text))

	again := openJournal(t, dir)
	assert.Equal(t, events, again.events)
	added, err = again.append(events[2:])
	require.NoError(t, err)
	assert.Zero(t, added)
}

func TestJournalOfABadName(t *testing.T) {
	for _, name := range []string{"", "x", "../2026-03-02T0810-w1-a3f9", "2026-03-02T0810-w1-a3f9/x"} {
		_, err := openToAppend(t.TempDir(), name)
		assert.ErrorContains(t, err, "want a name such as 2026-03-02T0810-w1-a3f9")
	}
}

// A batch with a wrong event in it is refused as a whole.
func TestAppendIsWholeOrNothing(t *testing.T) {
	dir := t.TempDir()
	j := openJournal(t, dir)
	events := script(begin, start("sow"))
	bad, other, long := events[1], events[1], events[1]
	bad.Step = ""
	other.Session = "2026-03-02T0810-w2-0000"
	long.Text = strings.Repeat("x", maxLine)
	for _, c := range []struct {
		event Event
		want  string
	}{
		{bad, `event 2 of the batch: start without "step": want one`},
		{other, `event 2 of the batch: session "2026-03-02T0810-w2-0000": want that of the journal, "` + session + `"`},
		{long, `event 2 of the batch: longer than 65536 bytes`},
	} {
		added, err := j.append([]Event{events[0], c.event})
		assert.EqualError(t, err, c.want)
		assert.Zero(t, added)
	}
	assert.NoFileExists(t, j.path)
	assert.Empty(t, j.events)
}

// Cut at every byte, as a recorder that dies or a power cut may leave it, a
// journal keeps every event that was acknowledged by then, and can be carried on.
func TestCutAtEveryByte(t *testing.T) {
	t.Parallel() // it waits for the disk
	events := everyKind()
	events[2].Text = "tänk på ↑ 🥬"
	whole := journalText(t, events[:3])
	more := events[7]
	var ends []int // of the lines, their line ends left out
	for i, c := range whole {
		if c == '\n' {
			ends = append(ends, i)
		}
	}
	dir := t.TempDir()
	path := filepath.Join(dir, session+Extension)
	for cut := range len(whole) + 1 {
		kept := 0 // a line is whole without its line end
		for kept < len(ends) && ends[kept] <= cut {
			kept++
		}
		require.NoError(t, os.WriteFile(path, []byte(whole[:cut]), 0o644))
		os.Remove(path + Torn)

		j, err := openToAppend(dir, session)
		require.NoError(t, err, cut)
		require.Equal(t, events[:kept], append([]Event{}, j.events...), cut)
		rest := whole[:cut]
		if kept > 0 {
			rest = strings.TrimPrefix(whole[ends[kept-1]:cut], "\n")
		}
		require.Len(t, j.warned, min(1, len(rest)), "a torn line is warned of")

		added, err := j.append([]Event{more})
		require.NoError(t, err, cut)
		require.Equal(t, 1, added)
		require.NoError(t, j.close())
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, journalText(t, append(slices.Clone(events[:kept]), more)), string(text))
		again, err := openToAppend(dir, session)
		require.NoError(t, err)
		require.Empty(t, again.warned)
		require.Len(t, again.events, kept+1)
		require.Equal(t, kept+1, again.events[kept].Line)
		if aside, err := os.ReadFile(path + Torn); rest == "" {
			require.ErrorIs(t, err, fs.ErrNotExist)
		} else {
			require.Equal(t, rest+"\n", string(aside), "and kept aside")
		}
	}
}

// Ten thousand events in batches, posted twice over and out of order, are ten
// thousand in the journal, and the session that they are in order.
func TestTenThousandEventsTwiceOver(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	events := wild(r, 10_000)
	post := slices.Concat(events, events)
	r.Shuffle(len(post), func(i, j int) { post[i], post[j] = post[j], post[i] })
	dir := t.TempDir()
	s, err := Open(dir, session, nil)
	require.NoError(t, err)
	total := 0
	for batch := range slices.Chunk(post, 250) {
		added, err := s.take(batch)
		require.NoError(t, err)
		total += added
	}
	require.NoError(t, s.Close())
	assert.Equal(t, 10_000, total)
	j := openJournal(t, dir)
	require.Len(t, j.events, 10_000)
	assert.Equal(t, 10_000, strings.Count(readFile(t, j.path), "\n"))
	told := inOrder(j.events)
	for i := range told {
		told[i].Line = events[i].Line
	}
	assert.Equal(t, events, told)
	assert.Equal(t, Fold(name, events), Fold(name, told))
}

func readFile(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// faulty is a file of a disk with so much room left, and other faults.
type faulty struct {
	disk
	room               int
	sync, cut          error
	syncs, cuts, wrote *int
}

func (f faulty) Write(text []byte) (int, error) {
	*f.wrote++
	if len(text) > f.room {
		n, _ := f.disk.Write(text[:f.room])
		return n, &fs.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}
	}
	return f.disk.Write(text)
}

func (f faulty) Sync() error {
	*f.syncs++
	if f.sync != nil {
		return f.sync
	}
	return f.disk.Sync()
}

func (f faulty) Truncate(size int64) error {
	*f.cuts++
	if f.cut != nil {
		return f.cut
	}
	return f.disk.Truncate(size)
}

// fault puts a faulty file in a journal's way.
func fault(j *Journal, f faulty) faulty {
	f.syncs, f.cuts, f.wrote = new(int), new(int), new(int)
	j.open = func(path string) (disk, error) {
		real, err := openFile(path)
		f.disk = real
		return f, err
	}
	j.close()
	return f
}

func TestOneWriteAndOneSyncABatch(t *testing.T) {
	j := openJournal(t, t.TempDir())
	f := fault(j, faulty{room: 1e6})
	_, err := j.append(everyKind())
	require.NoError(t, err)
	assert.Equal(t, []int{1, 1, 0}, []int{*f.wrote, *f.syncs, *f.cuts})
	_, err = j.append(everyKind())
	require.NoError(t, err)
	assert.Equal(t, []int{1, 1, 0}, []int{*f.wrote, *f.syncs, *f.cuts})
}

// Whatever goes wrong while a batch is written, it is not acknowledged, and given
// again once all is well it stands in the journal once, and whole.
func TestFaultyDisk(t *testing.T) {
	events := everyKind()
	size := len(journalText(t, events[1:]))
	full := "cannot be written: the disk is full, make room on it"
	var faults []faulty
	for room := 0; room < size; room += 97 {
		faults = append(faults, faulty{room: room}, faulty{room: room, cut: syscall.EIO})
	}
	faults = append(faults, faulty{room: size, sync: syscall.ENOSPC}, faulty{room: size, sync: syscall.EDQUOT, cut: syscall.EIO})
	for _, f := range faults {
		t.Run(fmt.Sprintf("room for %d, %v, %v", f.room, f.sync, f.cut), func(t *testing.T) {
			dir := t.TempDir()
			j := openJournal(t, dir)
			_, err := j.append(events[:1])
			require.NoError(t, err)
			fault(j, f)
			added, err := j.append(events[1:])
			require.ErrorContains(t, err, full)
			require.Zero(t, added)
			added, err = j.append(events[1:])
			require.ErrorContains(t, err, "cannot be written: ")
			require.Zero(t, added)
			require.Len(t, j.events, 1)
			require.Len(t, openJournal(t, dir).events[:1], 1, "what was acknowledged is there")
			j.open = openFile
			added, err = j.append(events[1:])
			require.NoError(t, err)
			require.Equal(t, len(events)-1, added)
			require.Equal(t, journalText(t, events), readFile(t, j.path))
		})
	}
}

func TestReadOnlyFolder(t *testing.T) {
	for _, why := range []error{syscall.EROFS, syscall.EACCES, syscall.EPERM} {
		j := openJournal(t, t.TempDir())
		j.open = func(path string) (disk, error) { return nil, &fs.PathError{Op: "open", Path: path, Err: why} }
		_, err := j.append(everyKind())
		assert.EqualError(t, err, j.path+" cannot be written: its folder or disk is read-only to you ("+why.Error()+")")
		assert.ErrorIs(t, err, why)
	}
	t.Run("a real one", func(t *testing.T) {
		dir := t.TempDir()
		require.NoError(t, os.Chmod(dir, 0o555))
		if os.Mkdir(filepath.Join(dir, "x"), 0o755) == nil {
			t.Skip("who runs this may write anywhere")
		}
		_, err := openJournal(t, filepath.Join(dir, "journal")).append(everyKind())
		assert.ErrorContains(t, err, "its folder or disk is read-only to you")
	})
	t.Run("no folder at all", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "journal")
		require.NoError(t, os.WriteFile(path, nil, 0o644))
		j := &Journal{path: filepath.Join(path, session+Extension), session: session, ids: map[string]int{}, open: openFile}
		_, err := j.append(everyKind())
		assert.EqualError(t, err, j.path+" cannot be written: not a directory")
	})
}

func TestTwoRecordersOfOneSession(t *testing.T) {
	dir := t.TempDir()
	events := script(begin, start("sow"), stop)
	a, b := openJournal(t, dir), openJournal(t, dir)
	_, err := a.append(events[:1])
	require.NoError(t, err)
	_, err = b.append(events[1:2])
	require.ErrorIs(t, err, errGrown)
	assert.EqualError(t, err, b.path+" has changed since it was opened: another recorder writes to it")
	_, err = a.append(events[1:])
	require.NoError(t, err)
	assert.Equal(t, journalText(t, events), readFile(t, a.path))
}

func TestDamagedJournal(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, session+Extension), []byte("x\n"), 0o644))
	_, err := openToAppend(dir, session)
	assert.ErrorContains(t, err, session+".jsonl:1: not an event: ")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "2026-03-02T0810-w2-0000.jsonl"), 0o755))
	_, err = openToAppend(dir, "2026-03-02T0810-w2-0000")
	assert.ErrorContains(t, err, "is a directory")
}
