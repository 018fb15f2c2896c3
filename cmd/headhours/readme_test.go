package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Commands that README shows are run, in order, in a folder of their own, and
// must print what it shows. A line "…" stands for the rest of an output.
func TestReadmeShowsWhatCommandsPrint(t *testing.T) {
	name, err := filepath.Abs("../../README.md")
	require.NoError(t, err)
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	block := regexp.MustCompile("(?s)```console\n(.*?)```\n")
	ran := 0
	fresh := block.ReplaceAllStringFunc(string(text), func(found string) string {
		body := block.FindStringSubmatch(found)[1]
		var b strings.Builder
		b.WriteString("```console\n")
		for _, part := range strings.Split("\n"+body, "\n$ ")[1:] {
			line, shown, _ := strings.Cut(part, "\n")
			b.WriteString("$ " + line + "\n" + printed(t, line, shown))
			ran++
		}
		b.WriteString("```\n")
		return b.String()
	})
	assert.Greater(t, ran, 3)
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(fresh), 0o644))
		return
	}
	want, got := strings.Split(string(text), "\n"), strings.Split(fresh, "\n")
	for i := range min(len(want), len(got)) {
		require.Equal(t, want[i], got[i], "README.md:%d; go test ./cmd/headhours -update writes it anew: read what changed", i+1)
	}
	assert.Len(t, got, len(want))
}

// What README shows of the tests are the first packages that there are with tests, in order.
func TestReadmeShowsWhatIsTested(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, shown, found := strings.Cut(string(readme), "\n$ go test ./...\n")
	require.True(t, found)
	shown, _, found = strings.Cut(shown, "…\n")
	require.True(t, found)
	var packages []string
	require.NoError(t, filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if dir := "headhours" + strings.TrimPrefix(filepath.ToSlash(filepath.Dir(path)), "../.."); strings.HasSuffix(path, "_test.go") && !slices.Contains(packages, dir) {
			packages = append(packages, dir)
		}
		return err
	}))
	slices.Sort(packages)
	lines := strings.Split(strings.TrimSpace(shown), "\n")
	require.Greater(t, len(packages), len(lines))
	for i, line := range lines {
		assert.Regexp(t, `^ok  \t`+regexp.QuoteMeta(packages[i])+`\t\d+\.\d{3}s$`, line)
	}
}

// printed is what a command of the README prints, cut where the README cuts it.
func printed(t *testing.T, line, shown string) string {
	t.Helper()
	words, ok := strings.CutPrefix(line, "headhours ")
	if !ok {
		words, ok = strings.CutPrefix(line, "go run ./cmd/headhours ")
	}
	require.True(t, ok, "README runs %q", line)
	var out, errs bytes.Buffer
	status := run(splitWords(words), strings.NewReader(""), &out, &errs)
	require.Equal(t, done, status, "%s: %s", line, errs.String())
	lines := strings.SplitAfter(out.String(), "\n")
	if kept, _, cut := strings.Cut(shown, "…\n"); cut {
		if n := strings.Count(kept, "\n"); n < len(lines) {
			return strings.Join(lines[:n], "") + "…\n"
		}
	}
	return out.String()
}

// splitWords splits a command line at blanks outside double quotes.
func splitWords(line string) []string {
	var words []string
	for _, word := range regexp.MustCompile(`"[^"]*"|\S+`).FindAllString(line, -1) {
		words = append(words, strings.Trim(word, `"`))
	}
	return words
}
