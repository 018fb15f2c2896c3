package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hostile is a file that a careless or malicious hand made, and what a command
// must make of it: an error that names the place, or a right answer.
type hostile struct {
	name  string
	why   string // what is hostile in it
	files map[string]string
	build func(t *testing.T, dir string) // what is no plain file, beside them
	args  []string

	status int
	says   []string // on standard error, which is else empty
	holds  []string // lines of the answer, blanks taken together; checked by hand

	big    bool // takes a while: not with -short
	alloc  int  // MiB that may be allocated in all, where more than usual
	output int  // KiB that may be written, where more than usual
}

// The usual bounds of a case.
const (
	usualAlloc  = 32                       // MiB in all, not at a time
	usualOutput = 8                        // KiB of both streams
	hangs       = 20 * slack * time.Second // no speed: a slow machine is no hang
)

// mark stands in a file where its problem is to be told; it is taken out before
// the file is written.
const mark = "∑"

// small is a study without a fault.
const small = `[study]
name = "small"
heads = 10
[[step]]
name = "sow"
[[workflow]]
name = "tray"
tasks = [ { step = "sow", day = 0, count = "cells" } ]
`

// TestHostileFiles runs a command on every hostile file: none may panic, hang, take
// memory or write without bound, lose a row in silence, or let a control character
// or a mark that turns text about reach the terminal.
func TestHostileFiles(t *testing.T) {
	for _, group := range []struct {
		name  string
		cases []hostile
	}{
		{"csv", hostileCSV()}, {"numbers", hostileNumbers()}, {"workbook", hostileWorkbooks()}, {"study", hostileStudies()},
		{"journal", hostileJournals()}, {"cues", hostileCues()}, {"paths", hostilePaths()},
	} {
		t.Run(group.name, func(t *testing.T) {
			for _, c := range group.cases {
				t.Run(c.name, c.test)
			}
		})
	}
}

func (c hostile) test(t *testing.T) {
	if c.big && testing.Short() {
		t.Skip("takes a while")
	}
	dir := t.TempDir()
	t.Chdir(dir)
	says := c.says
	for name, text := range c.files {
		text, places := unmark(name, text)
		says = append(says, places...)
		writeFile(t, name, text)
	}
	if c.build != nil {
		c.build(t, dir)
	}
	out, errs, allocated := c.run(t)

	for _, text := range says {
		assert.Contains(t, errs, text, c.why)
	}
	if len(says) == 0 {
		assert.Empty(t, errs, c.why)
	}
	lines := strings.Split(out, "\n")
	for i, l := range lines {
		lines[i] = withoutRanges(l)
	}
	for _, line := range c.holds {
		assert.Contains(t, lines, withoutRanges(line), c.why)
	}
	shown(t, out, c.why)
	shown(t, errs, c.why)
	assert.LessOrEqual(t, len(out)+len(errs), max(usualOutput, c.output)<<10, c.why)
	assert.LessOrEqual(t, allocated>>20, uint64(slack*max(usualAlloc, c.alloc)), "MiB: %s", c.why)
}

func withoutRanges(line string) string {
	return strings.Join(slices.DeleteFunc(strings.Fields(line), isRange), " ")
}

// isRange says that a cell holds a range, which is no matter of how a file is read.
func isRange(cell string) bool {
	low, high, ok := strings.Cut(strings.TrimPrefix(cell, "-"), "–")
	_, lowErr := strconv.ParseFloat(low, 64)
	_, highErr := strconv.ParseFloat(high, 64)
	return ok && lowErr == nil && highErr == nil
}

// run runs the command within the hang guard, and counts what it allocates.
func (c hostile) run(t *testing.T) (out, errs string, allocated uint64) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	status := make(chan any, 1)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	running := runtime.NumGoroutine()
	go func() {
		defer func() {
			if fault := recover(); fault != nil {
				status <- fmt.Sprintf("panic: %v\n%s", fault, debug.Stack())
			}
		}()
		status <- run(c.args, strings.NewReader(""), &stdout, &stderr)
	}()
	select {
	case got := <-status:
		require.Equal(t, c.status, got, "%s: %s", c.why, stderr.String()[:min(1000, stderr.Len())])
	case <-time.After(hangs):
		require.Fail(t, "hangs", c.why)
	}
	for range 100 { // what is left to stop allocates for this case, not for the next
		if runtime.NumGoroutine() <= running {
			break
		}
		time.Sleep(time.Millisecond)
	}
	runtime.ReadMemStats(&after)
	return stdout.String(), stderr.String(), after.TotalAlloc - before.TotalAlloc
}

// unmark takes the marks out of a file and gives the places that they stood at, as
// errors name them; a study and a CSV log have columns, journals and cues lines.
func unmark(name, text string) (clean string, places []string) {
	before, after, found := strings.Cut(text, mark)
	for found {
		line := strings.Count(before, "\n") + 1
		place := fmt.Sprintf("%s:%d:", name, line)
		switch filepath.Ext(name) {
		case ".csv", ".tsv", ".toml":
			place += fmt.Sprintf("%d:", utf8.RuneCountInString(before[strings.LastIndex(before, "\n")+1:])+1)
		}
		places = append(places, place+" ")
		var rest string
		rest, after, found = strings.Cut(after, mark)
		before += rest
	}
	return before + after, places
}

// shown fails where a text holds what a terminal would act on, or would not show.
func shown(t *testing.T, text, why string) {
	t.Helper()
	assert.True(t, utf8.ValidString(text), "not UTF-8: %s", why)
	at := strings.IndexFunc(text, func(r rune) bool {
		return r != '\n' && unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)
	})
	if at >= 0 {
		assert.Fail(t, "raw "+fmt.Sprintf("%+q", text[at:at+min(20, len(text)-at)]), why)
	}
}

// The harness itself fails on what it is there to find.
func TestUnmark(t *testing.T) {
	clean, places := unmark("a.csv", "step,count\nsow,∑x\n∑a,b")
	assert.Equal(t, "step,count\nsow,x\na,b", clean)
	assert.Equal(t, []string{"a.csv:2:5: ", "a.csv:3:1: "}, places)
	_, places = unmark("m.vtt", "WEBVTT\n\n∑x")
	assert.Equal(t, []string{"m.vtt:3: "}, places)
}

func symlink(to, name string) func(*testing.T, string) {
	return func(t *testing.T, dir string) {
		t.Helper()
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.Symlink(to, name))
	}
}
