//go:build unix

package folder

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Reading a pipe would wait for ever for someone to write to it.
func TestOpenPipe(t *testing.T) {
	dir := study(t, map[string]string{"study.toml": small, "timings/a.csv": sowings})
	require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "timings", "b.csv"), 0o644))
	assert.Equal(t, []string{"timings/b.csv: is a pipe or a device, not a task log"}, openProblems(t, dir))
}
