package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

const (
	small   = "[[step]]\nname = 'sow'\n[[step]]\nname = 'thin'\n"
	header  = "step,count,time\n"
	sowings = header + "sow,40,187\nsow,20,95\n"
)

// studyIn writes files, by name, into a new folder. A name that ends in a slash
// is a folder.
func studyIn(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if strings.HasSuffix(name, "/") {
			require.NoError(t, os.MkdirAll(path, 0o755))
			continue
		}
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	return dir
}

// told is a list of problems with the study folder taken off their places.
func told(dir string, problems []study.Problem) []string {
	var lines []string
	for _, p := range problems {
		lines = append(lines, strings.ReplaceAll(filepath.ToSlash(p.Error()), filepath.ToSlash(dir)+"/", ""))
	}
	return lines
}

func openProblems(t *testing.T, dir string, logs ...string) []string {
	t.Helper()
	o, err := Open(dir, logs, How{Sums: true})
	var problems study.Problems
	require.ErrorAs(t, err, &problems)
	assert.Equal(t, Opened{Dir: dir, Warnings: o.Warnings}, o)
	return told(dir, problems)
}

func readingsOf(t *testing.T, o Opened) []study.Reading {
	t.Helper()
	readings, err := o.everyReading()
	require.NoError(t, err)
	return readings
}

func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

func TestOpen(t *testing.T) {
	o, err := Open(filepath.Join("testdata", "chard", "."), nil, How{Sums: true})
	require.NoError(t, err)
	assert.True(t, o.HasStudy)
	assert.Equal(t, "chard in rafts", o.Study.Name)
	assert.Empty(t, o.Warnings)
	require.Len(t, readingsOf(t, o), 46)
	assert.Equal(t, study.Place{File: filepath.Join("testdata", "chard", "timings", "grow_steps.csv"), Line: 2, Column: 1}, readingsOf(t, o)[0].Place)
	// digests as sha256sum (GNU coreutils) gives them
	assert.Equal(t, []File{
		{"study.toml", "108b34dee48fddd70cbb1c8a342717d9c1c16bc13fb10afe53a86e1858167488", 0, nil, 0},
		{"timings/grow_steps.csv", "d78b2d4e55eb74578aa797a6fc2885d522bdcdbca1ee1a90cdef76372e6c6870", 46, nil, 0},
	}, o.Files)
}

