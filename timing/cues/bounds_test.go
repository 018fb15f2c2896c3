package cues

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// Times up to the longest film are read, and a moment more is not.
func TestTheLongestFilm(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"1000000:00:00.000": maxTime, "999999:59:59.999": maxTime - time.Millisecond, "1000001:00:00.000": -1, "99999999999999999999:00:00.000": -1, "00:60:00.000": -1,
	} {
		_, end, ok := timingLine(webvttTiming(), "00:00.000 --> "+text)
		assert.Equal(t, want >= 0, ok, text)
		if ok {
			assert.Equal(t, want, end)
		}
	}
	_, _, ok := timingLine(webvttTiming(), "1000001:00:00.000 --> 1000002:00:00.000")
	assert.False(t, ok)
	got, err := Read(strings.NewReader("0:00 sow x1\n60000000:00 stop\n"), "film", Options{})
	require.NoError(t, err)
	assert.InDelta(t, maxTime.Seconds(), got[0].Seconds, 0)
	_, err = Read(strings.NewReader("0:00 sow x1\n60000000:00.001 stop\n"), "film", Options{})
	assert.ErrorContains(t, err, "does not begin with a time")
}

// A file of more lines than any film has is refused before it is read, whatever ends them.
func TestTooManyLines(t *testing.T) {
	for _, end := range []string{"\n", "\r"} {
		_, err := Read(strings.NewReader("0:00 sow x1"+strings.Repeat(end, maxLines+1)), "film", Options{})
		assert.EqualError(t, err, "film: is not read: holds more than 1000000 lines")
	}
	got, err := Read(strings.NewReader("0:00 sow x1\n0:01 stop"+strings.Repeat("\n", maxLines-1)), "film", Options{})
	require.NoError(t, err)
	assert.Len(t, got, 1)
}

// Of SubRip cues of one worker two that overlap are refused, as of WebVTT; a cue that ends
// as the next begins is no overlap, nor one within another of another worker.
func TestOverlapsOfSubRip(t *testing.T) {
	cue := func(from, to, worker string) string {
		return "00:00:" + from + ",000 --> 00:00:" + to + ",000\nsow\ncount: 1\nworker: " + worker + "\n\n"
	}
	for _, c := range []struct {
		text string
		ok   bool
	}{
		{cue("00", "04", "w1") + cue("04", "05", "w1"), true},
		{cue("00", "04", "w1") + cue("03", "05", "w1"), false},
		{cue("00", "04", "w1") + cue("03", "05", "w2"), true},
		{cue("00", "09", "w1") + cue("01", "02", "w2") + cue("08", "10", "w1"), false},
		{cue("00", "09", "w1") + cue("01", "02", "w1"), false},
		{cue("03", "05", "w1") + cue("00", "03", "w1"), true},
		{cue("03", "05", "w1") + cue("00", "04", "w1"), false},
	} {
		_, err := Read(strings.NewReader(c.text), "film", Options{})
		if c.ok {
			assert.NoError(t, err, c.text)
			continue
		}
		assert.ErrorContains(t, err, "one worker does one thing at a time", c.text)
	}
	long := cue("00", "09", "w1") + cue("01", "02", "w1") + cue("08", "10", "w1")
	_, err := Read(strings.NewReader(long), "film", Options{})
	assert.Equal(t, 2, strings.Count(err.Error(), "begins before the cue on line 1 ends"), "the one that ends last is held against the next")
}

// Letters of old encodings and of none are told by their line; blanks of all kinds are one.
func TestLettersOfAFilm(t *testing.T) {
	_, err := Read(strings.NewReader("# caf\u00e9\n0:00 caf\xe9 x1\n0:01 stop"), "film", Options{})
	assert.EqualError(t, err, "film:2: is not UTF-8 text: save the file as UTF-8")
	_, err = Read(strings.NewReader("\x000:00 sow x1\n0:01 stop"), "film", Options{})
	assert.EqualError(t, err, "film:1: is not UTF-8 text: save the file as UTF-8")
	got, err := Read(strings.NewReader("WEBVTT\n\n00:00.000 --> 00:01.000\n\u00a0sow\u2003and\tbag\u00a0\ncount:\u00a01\nnote: a\u0007b\n"), "film", Options{})
	require.NoError(t, err)
	assert.Equal(t, "sow and bag", got[0].Step)
	assert.Equal(t, "a b", got[0].Note)
	assert.InDelta(t, 1, got[0].Count, 0)
}

