package cues

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// FuzzRead: reading never panics; a file is either right or has problems on
// lines that are there; readings written to a log and read again are equal.
func FuzzRead(f *testing.F) {
	for _, file := range readFormats(f).Files {
		f.Add(file.Text, 1.0)
	}
	f.Add("WEBVTT\n\nNOTE x\n\na\n00:11.000 --> 00:48.500 align:start\n<v w1>sow</v> &amp; thin\ncount: 24\nsetups: 2\npeople: 1.5\n"+
		"worker: w1\ngrow: g\nworkflow: w\ndate: 2026-03-02\nnote: a &#13; b\nvoid: c\nreading: r\n\n01:00:00.000 --> 01:00:01.001\n<v w1>sow</v> &amp; thin\nreading: r\n", 8.0)
	f.Add("1\n00:00:11,000 --> 00:00:48,500\n<i>sow</i>\ncount: 0\nsetups: 1\n\n00:00:48,500 --> 00:00:49,000\nthin\ncount: .5\n", 1.1)
	f.Add("# marks\n0:00 sow x24\n1:02.25 thin × 1.5\n1:00:00 stop\n", 0.1)
	f.Add("0:00 sow x1\n0:00.000000001 -", 5e-324)
	f.Fuzz(func(t *testing.T, text string, speed float64) {
		readings, err := Read(strings.NewReader(text), "monday", Options{Speed: speed})
		if err != nil {
			require.Nil(t, readings)
			problems, ok := errors.AsType[study.Problems](err)
			require.True(t, ok || speed < 0 || math.IsNaN(speed) || math.IsInf(speed, 0), "%v", err)
			for _, p := range problems {
				require.LessOrEqual(t, p.Place.Line, len(split([]byte(text))))
			}
			return
		}
		require.NotEmpty(t, readings)
		var log bytes.Buffer
		require.NoError(t, filmOf("a/"+text, text).WriteLog(&log, readings, ""))
		again, err := tasklog.Read(&log, "monday.csv", tasklog.Dialect{})
		require.NoError(t, err)
		require.Empty(t, again.Warnings)
		for i := range readings {
			readings[i].Place = again.Readings[i].Place
		}
		require.Equal(t, readings, again.Readings)
	})
}
