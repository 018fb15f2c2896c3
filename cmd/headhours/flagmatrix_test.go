package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ran is a command line's answer.
type ran struct {
	status   int
	out, err string
}

// headhoursIn runs a command line on a study folder, in this process.
func headhoursIn(dir string, args ...string) ran {
	var out, errs bytes.Buffer
	status := run(append([]string{"--study", dir}, args...), strings.NewReader(""), &out, &errs)
	return ran{status, out.String(), errs.String()}
}

// studyHolding writes files into a folder of their own.
func studyHolding(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	}
	return dir
}

// wrongValues are of each flag what it cannot be, and what is then said of it.
var wrongValues = map[string][][2]string{
	"workflow":       {{"trey", `no workflow is named "trey": did you mean "tray"`}},
	"heads":          {{"0", "--heads 0: " + needed["heads"]}, {"-3", "--heads -3: " + needed["heads"]}, {"1.5", `--heads "1.5": ` + needed["heads"]}, {"", `--heads "": ` + needed["heads"]}, {"5,x", `--heads "5,x": ` + needed["heads"]}, {"4;5", `--heads "4;5": ` + needed["heads"]}},
	"confidence":     {{"0", "--confidence 0: " + needed["confidence"]}, {"1", "--confidence 1: " + needed["confidence"]}, {"-0.5", "--confidence -0.5: " + needed["confidence"]}, {"95%", `--confidence "95%": ` + needed["confidence"]}, {"NaN", "--confidence NaN: " + needed["confidence"]}, {"0,95", `--confidence "0,95": ` + needed["confidence"]}},
	"since":          {{"2026-13-01", `--since "2026-13-01": a date such as 2026-03-31 is needed`}, {"1.3.2026", `--since "1.3.2026": a date such as 2026-03-31 is needed`}, {"today", `--since "today": a date such as 2026-03-31 is needed`}},
	"until":          {{"2026-2-1", `--until "2026-2-1": a date such as 2026-03-31 is needed`}},
	"form":           {{"line", `--form "line": one of auto, setup+unit, unit, setup is needed`}, {"Unit", `--form "Unit": one of auto, setup+unit, unit, setup is needed; did you mean unit`}},
	"spread":         {{"3", `--spread "3": one of 0, 1, 2 is needed`}, {"1.0", `--spread "1.0": one of 0, 1, 2 is needed`}},
	"grouping":       {{"batch", `--grouping "batch": one of none, grow, worker, auto is needed`}, {"", `--grouping "": one of none, grow, worker, auto is needed`}, {"growth", `--grouping "growth": one of none, grow, worker, auto is needed; did you mean grow`}},
	"format":         {{"csvs", "did you mean csv"}, {"", `--format "": one of `}, {"TEXT", `--format "TEXT": one of `}},
	"assurance":      {{"0", "--assurance 0: " + needed["assurance"]}, {"1", "--assurance 1: " + needed["assurance"]}},
	"within":         {{"0", "--within 0: " + needed["within"]}, {"10%", `--within "10%": ` + needed["within"]}, {"1", "--within 1: " + needed["within"]}},
	"heads-per-year": {{"0", "--heads-per-year 0: " + needed["heads-per-year"]}, {"-1", "--heads-per-year -1: " + needed["heads-per-year"]}, {"Inf", "--heads-per-year +Inf: " + needed["heads-per-year"]}},
	"hours-per-day":  {{"0", "--hours-per-day 0: " + needed["hours-per-day"]}, {"x", `--hours-per-day "x": ` + needed["hours-per-day"]}},
	"hours-per-week": {{"-2", "--hours-per-week -2: " + needed["hours-per-week"]}},
	"every":          {{"-1", "--every -1: " + needed["every"]}, {"3661", "--every 3661: " + needed["every"]}},
	"speed":          {{"0", "--speed 0: " + needed["speed"]}, {"-8", "--speed -8: " + needed["speed"]}, {"NaN", "--speed NaN: " + needed["speed"]}},
	"earn":           {{"-1", "--earn -1: " + needed["earn"]}, {"lots", `--earn "lots": ` + needed["earn"]}},
	"port":           {{"-1", "--port -1: " + needed["port"]}, {"65536", "--port 65536: " + needed["port"]}, {"http", `--port "http": ` + needed["port"]}},
	"days-off":       {{"someday", `--days-off "someday": weekdays are needed, such as sat,sun`}},
	"start":          {{"monday", `--start "monday": a date such as 2026-03-31 is needed`}},
	"date":           {{"2026-02-30", `--date "2026-02-30": a date such as 2026-03-31 is needed`}},
	"separate":       {{"grow", `--separate "grow": one of `}},
	"scatter":        {{"some", `--scatter "some": one of `}},
	"change":         {{"no such", `no change is named "no such"`}},
	"try":            {{"tray", `--try "tray": a way, heads and days are needed`}, {"tray=0/7", `--try "tray=0/7": a way, heads and days are needed`}, {"tray=5/0", `--try "tray=5/0": a way, heads and days are needed`}, {"trey=5/7", `"trey"`}},
	"plot":           {{"x.gif", ".svg, .png or .pdf"}, {"nowhere", ".svg, .png or .pdf"}},
	"fill":           {{"trey", "--fill=trey: it stands alone, without a value"}},
}

