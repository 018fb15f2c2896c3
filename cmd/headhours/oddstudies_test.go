package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// oddStudies are studies of shapes that nobody writes a demo for.
func oddStudies() map[string]map[string]string {
	const sow = "[[step]]\nname = \"sow\"\nper = \"cell\"\n"
	const cut = "[[step]]\nname = \"cut\"\nper = \"head\"\n"
	way := func(name string, steps ...string) string {
		tasks := ""
		for i, s := range steps {
			tasks += fmt.Sprintf("{ step = %q, day = %d, count = \"cells\" }, ", s, 7*i)
		}
		return fmt.Sprintf("[[workflow]]\nname = %q\ntasks = [ %s ]\n", name, tasks)
	}
	const head = "[study]\nheads = 10\n"
	const money = "[labour]\nwage = 15\noncost = 0.2\n[sale]\nprice_per_head = 2\n[space]\nprice_per_m2_day = 0.1\n[[supply]]\nname = \"seed\"\ncount = \"seeds\"\nprice = 0.01\n"
	header := "date,grow,workflow,step,worker,count,time\n"
	four := head + money + "[[chore]]\nstep = \"sweep\"\nevery_days = 3\n[[step]]\nname = \"sweep\"\n"
	rows := header
	for i := range 4 {
		step, w := fmt.Sprint("s", i), fmt.Sprint("way ", i)
		four += fmt.Sprintf("[[step]]\nname = %q\n", step) + way(w, "s0", step)
		four += fmt.Sprintf("[[change]]\nname = \"c%d\"\nstep = %q\nunit_factor = 0.%d\noutlay = %d\n[[grow]]\nname = \"g%d\"\nworkflow = %q\ncells = 12\nheads = 9\n", i, step, i+1, 10*i, i, w)
		for k := range 4 {
			rows += fmt.Sprintf("2026-03-0%d,g%d,%s,%s,w%d,%d,%d\n", k+1, i, w, step, k, 10+7*k, 70+41*k+3*i)
		}
	}
	return map[string]map[string]string{
		"nothing timed":   {"study.toml": head + sow + way("tray", "sow")},
		"a step alone":    {"study.toml": head + sow, "timings/a.csv": "step,count,time\nsow,10,60\n"},
		"only judged":     {"study.toml": head + money + strings.Replace(sow, "per", "estimate = { low = 3, likely = 4, high = 9 }\nper", 1) + way("tray", "sow")},
		"judged in a log": {"study.toml": head + sow + way("tray", "sow"), "timings/a.csv": "step,count,time,source\nsow,10,60,judged\nsow,20,110,judged\n"},
		"one reading":     {"study.toml": head + money + sow + way("tray", "sow"), "timings/a.csv": "step,count,time\nsow,10,60\n"},
		"alike counts":    {"study.toml": head + sow + way("tray", "sow"), "timings/a.csv": "step,count,time\nsow,10,60\nsow,10,62\nsow,11,70\n"},
		"a gap":           {"study.toml": head + money + sow + cut + way("tray", "sow", "cut"), "timings/a.csv": "step,count,time\nsow,10,60\nsow,20,110\nsow,40,215\n"},
		"all void":        {"study.toml": head + sow + way("tray", "sow"), "timings/a.csv": "step,count,time,void\nsow,10,60,why\nsow,20,110,why not\n"},
		"a header alone":  {"study.toml": head + sow + way("tray", "sow"), "timings/a.csv": header},
		"exact":           {"study.toml": head + sow + way("tray", "sow"), "timings/a.csv": "step,count,time\nsow,10,60\nsow,20,110\nsow,30,160\nsow,40,210\n"},
		"falling":         {"study.toml": head + sow + way("tray", "sow"), "timings/a.csv": "step,count,time\nsow,10,200\nsow,20,110\nsow,30,60\n"},
		"one head":        {"study.toml": "[study]\nheads = 1\n" + money + sow + way("tray", "sow"), "timings/a.csv": "step,count,time\nsow,1,6\nsow,2,11\nsow,3,15\n"},
		"large":           {"study.toml": "[study]\nheads = 1000000000\n" + money + sow + way("tray", "sow"), "timings/a.csv": "step,count,time,people\nsow,1000000000,99999999,9\nsow,2000000000,199999999,9\nsow,5000000000,499999998,9\n"},
		"small":           {"study.toml": head + money + sow + way("tray", "sow"), "timings/a.csv": "step,count,time\nsow,0.001,0.001\nsow,0.002,0.003\nsow,0.005,0.004\n"},
		"two alike":       {"study.toml": head + money + sow + cut + way("tray", "sow", "cut") + way("bed", "sow", "cut"), "timings/a.csv": "step,count,time\nsow,10,60\nsow,20,111\nsow,40,215\ncut,10,90\ncut,20,170\ncut,30,260\n"},
		"four of each":    {"study.toml": four, "timings/a.csv": rows},
		"odd names": {
			"study.toml":    head + money + "[[step]]\nname = \"a | b, \\\"c\\\" <b>\"\nper = \"=1+1\"\n[[workflow]]\nname = \"# *x* `y` | 水耕\"\ntasks = [ { step = \"a | b, \\\"c\\\" <b>\", day = 0, count = \"cells\" } ]\n",
			"timings/a.csv": "step,count,time,worker\n\"a | b, \"\"c\"\" <b>\",10,60,@w\n\"a | b, \"\"c\"\" <b>\",20,110,-w\n\"a | b, \"\"c\"\" <b>\",30,165,w\n",
		},
	}
}