func TestOpenOwnLogs(t *testing.T) {
	tabs := "step\tcount\ttime\tvoid\nthin\t3\t9,5\tphone rang\n"
	dir := studyIn(t, map[string]string{
		"study.toml":            small,
		"timings/b.TSV":         tabs,
		"timings/a.csv":         sowings,
		"timings/.hidden.csv":   "nonsense",
		"timings/.#a.csv":       "nonsense",
		"timings/a.csv~":        "nonsense",
		"timings/season.xls":    "PK",
		"timings/notes.txt":     "cold week",
		"timings/last year/":    "",
		"timings/.kept/x.csv":   "nonsense",
		"elsewhere/c.csv":       "nonsense",
		"timings/last year/d.c": "",
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	var steps []string
	for _, r := range readingsOf(t, o) {
		steps = append(steps, r.Step+" "+filepath.Base(r.Place.String()))
	}
	assert.Equal(t, []string{"sow a.csv:2:1", "sow a.csv:3:1", "thin b.TSV:2:1"}, steps)
	assert.Equal(t, "phone rang", readingsOf(t, o)[2].Void)
	assert.Equal(t, []File{
		{"study.toml", digest(small), 0, nil, 0},
		{"timings/a.csv", digest(sowings), 2, nil, 0},
		{"timings/b.TSV", digest(tabs), 1, nil, 1},
	}, o.Files)
	assert.Equal(t, []string{
		"timings/a.csv~: is not read: the name of a task log ends in .csv, .tsv, .xlsx or .ods",
		"timings/last year: is not read: task logs stand in timings itself, not in a folder of it",
		"timings/notes.txt: is not read: the name of a task log ends in .csv, .tsv, .xlsx or .ods",
		"timings/season.xls: is not read: the name of a task log ends in .csv, .tsv, .xlsx or .ods",
	}, told(dir, o.Warnings))
}

func TestOpenHere(t *testing.T) {
	t.Chdir(studyIn(t, map[string]string{"study.toml": small, "timings/a.csv": sowings}))
	o, err := Open(".", nil, How{Sums: true})
	require.NoError(t, err)
	require.Len(t, readingsOf(t, o), 2)
	assert.Equal(t, filepath.Join("timings", "a.csv"), readingsOf(t, o)[0].Place.File)
	assert.Equal(t, "timings/a.csv", o.Files[1].Name)
}

func TestOpenWithoutLogs(t *testing.T) {
	for name, files := range map[string]map[string]string{
		"no folder of logs": {"study.toml": small},
		"an empty one":      {"study.toml": small, "timings/": ""},
	} {
		t.Run(name, func(t *testing.T) {
			o, err := Open(studyIn(t, files), nil, How{Sums: true})
			require.NoError(t, err)
			assert.Empty(t, readingsOf(t, o))
			assert.Len(t, o.Files, 1)
			assert.Len(t, o.Study.Steps, 2)
		})
	}
}

func TestOpenGivenLogs(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml": small, "timings/a.csv": "nonsense", "timings/x.csv": sowings,
		"alone/": "", "alone/z.dat": header + "dibble,1,7\n",
	})
	x, z := filepath.Join(dir, "timings", "x.csv"), filepath.Join(dir, "alone", "z.dat")

	t.Run("in place of the study's own", func(t *testing.T) {
		o, err := Open(dir, []string{filepath.Join(dir, "timings") + "/./x.csv"}, How{Sums: true})
		require.NoError(t, err)
		assert.True(t, o.HasStudy)
		assert.Len(t, readingsOf(t, o), 2)
		assert.Equal(t, x, readingsOf(t, o)[0].Place.File)
		assert.Equal(t, []File{{"study.toml", digest(small), 0, nil, 0}, {"timings/x.csv", digest(sowings), 2, nil, 0}}, o.Files)
	})
	t.Run("without a study", func(t *testing.T) {
		o, err := Open(filepath.Join(dir, "alone"), []string{x, z}, How{Sums: true})
		require.NoError(t, err)
		assert.False(t, o.HasStudy)
		assert.Equal(t, study.Study{}, o.Study)
		require.Len(t, readingsOf(t, o), 3)
		assert.Equal(t, "dibble", readingsOf(t, o)[0].Step, "in order of file name, and of any step")
		assert.Equal(t, []File{{"z.dat", digest(header + "dibble,1,7\n"), 1, nil, 0}, {"../timings/x.csv", digest(sowings), 2, nil, 0}}, o.Files)
	})
	t.Run("a step that the study lacks", func(t *testing.T) {
		got := openProblems(t, dir, z)
		require.Len(t, got, 1)
		assert.Contains(t, got[0], "alone/z.dat:2:1: ")
		assert.Contains(t, got[0], `"dibble"`)
	})
	t.Run("one twice, and one that is not there", func(t *testing.T) {
		assert.Equal(t, []string{
			"timings/none.csv: cannot be read: no such file or directory",
			"timings/x.csv: is the same file as timings/x.csv, want each log once",
		}, openProblems(t, dir, x, filepath.Join(dir, "timings", "none.csv"), x))
	})
}

func TestOpenNoStudy(t *testing.T) {
	dir := studyIn(t, map[string]string{"timings/a.csv": sowings})
	for _, dir := range []string{dir, filepath.Join(dir, "none")} {
		_, err := Open(dir, nil, How{Sums: true})
		assert.ErrorIs(t, err, ErrNoStudy)
		assert.Contains(t, err.Error(), dir)
	}
}

