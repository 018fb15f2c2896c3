package stopwatch

import (
	"bytes"
	"errors"
	"regexp"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

const name = "journal/" + session + Extension

func journalText(t testing.TB, events []Event) string {
	t.Helper()
	var b strings.Builder
	for _, e := range events {
		line, err := encode(e)
		require.NoError(t, err)
		b.Write(line)
	}
	return b.String()
}

// uncheckedText is a journal as it was before lines carried checksums.
func uncheckedText(t testing.TB, events []Event) string {
	return regexp.MustCompile(`,"crc":"[0-9a-f]{8}"`).ReplaceAllString(journalText(t, events), "")
}

func problems(t *testing.T, text string) []string {
	t.Helper()
	c, err := readContents(strings.NewReader(text), name)
	var all study.Problems
	require.ErrorAs(t, err, &all)
	assert.Nil(t, c.Events)
	for _, p := range all {
		assert.Equal(t, name, p.Place.File)
	}
	return texts(all)
}

func TestRead(t *testing.T) {
	events := everyKind()
	c, err := readContents(strings.NewReader(journalText(t, events)), name)
	require.NoError(t, err)
	assert.Empty(t, c.Warnings)
	assert.Equal(t, events, c.Events)
}

func TestReadNothing(t *testing.T) {
	for _, text := range []string{"", "\n", " \r\n\n"} {
		c, err := readContents(strings.NewReader(text), name)
		require.NoError(t, err)
		assert.Empty(t, c.Events)
		assert.Empty(t, c.Warnings)
	}
}

func TestReadBlankLinesAndCarriageReturns(t *testing.T) {
	events := script(begin, start("sow"))
	text := "\r\n" + strings.ReplaceAll(journalText(t, events), "\n", "\r\n\n")
	c, err := readContents(strings.NewReader(text), name)
	require.NoError(t, err)
	events[0].Line, events[1].Line = 2, 4
	assert.Equal(t, events, c.Events)
}

func TestReadOnce(t *testing.T) {
	events := script(begin, start("sow"), stop)
	other := events[1]
	other.Step = "thin"
	c, err := readContents(strings.NewReader(journalText(t, []Event{events[0], events[1], events[1], events[0], other, events[2]})), name)
	require.NoError(t, err)
	events[2].Line = 6
	assert.Equal(t, events, c.Events)
	assert.Equal(t, []string{`5 event "e2" stands here once more, and otherwise: the first counts`}, texts(c.Warnings))
}

func TestReadTornLine(t *testing.T) {
	text := journalText(t, script(begin, start("sow")))
	for _, torn := range []string{"{", `{"session":"2026`, "\x00\x00\x00", "x"} {
		c, err := readContents(strings.NewReader(text+torn), name)
		require.NoError(t, err)
		assert.Len(t, c.Events, 2)
		require.Len(t, c.Warnings, 1)
		assert.Equal(t, 3, c.Warnings[0].Place.Line)
		assert.Contains(t, c.Warnings[0].Text, "torn when the recorder died, and left out: ")
	}
	c, err := readContents(strings.NewReader(strings.TrimSuffix(text, "\n")), name)
	require.NoError(t, err)
	assert.Len(t, c.Events, 2, "a line that lacks nothing but its end is whole")
	assert.Empty(t, c.Warnings)
}

func TestReadDamage(t *testing.T) {
	events := script(begin, start("sow"), stop)
	lines := strings.SplitAfter(uncheckedText(t, events), "\n")
	assert.Equal(t, []string{
		`2 not an event: it ends too early, in "{\"session\":\"202": put the line back as it was, or empty it to do without`,
		`4 not an event: invalid character 'x' looking for beginning of value, in "x": put the line back as it was, or empty it to do without`,
	}, problems(t, lines[0]+lines[1][:15]+"\n"+lines[2]+"x\n"+`{"torn`))

	got := problems(t, lines[0]+strings.Repeat("x", maxLine+1)+"\n"+lines[1]+strings.Repeat("y", maxLine+1))
	require.Len(t, got, 2)
	assert.Contains(t, got[0], "2 longer than 65536 bytes")
	assert.Contains(t, got[1], "4 longer than 65536 bytes", "no recorder writes such a line, torn or not")

	other := events[1]
	other.Session = "2026-03-02T0810-w2-0000"
	assert.Equal(t, []string{`2 holds an event of session "2026-03-02T0810-w2-0000": its journal is named 2026-03-02T0810-w2-0000.jsonl`},
		problems(t, lines[0]+uncheckedText(t, []Event{other, other})))
}

func TestReaderFails(t *testing.T) {
	gone := errors.New("gone")
	_, err := readContents(iotest.ErrReader(gone), name)
	assert.ErrorIs(t, err, gone)
}

// FuzzRead: reading never panics; problems and warnings stand in the journal;
// what is read, written and read again is equal, and folds without a panic.
func FuzzRead(f *testing.F) {
	// Short seeds, since a long one keeps the fuzzer at cutting it down.
	events := everyKind()
	for _, e := range events {
		f.Add([]byte(journalText(f, []Event{e})))
	}
	text := journalText(f, script(begin, start("sow"), second, stop))
	f.Add([]byte(text))
	f.Add([]byte(text[:len(text)-9]))
	f.Add([]byte(text[9:]))
	f.Add([]byte(uncheckedText(f, events[:1])))
	f.Add([]byte("\n{}\r\nnull\n[]\n\x00"))
	f.Fuzz(func(t *testing.T, text []byte) {
		c, err := readContents(bytes.NewReader(text), name)
		for _, p := range c.Warnings {
			require.True(t, p.Place.Line >= 1 && p.Place.Line <= 1+bytes.Count(text, []byte("\n")))
		}
		if err != nil {
			require.Nil(t, c.Events)
			for _, p := range err.(study.Problems) {
				require.True(t, p.Place.Line >= 1 && p.Place.Line <= 1+bytes.Count(text, []byte("\n")))
			}
			return
		}
		require.Equal(t, len(text), c.whole+len(c.torn))
		again, err := readContents(strings.NewReader(journalText(t, c.Events)), name)
		require.NoError(t, err)
		for i := range c.Events {
			c.Events[i].Line = i + 1
		}
		require.Equal(t, c.Events, again.Events)
		checkFold(t, c.Events)
	})
}

// A byte too many behind a line makes no line of its own: the next is where it was.
func TestByteTooManyBehindALine(t *testing.T) {
	lines := strings.SplitAfter(journalText(t, script(begin, start("sow"), second, stop)), "\n")
	for _, text := range []string{
		lines[0][:len(lines[0])-1] + "0\n" + lines[1] + lines[2],
		lines[0] + lines[1][:len(lines[1])-1] + "x \n" + lines[2],
		lines[0] + lines[1] + lines[2][:len(lines[2])-1] + "0",
		lines[0][:len(lines[0])-1] + "0" + lines[1] + lines[2], // in place of the line's end
	} {
		c, err := readContents(strings.NewReader(text), name)
		require.NoError(t, err)
		require.Len(t, c.Events, 3, text)
		for i, e := range c.Events {
			assert.Equal(t, i+1, e.Line)
		}
	}
}