// answering are the commands that answer from a study, and the odd studies for which each
// has no answer, with what it then says.
var answering = map[string]map[string]string{
	"fit":      {},
	"check":    {},
	"compare":  {"a step alone": "no [[workflow]]"},
	"scale":    {"a step alone": "no [[workflow]]"},
	"cost":     {"a step alone": "no [[workflow]]"},
	"improve":  {"a step alone": "no [[workflow]]"},
	"readings": {"a step alone": "no [[workflow]]"},
	"seeding":  {"a step alone": "no [[workflow]]"},
	"calendar": {"a step alone": "no [[workflow]]"},
}

// Each command answers for each odd study in each format, or says what is wanting; an answer
// is sound whatever it is of.
func TestOddStudies(t *testing.T) {
	for name, files := range oddStudies() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := studyHolding(t, files)
			for command, wanting := range answering {
				for _, format := range []string{"text", "json", "csv", "semicolons", "markdown"} {
					got := headhoursIn(dir, command, "--format", format)
					if why := wanting[name]; why != "" {
						require.NotEqual(t, done, got.status, "%s", command)
						require.Contains(t, got.err, why, "%s", command)
						require.Empty(t, got.out, "%s", command)
						continue
					}
					require.Equal(t, done, got.status, "%s --format %s: %s", command, format, got.err)
					for _, broken := range []string{"NaN", "Inf", "%!", "<nil>", "1e+"} {
						require.NotContains(t, got.out, broken, "%s --format %s", command, format)
					}
					soundAnswer(t, command, format, got)
				}
			}
		})
	}
}

func soundAnswer(t *testing.T, command, format string, got ran) {
	t.Helper()
	switch format {
	case "text":
		soundText(t, command, got.out)
	case "json":
		var answer map[string]any
		require.NoError(t, json.Unmarshal([]byte(got.out), &answer), command)
		require.IsType(t, []any{}, answer["notes"], "%s has notes", command)
		soundJSON(t, command, answer)
	case "csv":
		soundCSV(t, command, got.out)
	case "markdown":
		soundMarkdown(t, command, got.out)
	}
}

// soundText holds that no sentence is wider than a page of 80 columns, and no table much.
func soundText(t *testing.T, command, text string) {
	t.Helper()
	require.True(t, strings.HasSuffix(text, "\n") && !strings.HasSuffix(text, "\n\n"), "%s ends in one line end", command)
	for _, line := range strings.Split(text, "\n") {
		most := 80
		if strings.Count(line, "  ") > 2 { // figures are not cut
			most = 105
		}
		require.LessOrEqual(t, ansi.StringWidth(line), most, "%s: %s", command, line)
		require.Equal(t, strings.TrimRight(line, " "), line, "%s: blanks at the end of a line", command)
	}
}

