package folder

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

const (
	monday  = "2026-03-02T0810-w1-a3f9"
	tuesday = "2026-03-03T0900-w2-b001"
)

// session writes a journal, an event every ten seconds; each is what follows its
// kind.
func session(name string, events ...string) string {
	var b strings.Builder
	for i, e := range events {
		fmt.Fprintf(&b, `{"session":%q,"seq":%d,"id":"e%d","wall":"%sT08:1%d:%02dZ","boot":"b","mono":%d,"kind":%s}`+"\n",
			name, i+1, i+1, name[:10], i/6, 10*(i%6), 10_000*i, e)
	}
	return b.String()
}

const (
	begun     = `"begin","grow":"g1","worker":"w1"`
	sow       = `"start","step":"sow","count":40`
	thin      = `"next","step":"thin","count":7`
	thinAlone = `"next","step":"thin"`
	stopped   = `"stop"`
	ended     = `"end"`
	dropped   = `"void","text":"tray dropped"`
)

func steps(readings []study.Reading) []string {
	var lines []string
	for _, r := range readings {
		lines = append(lines, fmt.Sprintf("%s %g of %g %s", r.Step, r.Seconds, r.Count, r.Journal))
	}
	return lines
}

func TestOpenJournals(t *testing.T) {
	first, second := session(monday, begun, sow, thin, stopped, dropped, ended), session(tuesday, begun, thin, stopped, ended)
	dir := studyIn(t, map[string]string{
		"study.toml":                        small,
		"timings/a.csv":                     sowings,
		"journal/" + tuesday + ".jsonl":     second,
		"journal/" + monday + ".jsonl":      first,
		"journal/" + monday + ".jsonl.torn": "{\n",
		"journal/.hidden.jsonl":             "nonsense",
		"journal/" + monday + ".jsonl.bak":  first,
		"journal/2025/" + monday + ".jsonl": first,
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, []string{
		"sow 187 of 40 ", "sow 95 of 20 ",
		"sow 10 of 40 " + monday + ".jsonl:2", "thin 10 of 7 " + monday + ".jsonl:3",
		"thin 10 of 7 " + tuesday + ".jsonl:2",
	}, steps(readingsOf(t, o)))
	assert.Equal(t, study.Place{File: filepath.Join(dir, "journal", monday+".jsonl"), Line: 2}, readingsOf(t, o)[2].Place)
	assert.Equal(t, "tray dropped", readingsOf(t, o)[3].Void)
	assert.Equal(t, []File{
		{"study.toml", digest(small), 0, nil, 0},
		{"timings/a.csv", digest(sowings), 2, nil, 0},
		{"journal/" + monday + ".jsonl", digest(first), 2, nil, 1},
		{"journal/" + tuesday + ".jsonl", digest(second), 1, nil, 0},
	}, o.Files)
	assert.Equal(t, []string{
		"journal/2025: is not read: journals stand in journal itself, not in a folder of it",
		"journal/" + monday + ".jsonl.bak: is not read: the name of a journal ends in .jsonl",
	}, told(dir, o.Warnings))
	require.Len(t, o.Journals, 2)
	assert.Equal(t, tuesday, o.Journals[1].Session.Name)

	t.Run("not beside logs that are given", func(t *testing.T) {
		o, err := Open(dir, []string{filepath.Join(dir, "timings", "a.csv")}, How{Sums: true})
		require.NoError(t, err)
		assert.Len(t, readingsOf(t, o), 2)
		assert.Empty(t, o.Journals)
	})
}

// A reading that a log holds is not read again, whatever became of it there.
func TestOpenExportedJournal(t *testing.T) {
	log := "step,count,time,journal\nsow,41,11," + monday + ".jsonl:2\nthin,1,2,field book 3\nthin,1,2,field book 3\n"
	dir := studyIn(t, map[string]string{
		"study.toml": small, "timings/x.csv": log,
		"journal/" + monday + ".jsonl": session(monday, begun, sow, thin, stopped, ended),
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, []string{`timings/x.csv:2:1: journal: "` + monday + `.jsonl:2" was put right since in one of the two: time 11 s in the log, 10 s in the journal; ` +
		`count 41 in the log, 40 in the journal. The log's counts: put the row right, or take it out to have what the journal says`}, told(dir, o.Warnings))
	assert.Equal(t, []string{
		"sow 11 of 41 " + monday + ".jsonl:2", "thin 2 of 1 field book 3", "thin 2 of 1 field book 3", "thin 10 of 7 " + monday + ".jsonl:3",
	}, steps(readingsOf(t, o)))
	assert.Equal(t, 1, o.Files[2].Readings)

	for _, other := range []string{"", filepath.Join(dir, "timings", "none.csv"), filepath.Join(dir, "study.toml")} {
		readings, logged, err := o.Unlogged(other)
		require.NoError(t, err)
		assert.Equal(t, []string{"thin 10 of 7 " + monday + ".jsonl:3"}, steps(readings))
		assert.Equal(t, 1, logged)
	}
}

// A log that is about to be written anew holds nothing, and may lose nothing.
func TestUnloggedTarget(t *testing.T) {
	header := "date,grow,step,worker,start,end,time,count,journal"
	row := "2026-03-02,g1,sow,w1,8:10:10,8:10:20,10,40," + monday + ".jsonl:2\n"
	second := "2026-03-02,g1,thin,w1,8:10:20,8:10:30,10,7," + monday + ".jsonl:3\n"
	lost := "x.csv is not as its journals say, and what differs would be lost: give another file to write to, or take this one away first\n  "
	for _, c := range []struct{ name, log, want string }{
		{"as it was written", header + "\n" + row, ""},
		{"all of it, in another order and form", header + "\n" + strings.Replace(second, ",10,7", ",0:10,7.0", 1) + row, ""},
		{"no rows", header + "\n", ""},
		{"a count", header + "\n" + row + strings.Replace(second, ",7,", ",8,", 1), lost + `line 3 has count "8" instead of "7"`},
		{"a name and a time", header + "\n" + strings.Replace(strings.Replace(row, "g1", "", 1), ",10,", ",9,", 1), lost + `line 2 has grow blank instead of "g1", time "9" instead of "10"`},
		{"a reason to void", header + ",void\n" + strings.Replace(row, "\n", ",dropped\n", 1), lost + `line 2 has void "dropped" instead of blank`},
		{"a column", header + ",weather\n" + strings.Replace(row, "\n", ",rain\n", 1), lost + `it has columns that no journal has: "weather"`},
		{"many rows", header + "\n" + strings.Repeat(strings.Replace(row, "40", "41", 1), 7), lost +
			strings.Repeat(`line N has count "41" instead of "40"`+"\n  ", 5) + "and 2 more"},
		{"a row of its own", header + "\n" + strings.Replace(row, monday+".jsonl:2", "", 1), `x.csv:2:1: this reading of "sow" is in no journal and would be lost: give another file to write to`},
		{"a reading that is no more", header + "\n" + strings.Replace(row, ":2\n", ":9\n", 1), `x.csv:2:1: this reading of "sow" is in no journal and would be lost: give another file to write to`},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := studyIn(t, map[string]string{
				"study.toml": small, "timings/x.csv": c.log, "timings/y.csv": "step,count,time,journal\nthin,1,2,\n",
				"journal/" + monday + ".jsonl": session(monday, begun, sow, thin, stopped, ended),
			})
			o, err := Open(dir, nil, How{})
			require.NoError(t, err)
			readings, logged, err := o.Unlogged(dir + "/./timings/x.csv")
			if c.want == "" {
				require.NoError(t, err)
				assert.Len(t, readings, 2)
				assert.Zero(t, logged)
				return
			}
			require.Error(t, err)
			text := strings.TrimPrefix(err.Error(), filepath.Join(dir, "timings")+string(filepath.Separator))
			for n := 2; n < 7 && strings.Contains(c.want, "line N"); n++ {
				c.want = strings.Replace(c.want, "line N", fmt.Sprintf("line %d", n), 1)
			}
			assert.Equal(t, c.want, text)
		})
	}
}

