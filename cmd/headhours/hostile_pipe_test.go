//go:build unix

package main

import (
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// A pipe without a writer would be waited for without end.
func TestHostilePipes(t *testing.T) {
	for _, c := range []struct{ name, folder, file, says string }{
		{"log", "timings", "timings/a.csv", "timings/a.csv: is a pipe or a device, not a task log"},
		{"journal", "journal", "journal/" + session + ".jsonl", "is a pipe or a device, not a journal"},
	} {
		t.Run(c.name, hostile{
			why: "a pipe that nobody writes to", files: map[string]string{"study.toml": small}, args: []string{"fit"},
			build: func(t *testing.T, dir string) {
				require.NoError(t, os.Mkdir(c.folder, 0o755))
				require.NoError(t, syscall.Mkfifo(c.file, 0o644))
			},
		}.fails(c.says).test)
	}
}