// Every flag of every command with every value that it cannot have: the command line is at
// fault, nothing is answered and nothing written, and it is said what would be right.
func TestWrongValuesOfEveryFlag(t *testing.T) {
	const more = "[season]\nstart = \"2027-03-01\"\n[[sowing]]\nworkflow = \"tray\"\nheads = 10\n[[change]]\nname = \"dibber\"\nstep = \"sow\"\nunit_factor = 0.8\n"
	dir := studyHolding(t, map[string]string{"study.toml": small + more, "timings/a.csv": "step,count,time\nsow,10,60\nsow,20,110\n", "m.vtt": "0:00 sow x3\n0:09 stop\n"})
	before := filesOf(t, dir)
	tried := map[string]bool{}
	for _, c := range allCommands() {
		if c.attended && c.name != "phone" || c.name == "record" {
			continue // they would wait for a person
		}
		flagsOf(c).VisitAll(func(f *pflag.Flag) {
			for _, v := range wrongValues[f.Name] {
				if c.attended && f.Name != "port" {
					continue
				}
				tried[f.Name] = true
				args := []string{c.name, "--" + f.Name + "=" + v[0]}
				if c.name == "film" {
					args = append(args, filepath.Join(dir, "m.vtt"))
				}
				if f.Name == "days-off" {
					args = append(args, "--start", "2026-03-02")
				}
				got := headhoursIn(dir, args...)
				require.Equal(t, badUsage, got.status, "%v: %s", args, got.err)
				require.Empty(t, got.out, "%v", args)
				require.Contains(t, got.err, v[1], "%v", args)
				require.True(t, strings.HasPrefix(got.err, "headhours: "), "%v: %s", args, got.err)
				require.True(t, strings.HasSuffix(got.err, "\nhint: headhours help lists the commands, headhours help COMMAND its flags\n"), "%v: %s", args, got.err)
			}
		})
	}
	for name := range wrongValues {
		assert.True(t, tried[name], "no command takes --%s", name)
	}
	assert.Equal(t, before, filesOf(t, dir), "nothing was written")
}

// filesOf lists what stands in a folder.
func filesOf(t *testing.T, dir string) (names []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(path string, _ os.DirEntry, err error) error {
		names = append(names, path)
		return err
	}))
	return names
}

// Every flag that a command does not take is refused, and those that take it are named.
func TestFlagsThatACommandDoesNotTake(t *testing.T) {
	dir := studyHolding(t, map[string]string{"study.toml": small})
	tried := 0
	for _, c := range allCommands() {
		var all flags
		all.define().VisitAll(func(f *pflag.Flag) {
			if slices.Contains(c.flags, f.Name) || slices.Contains(anywhere, f.Name) {
				return
			}
			value := map[string]string{"heads": "3", "confidence": "0.9", "every": "7", "assurance": "0.9", "within": "0.1", "heads-per-year": "9", "hours-per-day": "9", "hours-per-week": "9", "speed": "2", "earn": "9", "port": "0"}[f.Name]
			if value == "" && f.Value.Type() != "bool" {
				value = "x"
			}
			arg := "--" + f.Name
			if value != "" {
				arg += "=" + value
			}
			got := headhoursIn(dir, c.name, arg)
			require.Equal(t, badUsage, got.status, "%s %s: %s", c.name, arg, got.err)
			require.Contains(t, got.err, fmt.Sprintf("headhours: %s takes no --%s; ", c.name, f.Name))
			require.Empty(t, got.out)
			tried++
		})
	}
	assert.Greater(t, tried, 300)
}

// A flag that stands last without its value, one that does not exist and one argument too
// many are the command line's fault for every command.
func TestClumsyCommandLines(t *testing.T) {
	dir := studyHolding(t, map[string]string{"study.toml": small})
	for _, c := range allCommands() {
		flagsOf(c).VisitAll(func(f *pflag.Flag) {
			if f.Value.Type() == "bool" {
				return
			}
			got := headhoursIn(dir, c.name, "--"+f.Name)
			require.Equal(t, badUsage, got.status, "%s --%s", c.name, f.Name)
			require.Contains(t, got.err, "has nothing behind it: ", "%s --%s", c.name, f.Name)
		})
		for _, args := range [][]string{{c.name, "--no-such-flag"}, {c.name, "-z"}, {c.name, "a", "b", "c"}, {c.name, "--study"}} {
			got := headhoursIn(dir, args...)
			require.Equal(t, badUsage, got.status, "%v: %s", args, got.err)
			require.Empty(t, got.out, "%v", args)
			require.Equal(t, 1, strings.Count(got.err, "headhours: "), "%v: %s", args, got.err)
		}
		misspelt := c.name[:len(c.name)-1]
		got := headhoursIn(dir, misspelt)
		require.Equal(t, badUsage, got.status, misspelt)
		require.Contains(t, got.err, fmt.Sprintf("no command is named %q: did you mean ", misspelt))
		for _, line := range [][]string{{"help", c.name}, {c.name, "--help"}, {"--help", c.name}, {c.name, "-h", "--nothing-else=1"}} {
			got := headhoursIn(dir, line...)
			if strings.HasPrefix(line[len(line)-1], "--nothing") {
				require.Equal(t, badUsage, got.status, "%v", line)
				continue
			}
			require.Equal(t, done, got.status, "%v: %s", line, got.err)
			require.True(t, strings.HasPrefix(got.out, "headhours "+c.name), "%v: %s", line, got.out)
		}
	}
}
