package sums

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
)

func put(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
}

const aStudy = "[[step]]\nname = \"sow\"\n[log.steps]\n\"saw\" = \"sow\"\n"

// Logs are read in the background, once until they change; nobody waits who does not want to.
func TestKeeper(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "study.toml"), aStudy)
	log := filepath.Join(dir, "timings", "a.csv")
	put(t, log, "date,grow,worker,step,count,time,journal\n2026-03-02,g1,w1,sow,20,100,2026-03-02T0810-w1-a3f9.jsonl:2\n2026-03-02,g2,w2,sow,10,60,\n")
	k := New(dir, true)
	assert.Equal(t, study.Reading{Step: "saw"}, k.Ours(study.Reading{Step: "saw"}), "it reads nothing")
	k.Latest(0)
	known := k.Latest(time.Minute)
	require.True(t, known.Ready)
	assert.Empty(t, known.Problems)
	assert.Equal(t, 2, known.Models.Steps[0].Readings)
	assert.Equal(t, []string{"g2", "", "w2"}, []string{known.Grow, known.Workflow, known.Worker})
	assert.True(t, known.Holds("2026-03-02T0810-w1-a3f9.jsonl:2"))
	assert.False(t, known.Holds("2026-03-02T0810-w1-a3f9.jsonl:3"))
	assert.Equal(t, "sow", known.Ours(study.Reading{Step: "saw"}).Step)
	assert.Equal(t, "sow", k.Ours(study.Reading{Step: "saw"}).Step)
	done, ready := k.DoneIn("g1", time.Minute)
	assert.True(t, ready)
	assert.Equal(t, []answer.Done{{Step: "sow", Day: condense.DayOf(time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)), Readings: 1, Count: 20}}, done)
	done, ready = k.DoneIn("g7", time.Minute)
	assert.True(t, ready)
	assert.Empty(t, done)
	assert.Same(t, known.Models, k.Latest(0).Models)

	put(t, log, "step,count,time\nsow,20,100\n")
	assert.Equal(t, 1, k.Latest(time.Minute).Models.Steps[0].Readings)
	put(t, log, "step,count,time\nsow,2o,100\n")
	known = k.Latest(time.Minute)
	assert.Nil(t, known.Models)
	require.Len(t, known.Problems, 2)
	assert.Equal(t, holdMistakes, known.Problems[0])
	assert.Contains(t, known.Problems[1], "timings/a.csv:2:5: ")
	_, ready = k.DoneIn("g1", time.Minute)
	assert.False(t, ready)
}

// Whoever records knows the journals of the day; others are told of them too.
func TestKeeperOfJournals(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "study.toml"), aStudy)
	put(t, filepath.Join(dir, "journal", "2026-03-02T0810-w1-a3f9.jsonl"),
		`{"session":"2026-03-02T0810-w1-a3f9","seq":1,"id":"e1","kind":"begin","wall":"2026-03-02T08:10:00Z","boot":"b1","mono":0}
{"session":"2026-03-02T0810-w1-a3f9","seq":2,"id":"e2","kind":"start","wall":"2026-03-02T08:10:01Z","boot":"b1","mono":1000,"step":"saw","count":20}
{"session":"2026-03-02T0810-w1-a3f9","seq":3,"id":"e3","kind":"end","wall":"2026-03-02T08:12:01Z","boot":"b1","mono":121000}
`)
	assert.Equal(t, 0, New(dir, true).Latest(time.Minute).Models.Steps[0].Readings)
	assert.Equal(t, 1, New(dir, false).Latest(time.Minute).Models.Steps[0].Readings)
}
