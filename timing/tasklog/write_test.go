package tasklog

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/notation"
	"headhours/timing/study"
)

func write(t *testing.T, readings []study.Reading) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, Write(&b, readings, "", false))
	return b.String()
}

// withoutPlaces is the readings wherever they stand.
func withoutPlaces(readings []study.Reading) []study.Reading {
	bare := append([]study.Reading(nil), readings...)
	for i := range bare {
		bare[i].Place = study.Place{}
	}
	return bare
}

// checkRoundTrip writes readings and reads them again: they are equal, and no
// time in what was written is in doubt.
func checkRoundTrip(t *testing.T, readings []study.Reading) {
	t.Helper()
	for _, decimalCommas := range []bool{false, true} {
		var b strings.Builder
		require.NoError(t, Write(&b, readings, "", decimalCommas))
		again := read(t, b.String())
		require.Equal(t, withoutPlaces(readings), withoutPlaces(again.Readings))
		require.Empty(t, again.Warnings)
	}
}

func TestWriteNothing(t *testing.T) {
	assert.Equal(t, "step,time,count\r\n", write(t, nil))
}

func TestWriteLeavesUnusedColumnsOut(t *testing.T) {
	assert.Equal(t, "step,time,count\r\nsow,96,24\r\n", write(t, []study.Reading{aReading()}))
	lap := aReading()
	lap.Setups = study.Known(0)
	lap.Worker = "w1"
	assert.Equal(t, "step,worker,time,count,setups\r\nsow,,96,24,\r\nsow,w1,96,24,0\r\n", write(t, []study.Reading{aReading(), lap}))
}

func TestWriteEveryColumn(t *testing.T) {
	readings := []study.Reading{{
		Date: time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), Grow: "g1", Workflow: "by hand", Step: "sow, pelleted", Worker: "w1", People: 2,
		Start: study.Known(32700), End: study.Known(33330.5), Paused: 1.25, Seconds: 187.4, Count: 12.5, Setups: study.Known(2),
		Source: study.Film, Rating: 95, Void: "the \"good\" tray", Note: "two\nlines", Journal: "phone.jsonl 7",
	}}
	assert.Equal(t, "date,grow,workflow,step,worker,people,start,end,paused,time,count,setups,source,rating,void,note,journal\r\n"+
		"2026-03-02,g1,by hand,\"sow, pelleted\",w1,2,9:05:00,9:15:30.5,1.250,187.4,12.5,2,film,95,\"the \"\"good\"\" tray\",\"two\r\nlines\",phone.jsonl 7\r\n",
		write(t, readings))
	checkRoundTrip(t, readings)
	var b strings.Builder
	require.NoError(t, Write(&b, readings, "", true))
	assert.Equal(t, "date;grow;workflow;step;worker;people;start;end;paused;time;count;setups;source;rating;void;note;journal\r\n"+
		"2026-03-02;g1;by hand;sow, pelleted;w1;2;9:05:00;9:15:30,5;1,250;187,4;12,5;2;film;95;\"the \"\"good\"\" tray\";\"two\r\nlines\";phone.jsonl 7\r\n", b.String())
}

// A note is no formula to a spreadsheet, and comes back as it was.
func TestWriteNoFormula(t *testing.T) {
	for note, want := range map[string]string{
		"=1+2": "'=1+2", "-5": "'-5", "+x": "'+x", "@x": "'@x", "'=1": "''=1", "''-": "'''-", "'quoted'": "'quoted'", "'": "'", "5-6": "5-6",
	} {
		r := aReading()
		r.Note, r.Void = note, note
		assert.Equal(t, "step,time,count,void,note\r\nsow,96,24,"+want+","+want+"\r\n", write(t, []study.Reading{r}))
		checkRoundTrip(t, []study.Reading{r})
	}
}

// Two decimals below ten would be taken for minutes and seconds.
func TestWriteLeavesNoDoubt(t *testing.T) {
	for x, want := range map[float64]string{
		1.25: "1.250", 9.99: "9.990", 0.05: "0.050", 1.5: "1.5", 2: "2", 10.25: "10.25", 1.125: "1.125", 1e21: "1000000000000000000000",
	} {
		assert.Equal(t, want, secondsText(x))
	}
}

func TestWriteClock(t *testing.T) {
	for text, want := range map[string]string{
		"0:00": "0:00:00", "9:05": "9:05:00", "9:05:07.3": "9:05:07.3", "9:05:09.999": "9:05:09.999",
		"23:59:59.9999": "23:59:59.9999", "23:59:59.999999999": "23:59:59.999999999", "0:00:09.99999999999": "0:00:09.99999999999",
	} {
		t1, err := notation.Clock(text, false)
		require.NoError(t, err)
		got := clockText(study.Known(t1))
		assert.Equal(t, want, got)
		t2, err := notation.Clock(got, false)
		require.NoError(t, err)
		assert.Equal(t, t1, t2)
	}
	// Thirds of a second, over the whole day, come back to the last bit.
	for i := range 86400 {
		want := float64(i) + float64(i%3)/3
		got, err := notation.Clock(clockText(study.Known(want)), false)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}

type broken struct{}

var errBroken = errors.New("disk is full")

func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestWriterFails(t *testing.T) {
	assert.ErrorIs(t, Write(broken{}, []study.Reading{aReading()}, "", false), errBroken)
}
