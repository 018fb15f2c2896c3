package tasklog

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// FuzzRead: reading never panics, a log is either right or has problems at
// places in it, and what is read, written and read again is equal.
func FuzzRead(f *testing.F) {
	files, err := filepath.Glob("testdata/*.?sv")
	require.NoError(f, err)
	require.NotEmpty(f, files)
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(string(data))
	}
	f.Add("date,grow,workflow,step,worker,people,start,end,paused,time,count,setups,source,rating,void,note,journal\n" +
		"2026-03-02,g1,by hand,sow,w1,2,9:05,9:15:30.1,1.25,3m7s,0,2,film,95,\"the \"\"good\"\" tray\",\"a\r\nb\rc\",phone.jsonl 7\n")
	f.Add("step,count,start,end\nsow,1,23:50:07.1,0:10\n")
	f.Add("step,count,time,note\nsow,1,20,\"5\n\"\" pot\n")
	f.Fuzz(func(t *testing.T, text string) {
		log, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
		if err != nil {
			require.Nil(t, log.Readings)
			for _, p := range err.(study.Problems) {
				checkPlace(t, text, p.Place)
			}
			return
		}
		for _, r := range log.Readings {
			require.False(t, math.IsNaN(r.Basic()) || math.IsInf(r.Basic(), 0))
			require.Greater(t, r.Seconds, 0.0)
			require.True(t, r.Count > 0 || r.Count == 0 && r.Setups.Value > 0)
			checkPlace(t, text, r.Place)
		}
		checkRoundTrip(t, log.Readings)
	})
}

// checkPlace holds a place to the text: its line is there and so is its column,
// or the line ends before it.
func checkPlace(t *testing.T, text string, p study.Place) {
	t.Helper()
	if p.Line == 0 {
		require.Zero(t, p.Column)
		return
	}
	lines := strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n")
	require.LessOrEqual(t, p.Line, len(lines))
	require.GreaterOrEqual(t, p.Column, 1)
	require.LessOrEqual(t, p.Column, len(lines[p.Line-1])+1)
}
