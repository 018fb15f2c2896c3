package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An answer that cannot be written where it is to go is the disk's fault; nothing goes to
// standard output in its place, and nothing half is left anywhere.
func TestPlacesThatCannotBeWritten(t *testing.T) {
	t.Parallel()
	files := oddStudies()["one reading"]
	files["a file"] = "mine\n"
	files["a folder/inside"] = "mine too\n"
	dir := studyHolding(t, files)
	before := filesOf(t, dir)
	tried := 0
	for _, c := range allCommands() {
		if !slices.Contains(c.flags, "output") || c.name == "season" || c.name == "export" {
			continue
		}
		for place, why := range map[string]string{
			"no such folder/x.html": `no such folder" to write "x.html" into: make it first`,
			"a file/x.html":         "not a directory",
			"a folder":              "is a folder, want a file",
			"a folder/.":            "is a folder, want a file",
		} {
			to := filepath.Join(dir, place)
			if strings.HasSuffix(place, "/.") {
				to += "/."
			}
			got := headhoursIn(dir, c.name, "-o", to)
			require.Equal(t, badData, got.status, "%s -o %s: %s", c.name, place, got.err)
			require.Empty(t, got.out, "%s -o %s", c.name, place)
			require.Contains(t, got.err, why, "%s -o %s", c.name, place)
			require.NotRegexp(t, `\.\d{5,}`, got.err, "%s -o %s: no temporary file is named", c.name, place)
			require.NotContains(t, got.err, "headhours help COMMAND", "%s -o %s: it is not the command line's fault", c.name, place)
			tried++
		}
	}
	assert.Greater(t, tried, 30)
	assert.Equal(t, before, filesOf(t, dir))
}

// What is written to a file is what would have gone to standard output, in the place of what
// stood there; "-" is standard output; the file of an answer that fails stays as it was.
func TestOutputToAFile(t *testing.T) {
	t.Parallel()
	dir := studyHolding(t, oddStudies()["one reading"])
	to := filepath.Join(t.TempDir(), "answer")
	for command := range answering {
		for _, format := range []string{"text", "json", "csv", "semicolons", "markdown"} {
			want := headhoursIn(dir, command, "--format", format)
			require.Equal(t, done, want.status, want.err)
			require.NoError(t, os.WriteFile(to, []byte(strings.Repeat("older and longer\n", 9000)), 0o600))
			got := headhoursIn(dir, command, "--format", format, "-o", to)
			require.Equal(t, done, got.status, got.err)
			require.Empty(t, got.out, "%s --format %s", command, format)
			text, err := os.ReadFile(to)
			require.NoError(t, err)
			require.Equal(t, want.out, string(text), "%s --format %s", command, format)
			require.Equal(t, want.out, headhoursIn(dir, command, "--format", format, "-o", "-").out)
		}
		require.NoError(t, os.WriteFile(to, []byte("mine\n"), 0o600))
		require.NotEqual(t, done, headhoursIn(filepath.Join(dir, "nowhere"), command, "-o", to).status)
		text, err := os.ReadFile(to)
		require.NoError(t, err)
		require.Equal(t, "mine\n", string(text), command)
	}
}
