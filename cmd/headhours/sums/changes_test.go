package sums

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"headhours/timing/study"
)

// aFolder is a study of one step with a log of one reading.
func aFolder(t *testing.T) (dir, log string) {
	t.Helper()
	dir = t.TempDir()
	log = filepath.Join(dir, "timings", "a.csv")
	put(t, filepath.Join(dir, "study.toml"), aStudy)
	put(t, log, "date,grow,step,count,time\n2026-03-02,g1,sow,20,100\n")
	return dir, log
}

// aJournal is a session of one reading, of so many cells.
func aJournal(t *testing.T, dir, session string, count int) {
	t.Helper()
	text := ""
	for i, more := range []string{`"kind":"begin"`, fmt.Sprintf(`"kind":"start","step":"sow","count":%d`, count), `"kind":"end"`} {
		text += fmt.Sprintf(`{"session":%q,"seq":%d,"id":"e%d",%s,"wall":"2026-03-02T08:1%d:00Z","boot":"b1","mono":%d}`+"\n", session, i+1, i+1, more, i, 60_000*i)
	}
	put(t, filepath.Join(dir, "journal", session+".jsonl"), text)
}

func readings(k Snapshot) int {
	if k.Models == nil {
		return -1
	}
	return k.Models.Steps[0].Readings
}

// Whatever is done to the study, its logs or a file of them is seen at the next look: a row
// more, another log, one that is taken away, one that is renamed, another study.
func TestEveryChangeIsSeen(t *testing.T) {
	dir, log := aFolder(t)
	k := New(dir, true)
	sees := func(want int, what string) {
		t.Helper()
		known := k.Latest(time.Minute)
		require.True(t, known.Ready, what)
		assert.Equal(t, want, readings(known), what)
	}
	sees(1, "as it was")
	put(t, log, "date,grow,step,count,time\n2026-03-02,g1,sow,20,100\n2026-03-02,g1,sow,21,105\n")
	sees(2, "a row more")
	other := filepath.Join(dir, "timings", "b.csv")
	put(t, other, "step,count,time\nsow,5,30\n")
	sees(3, "another log")
	require.NoError(t, os.Remove(log))
	sees(1, "one taken away")
	require.NoError(t, os.Rename(other, filepath.Join(dir, "timings", "c.csv")))
	sees(1, "one renamed")
	put(t, filepath.Join(dir, "study.toml"), strings.Replace(aStudy, "sow", "thin", 1))
	known := k.Latest(time.Minute)
	assert.Nil(t, known.Models, "the log's step is none of the study's now")
	assert.Contains(t, strings.Join(known.Problems, "\n"), "timings/c.csv:2:1: ")
	require.NoError(t, os.Remove(filepath.Join(dir, "study.toml")))
	known = k.Latest(time.Minute)
	assert.True(t, known.Ready)
	assert.Contains(t, strings.Join(known.Problems, "\n"), "no study.toml")
	put(t, filepath.Join(dir, "study.toml"), aStudy)
	sees(1, "and put right")
	assert.Empty(t, k.Latest(0).Problems)
}

// A log of the same size whose time is another is another log.
func TestSameSizeOtherTime(t *testing.T) {
	dir, log := aFolder(t)
	k := New(dir, true)
	k.Latest(time.Minute)
	put(t, log, "date,grow,step,count,time\n2026-03-02,g1,sow,2o,100\n")
	require.NoError(t, os.Chtimes(log, time.Now(), time.Now().Add(-time.Hour)))
	assert.Nil(t, k.Latest(time.Minute).Models)
}

