package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// aLog is a log of a step "sow" with a row in the midst.
func aLog(row string) string {
	return "date,step,count,time,worker\n2026-03-02,sow,10,60,w1\n" + row + "\n2026-03-02,sow,20,110,w1\n"
}

// wrongData are studies with one thing wrong each, and what is said of it.
var wrongData = []struct{ name, file, text, want string }{
	{"a count with a letter", "timings/a.csv", aLog("2026-03-02,sow,1o,60,w1"), `timings/a.csv:3:16: `},
	{"a count below 0", "timings/a.csv", aLog("2026-03-02,sow,-1,60,w1"), `timings/a.csv:3:16: `},
	{"a count of 0", "timings/a.csv", aLog("2026-03-02,sow,0,60,w1"), `timings/a.csv:3:16: `},
	{"no count", "timings/a.csv", aLog("2026-03-02,sow,,60,w1"), `timings/a.csv:3:16: `},
	{"a time that is none", "timings/a.csv", aLog("2026-03-02,sow,10,1:75,w1"), `timings/a.csv:3:19: `},
	{"a time of 0", "timings/a.csv", aLog("2026-03-02,sow,10,0,w1"), `timings/a.csv:3:19: `},
	{"a day that is none", "timings/a.csv", aLog("2026-02-30,sow,10,60,w1"), `timings/a.csv:3:1: `},
	{"a step that the study lacks", "timings/a.csv", aLog("2026-03-02,saw,10,60,w1"), `timings/a.csv:3:12: `},
	{"a field too many", "timings/a.csv", aLog("2026-03-02,sow,10,60,w1,x"), `timings/a.csv:3:25: `},
	{"an open quote", "timings/a.csv", aLog(`2026-03-02,"sow,10,60,w1`), `timings/a.csv:3:12: `},
	{"no column of steps", "timings/a.csv", "count,time\n10,60\n", `timings/a.csv:1:`},
	{"a workbook that is none", "timings/a.xlsx", "PK\x03\x04 nothing", `timings/a.xlsx`},
	{"a log that is no text", "timings/a.csv", "step,count,time\nsow\x00,10,60\n", `timings/a.csv`},
	{"a study that is no TOML", "study.toml", "[study\nheads = 10\n", `study.toml:1:`},
	{"a key that there is not", "study.toml", strings.Replace(small, "heads", "head", 1), `study.toml:3:1: unknown key "head" in [study]: is "heads" meant?`},
	{"a task of a step that there is not", "study.toml", strings.Replace(small, `step = "sow"`, `step = "thin"`, 1), `study.toml:8:20: step: no [[step]] is named "thin"`},
	{"a journal that is none", "journal/2026-03-02T0810-w1-a3f9.jsonl", "{\n", `journal/2026-03-02T0810-w1-a3f9.jsonl:1: `},
	{"a journal by another name", "journal/monday.jsonl", `{"session":"2026-03-02T0810-w1-a3f9","seq":1,"id":"a","kind":"begin","wall":"2026-03-02T08:10:00Z","boot":"b","mono":0}` + "\n", `journal/monday.jsonl:1: `},
}

// Whatever is wrong with the data, every command that reads it says the same of it, names the
// place, answers nothing and ends with status 1.
func TestWrongDataForEveryCommand(t *testing.T) {
	for _, c := range wrongData {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			files := map[string]string{"study.toml": small, "timings/good.csv": aLog("2026-03-02,sow,30,165,w2")}
			files[c.file] = c.text
			dir := studyHolding(t, files)
			check := headhoursIn(dir, "check")
			require.Equal(t, badData, check.status, check.err)
			require.Contains(t, check.err, dir+"/"+c.want)
			lines := 0
			for _, l := range strings.Split(check.err, "\n") {
				if strings.HasPrefix(l, dir) {
					lines++
				}
			}
			assert.Equal(t, 1, lines, "one mistake is told once: %s", check.err)
			for command := range answering {
				if command == "check" {
					continue // its answer is the list
				}
				got := headhoursIn(dir, command)
				require.Equal(t, badData, got.status, "%s: %s", command, got.err)
				require.Empty(t, got.out, command)
				require.Contains(t, got.err, dir+"/"+c.want, command)
			}
		})
	}
}

// All mistakes of all files are told at once, in the order of files and lines.
func TestAllMistakesAtOnce(t *testing.T) {
	t.Parallel()
	files := map[string]string{}
	for _, c := range wrongData {
		if c.file == "timings/a.csv" && strings.HasPrefix(c.text, "date,") && c.name != "an open quote" {
			files["timings/"+strings.ReplaceAll(c.name, " ", "_")+".csv"] = c.text
		}
	}
	files["study.toml"] = strings.Replace(small, "heads = 10", "heads = 10\nheds = 3\nallowance = 7", 1)
	dir := studyHolding(t, files)
	for _, command := range []string{"check", "compare"} {
		got := headhoursIn(dir, command)
		require.Equal(t, badData, got.status)
		var places []string
		for _, l := range strings.Split(got.err, "\n") {
			if rest, ok := strings.CutPrefix(l, dir+"/"); ok {
				places = append(places, strings.SplitN(rest, ": ", 2)[0])
			}
		}
		require.Len(t, places, len(files)-1+2, got.err)
		assert.Equal(t, "study.toml:4:1", places[0])
		assert.Equal(t, "study.toml:5:13", places[1])
		assert.IsIncreasing(t, places[2:])
	}
}

// A folder that is no study is told with what to do, by every command that needs one.
func TestNoStudyForEveryCommand(t *testing.T) {
	t.Parallel()
	for _, dir := range []string{t.TempDir(), t.TempDir() + "/nowhere"} {
		for command := range answering {
			got := headhoursIn(dir, command)
			require.Equal(t, badData, got.status, "%s: %s", command, got.err)
			require.Contains(t, got.err, "no study.toml", command)
			require.Contains(t, got.err, "headhours init", command)
			require.Empty(t, got.out, command)
		}
	}
}

// A log given in place of the study's own is read alone; one that is not there, is a folder
// or is empty is told by its name.
func TestLogsThatAreGiven(t *testing.T) {
	t.Parallel()
	dir := studyHolding(t, map[string]string{"study.toml": small, "timings/a.csv": aLog("2026-03-02,sow,1o,60,w1"), "b.csv": aLog("2026-03-02,sow,30,165,w2"), "empty.csv": "", "folder.csv/x": ""})
	got := headhoursIn(dir, "fit", "--log", dir+"/b.csv", "--format", "csv")
	require.Equal(t, done, got.status, got.err)
	assert.Contains(t, got.out, "sow,3,")
	for file, want := range map[string]string{"no.csv": "no such file", "empty.csv": "empty", "folder.csv": "folder"} {
		for _, command := range []string{"fit", "check", "compare"} {
			got := headhoursIn(dir, command, "--log", dir+"/"+file)
			require.Equal(t, badData, got.status, "%s --log %s: %s", command, file, got.err)
			require.Contains(t, got.err, file, command)
			require.Contains(t, got.err, want, command)
		}
	}
	twice := headhoursIn(dir, "fit", "--log", dir+"/b.csv", "--log", dir+"/b.csv", "--format", "csv")
	assert.NotContains(t, twice.out, "sow,6,", "a log given twice counts once")
}