// What another log holds too is not lost with the target.
func TestUnloggedTargetHeldTwice(t *testing.T) {
	log := "step,count,time,journal\nsow,41,11," + monday + ".jsonl:2\n"
	dir := studyIn(t, map[string]string{
		"study.toml": small, "timings/x.csv": log, "timings/y.csv": log,
		"journal/" + monday + ".jsonl": session(monday, begun, sow, thin, stopped, ended),
	})
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	readings, logged, err := o.Unlogged(filepath.Join(dir, "timings", "x.csv"))
	require.NoError(t, err)
	assert.Len(t, readings, 1)
	assert.Equal(t, 1, logged)
}

// Exported and read again, journals come to the same readings, each once.
func TestExportedReadingsAreTheSame(t *testing.T) {
	files := map[string]string{
		"study.toml": small, "timings/a.csv": sowings,
		"journal/" + monday + ".jsonl":  session(monday, begun, sow, thin, stopped, dropped, sow, `"pause"`, `"resume"`, `"people","people":2`, stopped, ended),
		"journal/" + tuesday + ".jsonl": session(tuesday, begun, thin, `"lot","count":3`, `"amend","end":"2026-03-03T08:10:21.5Z"`, ended),
	}
	before, err := Open(studyIn(t, files), nil, How{Sums: true})
	require.NoError(t, err)
	readings, _, err := before.Unlogged("")
	require.NoError(t, err)
	var log bytes.Buffer
	require.NoError(t, tasklog.Write(&log, readings, "", false))
	files["timings/x.csv"] = log.String()
	after, err := Open(studyIn(t, files), nil, How{Sums: true})
	require.NoError(t, err)
	var kept [2][]study.Reading
	for i, o := range []Opened{before, after} {
		kept[i] = readingsOf(t, o)
		for j := range kept[i] {
			kept[i][j].Place = study.Place{}
		}
	}
	require.Len(t, kept[0], 7)
	assert.Equal(t, kept[0], kept[1])
	assert.Equal(t, 0, after.Files[3].Readings)
	left, logged, err := after.Unlogged("")
	require.NoError(t, err)
	assert.Empty(t, left)
	assert.Equal(t, 5, logged)
}

