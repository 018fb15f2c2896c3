package stopwatch

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever is done to the file of a journal while it is written to, an event that is
// acknowledged stands at its path, and one that cannot is not acknowledged.
func TestJournalIsReplaced(t *testing.T) {
	events := script(begin, start("sow"), count(3), stop, start("thin"), stop)
	replace := func(t *testing.T, path, text string) {
		require.NoError(t, os.WriteFile(path+".tmp", []byte(text), 0o644))
		require.NoError(t, os.Rename(path+".tmp", path))
	}
	whole := journalText(t, events[:3])
	one := journalText(t, events[:1])
	other := strings.Replace(strings.Split(whole, ",\"crc\"")[0], `"begin"`, `"stop"`, 1) + "}\n"
	for _, c := range []struct {
		name string
		do   func(t *testing.T, path string)
		why  string // "": it is written
	}{
		{"by a copy", func(t *testing.T, path string) { replace(t, path, whole) }, ""},
		{"by a copy that lacks lines", func(t *testing.T, path string) { replace(t, path, one) }, ""},
		{"by a copy that is torn", func(t *testing.T, path string) { replace(t, path, whole[:len(whole)-30]) }, ""},
		{"by an empty file", func(t *testing.T, path string) { replace(t, path, "") }, ""},
		{"cut short where it is", func(t *testing.T, path string) { require.NoError(t, os.Truncate(path, int64(len(one)))) }, ""},
		{"removed", func(t *testing.T, path string) { require.NoError(t, os.Remove(path)) }, ""},
		{"renamed", func(t *testing.T, path string) { require.NoError(t, os.Rename(path, path+".old")) }, ""},
		{"its folder removed", func(t *testing.T, path string) { require.NoError(t, os.RemoveAll(filepath.Dir(path))) }, ""},
		{"its study removed", func(t *testing.T, path string) { require.NoError(t, os.RemoveAll(filepath.Dir(filepath.Dir(path)))) }, "cannot be written: no such file or directory"},
		{"by other events", func(t *testing.T, path string) { replace(t, path, other) }, "is another file than the one that was written to, and holds what was not recorded here: move it away"},
		{"by nonsense", func(t *testing.T, path string) { replace(t, path, "nonsense\n") }, "is another file than the one"},
		{"by a folder", func(t *testing.T, path string) {
			require.NoError(t, os.Remove(path))
			require.NoError(t, os.Mkdir(path, 0o755))
		}, "cannot be written: is a directory, not a journal"},
	} {
		t.Run(c.name, func(t *testing.T) {
			study := filepath.Join(t.TempDir(), "study")
			require.NoError(t, os.Mkdir(study, 0o755))
			j := openJournal(t, filepath.Join(study, "journal"))
			_, err := j.append(events[:3])
			require.NoError(t, err)
			c.do(t, j.path)
			if c.why != "" {
				added, err := j.append(events[3:5])
				require.ErrorContains(t, err, j.path+" "+c.why)
				require.Zero(t, added)
				_, err = j.append(events[:1])
				require.ErrorContains(t, err, c.why, "nor is what was acknowledged before")
				require.Len(t, j.events, 3)
				require.NoError(t, os.RemoveAll(j.path))
				require.NoError(t, os.MkdirAll(study, 0o755))
			}
			for _, batch := range [][]Event{events[:1], events[3:5], events[5:]} {
				added, err := j.append(batch)
				require.NoError(t, err)
				if batch[0].Seq > 3 {
					require.Equal(t, len(batch), added)
				}
				require.Len(t, openJournal(t, filepath.Dir(j.path)).events, len(j.events))
			}
			assert.Equal(t, journalText(t, events), readFile(t, j.path))
			assert.Equal(t, events, j.events)
		})
	}
}

// While a journal cannot be written anew nothing is acknowledged, and all of it is once
// it can.
func TestJournalIsRemovedFromAFullDisk(t *testing.T) {
	events := script(begin, start("sow"), count(3), stop)
	size := len(journalText(t, events[:3]))
	for room := 0; room < size; room += 60 {
		for _, cut := range []error{nil, syscall.EIO} {
			j := openJournal(t, filepath.Join(t.TempDir(), "journal"))
			_, err := j.append(events[:3])
			require.NoError(t, err)
			require.NoError(t, os.Remove(j.path))
			fault(j, faulty{room: room, cut: cut})
			for range 2 {
				_, err = j.append(events[3:])
				require.ErrorContains(t, err, "cannot be written: ")
				require.Len(t, j.events, 3)
			}
			j.open = openFile
			added, err := j.append(events[3:])
			require.NoError(t, err)
			require.Equal(t, 1, added)
			require.Equal(t, journalText(t, events), readFile(t, j.path))
		}
	}
}