// A header is one only where a blank or nothing follows it.
func TestHeaderOfWebVTT(t *testing.T) {
	for first, is := range map[string]bool{"WEBVTT": true, "WEBVTT ": true, "WEBVTT\tfilm": true, "WEBVTTfilm": false, "webvtt": false, " WEBVTT": false, "": false} {
		assert.Equal(t, is, isWebVTT(first), first)
	}
}

// A reason to void is strung together over the parts of a reading as a note is.
func TestVoidOverParts(t *testing.T) {
	got, err := Read(strings.NewReader("WEBVTT\n\n00:00.000 --> 00:01.000\nsow\ncount: 3\nreading: a\nvoid: fell\n\n00:02.000 --> 00:03.000\nsow\nreading: a\nvoid: fell\n\n00:04.000 --> 00:05.000\nsow\nreading: a\nvoid: dropped\n"), "film", Options{})
	require.NoError(t, err)
	assert.Equal(t, "fell; dropped", got[0].Void)
	assert.InDelta(t, 3, got[0].Seconds, 1e-12)
}

// A log that a spreadsheet keeps in a workbook still tells which film its rows are of, on
// each sheet below its own heading.
func TestFilmsInAWorkbook(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	_, err := book.NewSheet("more")
	require.NoError(t, err)
	mark := monday.Name + digestWord + monday.Checksum
	for sheet, rows := range map[string][][]any{
		"Sheet1": {{"my log"}, {"step", "time", "count", " Film "}, {"sow", 4, 2, mark}, {"sow", 5, 2, "a song"}},
		"more":   {{"Film", "step", "time", "count"}, {mark, "thin", 9, 3}},
	} {
		for i, row := range rows {
			cell, err := excelize.CoordinatesToCellName(1, i+1)
			require.NoError(t, err)
			require.NoError(t, book.SetSheetRow(sheet, cell, &row))
		}
	}
	data, err := book.WriteToBuffer()
	require.NoError(t, err)
	films, err := filmsIn("week.xlsx", data.Bytes())
	require.NoError(t, err)
	assert.Equal(t, []Film{monday, {}, monday}, films)
	_, _, err = monday.LogFor(fstest.MapFS{"week.xlsx": &fstest.MapFile{Data: data.Bytes()}}, false)
	assert.ErrorIs(t, err, ErrImported)
	_, _, err = monday.LogFor(fstest.MapFS{"week.xlsx": &fstest.MapFile{Data: data.Bytes()[:200]}}, false)
	assert.ErrorContains(t, err, "week.xlsx: ")
}

// noFolder is a folder of logs that cannot be listed, or whose files cannot be read.
type noFolder struct {
	fstest.MapFS
	list, read error
}

func (f noFolder) ReadDir(name string) ([]fs.DirEntry, error) {
	if f.list != nil {
		return nil, f.list
	}
	return f.MapFS.ReadDir(name)
}

func (f noFolder) ReadFile(name string) ([]byte, error) {
	if f.read != nil {
		return nil, f.read
	}
	return f.MapFS.ReadFile(name)
}

// A folder that cannot be read stops the import: readings might be taken twice. One that is
// not there holds none.
func TestFoldersThatCannotBeRead(t *testing.T) {
	broken := errors.New("the disk is gone")
	_, _, err := monday.LogFor(noFolder{list: broken}, true)
	assert.ErrorIs(t, err, broken)
	_, _, err = monday.LogFor(noFolder{MapFS: fstest.MapFS{"a.csv": &fstest.MapFile{Data: []byte("x")}}, read: broken}, true)
	assert.ErrorIs(t, err, broken)
	log, earlier, err := monday.LogFor(noFolder{list: fs.ErrNotExist}, false)
	require.NoError(t, err)
	assert.Equal(t, []string{"monday.csv", ""}, []string{log, earlier})
}