// What is put right in a journal after its readings were exported is in no answer, and that is
// said.
func TestOpenCorrectedAfterExport(t *testing.T) {
	first := session(monday, begun, sow, thin, stopped, `"start","step":"sow","count":5,"setups":2`, stopped)
	header := "step,count,time,setups,people,rating,void,note,journal\n"
	row := func(cells string, line int) string { return fmt.Sprintf("%s,%s.jsonl:%d\n", cells, monday, line) }
	sown, thinned, again := row("sow,40,10.4,,,,,mine", 2), row("thin,7,10,,,,,", 3), row("sow,5,10,2,,,,", 5)
	for _, c := range []struct{ name, events, log, want string }{
		{"nothing", "", sown + thinned + again, ""},
		{"a note", `"note","of":"e2","text":"cold"`, sown, ""},
		{"a count", `"count","of":"e2","count":42`, sown + thinned, "2:1: 2: count 40 in the log, 42 in the journal"},
		{"void", `"void","of":"e3","text":"dropped"`, sown + thinned, "3:1: 3: void no in the log, yes in the journal"},
		{"a step", `"amend","of":"e3","step":"sow"`, thinned, `2:1: 3: step "thin" in the log, "sow" in the journal`},
		{"people and setups", `"amend","of":"e5","people":2,"setups":1`, again, "2:1: 5: setups 2 in the log, 1 in the journal; people 1 in the log, 2 in the journal"},
		{"an end", `"amend","of":"e3","end":"2026-03-02T08:10:25Z"`, thinned, "2:1: 3: time 10 s in the log, 5 s in the journal"},
		{"taken back", `"undo","of":"e5"`, again, "2:1: 5: the journal has no such reading now"},
		{"a rating in the log", "", row("thin,7,10,,,80,,", 3), "2:1: 3: rating 80 in the log, 100 in the journal"},
		{"setups taken out of the log", "", row("sow,5,10,,,,,", 5), "2:1: 5: setups blank in the log, 2 in the journal"},
		{"several", "", strings.ReplaceAll(sown+thinned+again, ",10", ",20"), "2:1: 2: time 20.4 s in the log, 10 s in the journal"},
		{"two", "", strings.ReplaceAll(sown+thinned, ",10", ",20"), "2:1: 2: time 20.4 s in the log, 10 s in the journal"},
		{"of a journal that is not here", "", strings.ReplaceAll(thinned, "a3f9", "b001"), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			events := first
			if c.events != "" {
				events = session(monday, begun, sow, thin, stopped, `"start","step":"sow","count":5,"setups":2`, stopped, c.events)
			}
			dir := studyIn(t, map[string]string{"study.toml": small, "timings/x.csv": header + c.log, "journal/" + monday + ".jsonl": events})
			o, err := Open(dir, nil, How{})
			require.NoError(t, err)
			var want []string
			if at, text, ok := strings.Cut(c.want, ": "); ok {
				line, text, _ := strings.Cut(text, ": ")
				text = fmt.Sprintf("timings/x.csv:%s: journal: \"%s.jsonl:%s\" was put right since in one of the two: %s. The log's counts: put the row right, or take it out to have what the journal says", at, monday, line, text)
				text += map[string]string{"two": "; so with 1 more row of this log", "several": "; so with 2 more rows of this log"}[c.name]
				want = append(want, text)
			}
			got := slices.DeleteFunc(told(dir, o.Warnings), func(w string) bool { return strings.Contains(w, "stop is left out") })
			assert.Equal(t, want, got)
		})
	}
}

