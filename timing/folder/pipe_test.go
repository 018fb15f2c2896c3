//go:build unix

package folder

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Reading a pipe would wait for ever for someone to write to it.
func TestOpenPipe(t *testing.T) {
	dir := studyIn(t, map[string]string{"study.toml": small, "timings/a.csv": sowings})
	require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "timings", "b.csv"), 0o644))
	assert.Equal(t, []string{"timings/b.csv: is a pipe or a device, not a task log"}, openProblems(t, dir))
}

// Nor is a study read from a pipe or a device, or one larger than any.
func TestOpenNoFile(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "study.toml"), 0o644))
	assert.Equal(t, []string{"study.toml: is a pipe or a device, want a file"}, openProblems(t, dir))
	dir = t.TempDir()
	require.NoError(t, os.Symlink("/dev/zero", filepath.Join(dir, "study.toml")))
	assert.Equal(t, []string{"study.toml: is a pipe or a device, want a file"}, openProblems(t, dir))
	dir = studyIn(t, map[string]string{"study.toml": small})
	require.NoError(t, os.Truncate(filepath.Join(dir, "study.toml"), maxStudy<<20+1))
	assert.Equal(t, []string{"study.toml: is not read: holds more than 16 MiB"}, openProblems(t, dir))
	dir = studyIn(t, map[string]string{"study.toml": small, "journal/2026-03-02T0810-w1-a3f9.jsonl": ""})
	journal := filepath.Join(dir, "journal", "2026-03-02T0810-w1-a3f9.jsonl")
	require.NoError(t, os.Truncate(journal, 64<<20+1))
	assert.Equal(t, []string{"journal/2026-03-02T0810-w1-a3f9.jsonl: is not read: holds more than 64 MiB"}, openProblems(t, dir))
}