// Journals that grow while work goes on are read anew once what is known is old enough, not
// at every press; a log that changes is read at once, and the journals with it.
func TestJournalsThatGrow(t *testing.T) {
	dir, log := aFolder(t)
	aJournal(t, dir, "2026-03-02T0810-w1-aaaa", 10)
	k := New(dir, false)
	assert.Equal(t, 2, readings(k.Latest(time.Minute)))
	aJournal(t, dir, "2026-03-02T0810-w2-bbbb", 10)
	known := k.Latest(time.Minute)
	assert.True(t, known.Ready)
	assert.Equal(t, 2, readings(known), "not yet")
	k.mu.Lock()
	k.at = k.at.Add(-minAge)
	k.mu.Unlock()
	assert.Equal(t, 3, readings(k.Latest(time.Minute)))
	aJournal(t, dir, "2026-03-02T0810-w3-cccc", 10)
	put(t, log, "date,grow,step,count,time\n2026-03-02,g1,sow,20,100\n2026-03-02,g1,sow,21,105\n")
	assert.Equal(t, 5, readings(k.Latest(time.Minute)))
}

// What the last names were is of logs alone: of journals whoever records knows.
func TestLastNames(t *testing.T) {
	dir, _ := aFolder(t)
	assert.Equal(t, "g1", New(dir, true).Latest(time.Minute).Grow)
	assert.Empty(t, New(dir, false).Latest(time.Minute).Grow)
}

// While files are read whoever asks gets what is known, at once or after as long as they
// will wait, and the reading is one for all.
func TestWhileItIsRead(t *testing.T) {
	dir, _ := aFolder(t)
	k := New(dir, true)
	reading := make(chan struct{})
	k.reading = reading
	assert.False(t, k.Latest(0).Ready)
	assert.False(t, k.Latest(time.Millisecond).Ready)
	assert.Equal(t, (<-chan struct{})(reading), k.refresh(), "no second reading begins")
	done, ready := k.DoneIn("g1", 0)
	assert.Empty(t, done)
	assert.False(t, ready)
	_, ready = k.DoneIn("", 0)
	assert.True(t, ready, "of no grow nothing is to be known")
	assert.Equal(t, study.Reading{Step: "saw"}, k.Ours(study.Reading{Step: "saw"}))
	k.read("", reading)
	assert.Nil(t, k.reading)
	assert.True(t, within(reading, 0))
	assert.False(t, within(make(chan struct{}), 0))
	assert.False(t, within(make(chan struct{}), -time.Second))
}

// The work of no more than so many grows is kept in mind; of one that is asked for again it
// is what it was.
func TestManyGrows(t *testing.T) {
	dir, _ := aFolder(t)
	k := New(dir, true)
	for i := range maxGrows + 3 {
		_, ready := k.DoneIn(fmt.Sprint("g", i), time.Minute)
		require.True(t, ready)
		require.LessOrEqual(t, len(k.grows), maxGrows)
		require.NotEmpty(t, k.grows)
	}
	first := k.grows["g66"]
	require.NotNil(t, first)
	k.DoneIn("g66", time.Minute)
	assert.Same(t, first, k.grows["g66"])
	done, ready := k.DoneIn("g1", time.Minute)
	assert.True(t, ready)
	assert.Len(t, done, 1)
}

// No more problems are told than a face can show, each by the name that files have within
// the study.
func TestProblemsAreBounded(t *testing.T) {
	dir, log := aFolder(t)
	put(t, log, "step,count,time\n"+strings.Repeat("sow,x,100\n", 40))
	known := New(dir, true).Latest(time.Minute)
	require.Len(t, known.Problems, maxProblems+1)
	assert.Equal(t, holdMistakes, known.Problems[0])
	assert.Equal(t, `timings/a.csv:2:5: count "x" is not a number: digits with at most one decimal point`, known.Problems[1])
	assert.Equal(t, "and more: headhours check names them all", known.Problems[maxProblems])
	put(t, log, "step,count,time\n"+strings.Repeat("sow,x,100\n", maxProblems-1))
	known = New(dir, true).Latest(time.Minute)
	assert.Len(t, known.Problems, maxProblems, "as many as there is room for")
	assert.NotContains(t, known.Problems[maxProblems-1], "and more")
}
