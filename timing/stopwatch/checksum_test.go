package stopwatch

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The check value of CRC-32C (RFC 3720, and any table of CRCs): "123456789" gives e3069283.
func TestChecksum(t *testing.T) {
	assert.Equal(t, `123456789,"crc":"e3069283"}`, string(withChecksum([]byte("123456789}"))))
}

func TestUncheckedLinesAreReadAsBefore(t *testing.T) {
	events := everyKind()
	c, err := readContents(strings.NewReader(uncheckedText(t, events)), name)
	require.NoError(t, err)
	assert.Equal(t, events, c.Events)
	assert.Empty(t, c.Warnings)
}

// Whichever bit of a journal flips, no event is read otherwise than it was pressed, at
// most one is lost, and that one is named with its line: each line is tried between those
// beside it, which is as far as a line that is damaged reaches.
func TestFlippedBits(t *testing.T) {
	all := everyKind()
	all[4].Text = "J*" // a bit from line ends
	for i := range all {
		first := max(i-1, 0)
		events := slices.Clone(all[first:min(i+2, len(all))])
		for k := range events {
			events[k].Line = k + 1
		}
		text := []byte(journalText(t, events))
		begins := len(journalText(t, events[:i-first]))
		ends := len(journalText(t, events[:i-first+1]))
		for at := begins; at < ends; at++ {
			for bit := at % 3; bit < 8; bit += 3 {
				flipBit(t, text, at, bit, events)
			}
		}
	}
}

func flipBit(t *testing.T, text []byte, at, bit int, events []Event) {
	t.Helper()
	flipped := bytes.Clone(text)
	flipped[at] ^= 1 << bit
	c, err := readContents(bytes.NewReader(flipped), name)
	require.NoError(t, err, "byte %d, bit %d", at, bit)
	require.GreaterOrEqual(t, len(c.Events), len(events)-1, "byte %d, bit %d", at, bit)
	read := map[string]bool{}
	for _, e := range c.Events {
		read[e.ID] = true
	}
	left := slices.DeleteFunc(slices.Clone(events), func(e Event) bool { return !read[e.ID] })
	require.Equal(t, left, c.Events, "byte %d, bit %d", at, bit)
	if len(c.Events) < len(events) {
		require.Len(t, c.Warnings, 1, "byte %d, bit %d", at, bit)
		require.Equal(t, name, c.Warnings[0].Place.File)
		require.Equal(t, 1+bytes.Count(text[:at], []byte("\n")), c.Warnings[0].Place.Line)
	}
}

// What cannot be read is named, and the others' journals show all the same.
func TestReadFolder(t *testing.T) {
	dir := t.TempDir()
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+Extension), []byte(text), 0o644))
	}
	put(session, journalText(t, everyKind()))
	put("2026-03-03T0810-w1-0001", strings.Repeat("x", 1<<20)+"\n")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "2026-03-03T0810-w1-0002.jsonl"), 0o755))
	require.NoError(t, os.Symlink("2026-03-03T0810-w1-0003.jsonl", filepath.Join(dir, "2026-03-03T0810-w1-0003.jsonl")))
	require.NoError(t, os.Symlink(os.DevNull, filepath.Join(dir, "2026-03-03T0810-w1-0004.jsonl")))
	put("2026-03-03T0810-w1-0005", "")
	require.NoError(t, os.Truncate(filepath.Join(dir, "2026-03-03T0810-w1-0005.jsonl"), 100<<20))
	put("2026-03-03T0810-w1-0006", strings.Repeat("x", 100<<10))
	states, problems := ReadFolder(dir, nil)
	require.Len(t, states, 1)
	assert.Equal(t, session, states[0].Session.Name)
	require.Len(t, problems, 6)
	for i, want := range []string{"longer than 65536 bytes", "is a directory", "too many", "is a pipe or a device", "64 MiB", "longer than 65536 bytes"} {
		assert.Contains(t, problems[i].Error(), want)
		assert.Contains(t, problems[i].Place.File, "000"+string(rune('1'+i)))
	}
	states, problems = ReadFolder(filepath.Join(dir, "none"), nil)
	assert.Empty(t, states)
	assert.Empty(t, problems)
}