// soundJSON holds that a list is a list, with nothing in it or something, and never null, and
// that limits keep their order.
func soundJSON(t *testing.T, where string, x any) {
	t.Helper()
	switch x := x.(type) {
	case map[string]any:
		for key, v := range x {
			if slices.Contains([]string{"notes", "gaps", "steps", "pairs", "workflows", "stands_out", "points", "days", "tasks", "lines", "changes", "choices", "time_next", "assumed_same"}, key) {
				require.NotNil(t, v, "%s: %s", where, key)
			}
			soundJSON(t, where+"."+key, v)
		}
		for _, pair := range [][2]string{{"low_h", "high_h"}, {"next_low_h", "next_high_h"}, {"low_h", "hours_h"}, {"hours_h", "high_h"}, {"low_h", "difference_h"}, {"difference_h", "high_h"}, {"per_head_low", "per_head_high"}, {"unit_low_s", "unit_high_s"}, {"setup_low_s", "setup_high_s"}} {
			low, okLow := x[pair[0]].(float64)
			high, okHigh := x[pair[1]].(float64)
			if okLow && okHigh {
				require.LessOrEqual(t, low, high+1e-9*max(1, high), "%s: %v", where, pair)
			}
		}
	case []any:
		for i, v := range x {
			soundJSON(t, fmt.Sprint(where, "[", i, "]"), v)
		}
	}
}

// soundCSV holds that a table has a heading over each column and as many fields in every row.
func soundCSV(t *testing.T, command, text string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err, "%s: %s", command, text)
	if len(rows) > 0 {
		for _, name := range rows[0] {
			require.NotEmpty(t, name, "%s: %v", command, rows[0])
		}
		require.Len(t, slices.Compact(slices.Sorted(slices.Values(rows[0]))), len(rows[0]), "%s: a heading stands twice: %v", command, rows[0])
	}
	return rows
}

var cellEdge = regexp.MustCompile(`(^|[^\\])\|`)

// soundMarkdown holds that the rows of a table have as many cells as its heading.
func soundMarkdown(t *testing.T, command, text string) {
	t.Helper()
	cells := 0
	for _, line := range strings.Split(text, "\n") {
		if !strings.HasPrefix(line, "|") {
			cells = 0
			continue
		}
		n := len(cellEdge.FindAllString(line, -1))
		if cells > 0 {
			require.Equal(t, cells, n, "%s: %s", command, line)
		}
		cells = n
	}
}

// Every table that a command names can be had, alone and sound; one that it has not is told
// with those that it has.
func TestEveryTable(t *testing.T) {
	dir := studyHolding(t, oddStudies()["four of each"])
	tables := 0
	for command := range answering {
		first := headhoursIn(dir, command, "--format", "csv")
		require.Equal(t, done, first.status, first.err)
		_, others, some := strings.Cut(first.err, "--table has the others: ")
		if !some {
			continue
		}
		others = strings.TrimSpace(strings.SplitN(others, "\n", 2)[0])
		seen := []string{first.out}
		for _, name := range strings.Split(others, ", ") {
			got := headhoursIn(dir, command, "--format", "csv", "--table", name)
			require.Equal(t, done, got.status, "%s --table %s: %s", command, name, got.err)
			soundCSV(t, command+" "+name, got.out)
			assert.NotContains(t, seen, got.out, "%s --table %s", command, name)
			assert.NotContains(t, got.err, "--table has the others")
			seen = append(seen, got.out)
			tables++
		}
		got := headhoursIn(dir, command, "--format", "csv", "--table", "nothing")
		assert.Equal(t, badUsage, got.status)
		assert.Contains(t, got.err, `no table is named "nothing": there is `)
		assert.Empty(t, got.out)
		got = headhoursIn(dir, command, "--table", "nothing")
		assert.Equal(t, badUsage, got.status)
		assert.Contains(t, got.err, "--table is for --format csv")
	}
	assert.Greater(t, tables, 5)
}

// The same study gives the same bytes.
func TestSameStudySameBytes(t *testing.T) {
	t.Parallel()
	dir := studyHolding(t, oddStudies()["four of each"])
	for command := range answering {
		for _, format := range []string{"text", "json"} {
			assert.Equal(t, headhoursIn(dir, command, "--format", format), headhoursIn(dir, command, "--format", format), command)
		}
	}
}