func TestOpenExportedTwice(t *testing.T) {
	row := "step,count,time,journal\nsow,40,10," + monday + ".jsonl:2\n"
	dir := studyIn(t, map[string]string{"study.toml": small, "timings/x.csv": row, "timings/y.csv": row})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, []string{"timings/y.csv:2:1: journal: \"" + monday + ".jsonl:2\" stands at timings/x.csv:2:1 too and counts twice: void or delete one of the two"},
		told(dir, o.Warnings))
}

// What is voided before it is counted is no reading, and is told of all the same.
func TestVoidedUncounted(t *testing.T) {
	file := "journal/" + monday + ".jsonl"
	dir := studyIn(t, map[string]string{
		"study.toml": small,
		file:         session(monday, begun, sow, thinAlone, stopped, dropped, ended),
	})
	o, err := Open(dir, nil, How{Name: func(path string) string { return strings.TrimPrefix(filepath.ToSlash(path), filepath.ToSlash(dir)+"/") }})
	require.NoError(t, err)
	assert.Empty(t, o.Warnings)
	assert.Equal(t, []condense.VoidedReading{{Step: "thin", File: file, Line: 3, Seconds: 10, Reason: "tray dropped"}}, o.VoidedUncounted())
	voided, err := o.Readings.Voided()
	require.NoError(t, err)
	assert.Empty(t, voided)
}

// What lacks its count or its end is no reading, and is said at its place.
func TestOpenUnfinishedJournal(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":                   small,
		"journal/" + monday + ".jsonl": session(monday, begun, sow, thinAlone, stopped, `"start","step":"sow","count":3`) + `{"session":`,
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, []string{"sow 10 of 40 " + monday + ".jsonl:2"}, steps(readingsOf(t, o)))
	j := "journal/" + monday + ".jsonl"
	assert.Equal(t, []string{
		j + `:6: torn when the recorder died, and left out: "{\"session\":"`,
		j + `:3: the reading of "thin" from 08:10:20 needs a count: it is not counted in until then`,
		j + `:5: the reading of "sow" from 08:10:40 has not ended: it is not counted in until then`,
	}, told(dir, o.Warnings))
}

// The problems of journals come with all the others.
func TestOpenJournalProblems(t *testing.T) {
	files := map[string]string{
		"study.toml":                             small + "[[workflow]]\nname = 'tray'\ntasks = [{ step = 'sow', day = 0, count = 'seeds' }]\n",
		"timings/a.csv":                          header + "sow,4,x\n",
		"journal/" + monday + ".jsonl":           session(monday, begun, `"start","step":"saw","workflow":"raft"`, `"next","step":"thin"`, stopped),
		"journal/" + tuesday + ".jsonl":          session(tuesday, begun, ended) + "x\n" + session(tuesday, begun),
		"journal/2026-03-04T0900-w1-copy.jsonl":  session(monday, begun, sow),
		"journal/2026-03-05T0900-w1-c0de.jsonl/": "",
	}
	want := []string{
		`timings/a.csv:2:7: `,
		`journal/` + tuesday + `.jsonl:3: not an event: `,
		`journal/2026-03-04T0900-w1-copy.jsonl:1: holds an event of session "` + monday + `": its journal is named ` + monday + `.jsonl`,
		`journal/2026-03-05T0900-w1-c0de.jsonl: cannot be read: is a directory`,
	}
	got := openProblems(t, studyIn(t, files))
	require.Len(t, got, len(want), "%v", got)
	for i := range want {
		assert.True(t, strings.HasPrefix(got[i], want[i]), "%s: want %s", got[i], want[i])
	}

	files["study.toml"] = "[[step]]\nname = 'sow'\n[[step]\n"
	got = openProblems(t, studyIn(t, files))
	for _, line := range got {
		assert.NotContains(t, line, "saw", "names may stand below the fault")
	}
}

func TestNamedOfAStudy(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml": small,
		"timings/x.csv": "date,step,count,time,start,end,journal\n2026-03-02,sow,40,10,8:10:10,8:10:20," + monday + ".jsonl:2\n" +
			"2026-03-02,sow,40,10,9:00,9:10,\n,sow,40,10,9:00,9:10,\n",
		"journal/" + monday + ".jsonl": session(monday, begun, sow, thinAlone, stopped, ended),
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	var got []string
	named, err := o.Named()
	require.NoError(t, err)
	for _, n := range named {
		got = append(got, n.What+" "+n.Session)
	}
	assert.Equal(t, []string{"session " + monday, "sow " + monday, "thin " + monday, "session " + monday, "sow "}, got)
}