// TestOpenProblems holds that the problems of all files come at once.
func TestOpenProblems(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":         small + "[stdy]\n[[grow]]\nname = 'g'\nworkflow = 'w'\n",
		"timings/a.csv":      header + "sow,4,x\nsaw,1,9\n",
		"timings/b.csv/":     "",
		"timings/c.csv":      "",
		"timings/d.csv":      sowings,
		"timings/season.xls": "PK",
	})
	require.NoError(t, os.Symlink("nowhere.csv", filepath.Join(dir, "timings", "e.csv")))
	require.NoError(t, os.Link(filepath.Join(dir, "timings", "d.csv"), filepath.Join(dir, "timings", "f.csv")))
	got := openProblems(t, dir)
	starts := []string{
		`study.toml:5:2: unknown key "stdy" in a study file: is "study" meant?`,
		`study.toml:8:12: workflow: no [[workflow]] is named "w": name one that is there, or add it`,
		`timings/a.csv:2:7: `,
		`timings/a.csv:3:1: `,
		`timings/b.csv: is a folder, not a task log`,
		`timings/c.csv`,
		`timings/e.csv: cannot be read: no such file or directory`,
		`timings/f.csv: is the same file as timings/d.csv, want each log once`,
	}
	require.Len(t, got, len(starts), "%v", got)
	for i, start := range starts {
		assert.True(t, strings.HasPrefix(got[i], start), "%s: want %s", got[i], start)
	}
	o, _ := Open(dir, nil, How{Sums: true})
	assert.Equal(t, []string{"timings/season.xls: is not read: the name of a task log ends in .csv, .tsv, .xlsx or .ods"}, told(dir, o.Warnings))
}

// A study that a syntax error cuts short may name more steps below it, so logs
// are not held against it.
func TestOpenSyntaxError(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":    "[[step]]\nname = 'sow'\n[[step]\nname = 'thin'\n",
		"timings/a.csv": header + "thin,4,9\n",
	})
	assert.Equal(t, []string{"study.toml:3:7: cannot be read: the ]] of a heading is missing, as in [[step]]"}, openProblems(t, dir))
}

func TestOpenOddStudyFile(t *testing.T) {
	t.Run("a folder", func(t *testing.T) {
		dir := studyIn(t, map[string]string{"study.toml/": "", "timings/a.csv": header + "sow,4,x\n"})
		got := openProblems(t, dir)
		require.Len(t, got, 2)
		assert.Equal(t, "study.toml: is a folder, want a file", got[0])
		assert.Contains(t, got[1], "timings/a.csv:2:7: ")
	})
	t.Run("in a file", func(t *testing.T) {
		dir := filepath.Join(studyIn(t, map[string]string{"study.toml": small}), "study.toml")
		assert.Equal(t, []string{
			"study.toml: cannot be read: not a directory",
			"timings: cannot be read: not a directory",
			"journal: cannot be read: not a directory",
		}, openProblems(t, dir))
	})
	t.Run("empty", func(t *testing.T) {
		dir := studyIn(t, map[string]string{"study.toml": ""})
		assert.Equal(t, []string{"study.toml:1:1: the study file is empty, want at least a [[step]] and a [[workflow]]"}, openProblems(t, dir))
	})
	t.Run("logs as a file", func(t *testing.T) {
		dir := studyIn(t, map[string]string{"study.toml": small, "timings": sowings})
		assert.Equal(t, []string{"timings: cannot be read: not a directory"}, openProblems(t, dir))
	})
}

func TestOpenNoPermission(t *testing.T) {
	if runtime.GOOS == "windows" || os.Getuid() == 0 {
		t.Skip("who runs this may read any file")
	}
	dir := studyIn(t, map[string]string{"study.toml": small, "timings/a.csv": sowings})
	require.NoError(t, os.Chmod(filepath.Join(dir, "study.toml"), 0))
	require.NoError(t, os.Chmod(filepath.Join(dir, "timings", "a.csv"), 0))
	assert.Equal(t, []string{
		"study.toml: cannot be read: permission denied",
		"timings/a.csv: cannot be read: permission denied",
	}, openProblems(t, dir))
}

// A judged time that may mean two things is a warning, as in a log.
func TestOpenDoubtfulEstimate(t *testing.T) {
	dir := studyIn(t, map[string]string{"study.toml": "[[step]]\nname = 'sow'\nestimate = { low = '1.30', likely = 1.50, high = '2.0' }\n"})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, &study.Estimate{Low: 1.3, Likely: 1.5, High: 2}, o.Study.Steps[0].Estimate)
	assert.Equal(t, []string{`study.toml:3:20: low: "1.30" is read as seconds, write it as m:ss or with min if minutes were meant`}, told(dir, o.Warnings))
}
