package cues

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

var (
	monday = filmOf("films/monday.vtt", "some cues")
	copied = filmOf("copied.txt", "some cues")
	cut    = filmOf("cut again/monday.srt", "other cues")
)

func filmOf(path, text string) Film {
	digest := NewChecksum()
	_, _ = io.WriteString(digest, text) // a hash returns no error
	return NewFilm(path, digest)
}

// logOf is the log of a film, with one reading.
func logOf(t *testing.T, f Film) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, f.WriteLog(&b, []study.Reading{a(1, "sow, pelleted", 4, 2)}, ""))
	return b.String()
}

func TestWriteLog(t *testing.T) {
	// The digest is the beginning of what sha256sum prints for the file.
	assert.Equal(t, "step,time,count,source,film\r\n\"sow, pelleted\",4,2,film,monday.vtt sha256:9008220f01435c4d\r\n", logOf(t, monday))
	strange := filmOf("a\n\"b\", \xff.vtt", "")
	assert.Contains(t, logOf(t, strange), ",\"a \"\"b\"\", \ufffd.vtt sha256:e3b0c44298fc1c14\"\r\n")
	films, err := filmsIn("log.csv", []byte(logOf(t, strange)))
	require.NoError(t, err)
	assert.Equal(t, []Film{strange}, films)
}

func TestLogFor(t *testing.T) {
	of := func(f Film) string { return logOf(t, f) }
	more := func(log string) string { return log + "thin,5,3,watch,\r\n" }
	for _, c := range []struct {
		name         string
		logs         map[string]string
		film         Film
		log, earlier string // where it may be replaced
		once, again  string // the error without and with leave to replace
	}{
		{name: "no log", film: monday, log: "monday.csv"},
		{name: "other logs", logs: map[string]string{
			"other.csv": "step,time,count\nsow,4,2\n", "film.csv": "step,time,count,film\nsow,4,2,Casablanca\nsow,4,2\n\n", "empty.csv": "", "tuesday.csv": of(filmOf("tuesday.vtt", "")),
			"monday.csv.bak": of(monday), ".monday.csv": of(monday), "old/monday.csv": of(monday), "old.csv/monday.csv": of(monday),
		}, film: monday, log: "monday.csv"},
		{name: "the same file", logs: map[string]string{"monday.csv": of(monday)}, film: monday,
			log: "monday.csv", earlier: "monday.csv", once: "monday.csv holds readings of this film already"},
		{name: "the same name", logs: map[string]string{"monday.csv": of(monday)}, film: cut,
			log: "monday.csv", earlier: "monday.csv", once: "monday.csv holds readings of this film already"},
		{name: "the same bytes", logs: map[string]string{"monday.csv": of(monday)}, film: copied,
			log: "copied.csv", earlier: "monday.csv", once: "monday.csv holds readings of this film already"},
		{name: "a log renamed", logs: map[string]string{"week 1.csv": of(monday)}, film: cut,
			log: "monday.csv", earlier: "week 1.csv", once: "week 1.csv holds readings of this film already"},
		{name: "saved by a spreadsheet", logs: map[string]string{"Monday.TSV": "\ufeff\n;;\nStep;Time;Film ;Count\n;;;\nsow, pelleted;4; " + monday.Name + " sha256:" + monday.Checksum + ";2\n"}, film: monday,
			log: "monday.csv", earlier: "Monday.TSV", once: "Monday.TSV holds readings of this film already"},
		{name: "tabs", logs: map[string]string{"m.tsv": "step\ttime\tcount\tfilm\nsow, pelleted\t4\t2\tmonday.vtt sha256:" + monday.Checksum + "\n"}, film: copied,
			log: "copied.csv", earlier: "m.tsv", once: "m.tsv holds readings of this film already"},
		{name: "with a reading of another source", logs: map[string]string{"monday.csv": more(of(monday))}, film: monday,
			once: "monday.csv holds readings of this film already", again: "monday.csv holds other readings beside those of this film: keep them in another log"},
		{name: "in two logs", logs: map[string]string{"monday.csv": of(monday), "copied.csv": of(copied)}, film: copied,
			once: "both copied.csv and monday.csv hold readings of this film: keep them in one", again: "both copied.csv and monday.csv hold readings of this film: keep them in one"},
		{name: "a log of that name", logs: map[string]string{"monday.csv": "step,time,count\nsow,4,2\n"}, film: monday,
			once: "monday.csv is there already and is not this film's: rename the cue file", again: "monday.csv is there already and is not this film's: rename the cue file"},
		{name: "the new name is taken", logs: map[string]string{"monday.csv": of(monday), "copied.csv": "step,time,count\nsow,4,2\n"}, film: copied,
			once: "monday.csv holds readings of this film already", again: "copied.csv is there already and is not this film's: rename the cue file"},
		{name: "hidden", film: filmOf("x/.vtt", ""),
			once: `".vtt" would give a hidden log: want a name before the dot`, again: `".vtt" would give a hidden log: want a name before the dot`},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := fstest.MapFS{}
			for name, text := range c.logs {
				folder[name] = &fstest.MapFile{Data: []byte(text)}
			}
			log, earlier, err := c.film.LogFor(folder, true)
			if c.again != "" {
				assert.EqualError(t, err, c.again)
			} else {
				require.NoError(t, err)
				assert.Equal(t, []string{c.log, c.earlier}, []string{log, earlier})
			}
			log, earlier, err = c.film.LogFor(folder, false)
			if c.once != "" {
				assert.EqualError(t, err, c.once)
				assert.Equal(t, strings.Contains(c.once, "already") && !strings.Contains(c.once, "rename"), errors.Is(err, ErrImported))
				return
			}
			require.NoError(t, err)
			assert.Equal(t, []string{c.log, ""}, []string{log, earlier})
		})
	}
}
