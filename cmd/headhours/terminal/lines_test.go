package terminal

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// script gives lines one at a time, and moves the clock between: "+40s" is no
// line but time that passes.
type script struct {
	hand  *hand
	lines []string
}

func (s *script) Read(p []byte) (int, error) {
	for len(s.lines) > 0 {
		line := s.lines[0]
		s.lines = s.lines[1:]
		if d, err := time.ParseDuration(strings.TrimPrefix(line, "+")); err == nil && line[0] == '+' {
			s.hand.run(d)
			continue
		}
		return copy(p, line+"\n"), nil
	}
	return 0, io.EOF
}

// obeyed runs lines in a folder and gives the answers, the greeting left out.
func obeyed(t *testing.T, dir string, h *hand, names Names, lines ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := Lines(Config{Dir: dir, Study: aStudy(), Logs: logsOf(timed()), Names: names, Now: h.now}, &script{h, lines}, &out)
	return out.String(), err
}

// A whole morning, answer by answer.
func TestLinesOfAMorning(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	got, err := obeyed(t, dir, h, all,
		"# a remark", "",
		"start", "+2m", "next", "+100s", "count 20", "lot", "+1m", "pause visitor", "+5m", "resume", "+41s", "count 20", "stop",
		"people 2", "start thin", "+90s", "undo", "start sweep", "setups 2", "note under the benches", "+20m", "count 1", "show",
		"ended 08:30", "amend 4 people 1", "void measured for fun", "amend 2 setups 2", "tasks", "grow g2", "start", "+50s", "count 10.5", "end", "show")
	require.NoError(t, err)
	assertGolden(t, "morning.txt", strings.ReplaceAll(got, journalOf(t, dir), "JOURNAL"))
}

func journalOf(t *testing.T, dir string) string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(dir, "journal", "*.jsonl"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	return paths[0]
}

func assertGolden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

// A line that cannot be obeyed says why, changes nothing and makes the run fail.
func TestRefusedLines(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"strat sow", `no command is named "strat": did you mean "start"`},
		{"sow", `"sow" is a step: start sow begins it`},
		{"stop 24", `stop takes nothing behind it, not "24": is it a count? count 24 gives it`},
		{"start thinn", `no step is named "thinn": did you mean "thin"`},
		{"next harvest please", `no step is named "harvest please"`},
		{"stop now", `stop takes nothing behind it, not "now"`},
		{"stop", "stop: nothing runs"},
		{"resume", "resume: nothing runs"},
		{"lot", "lot: there is no reading to carry on"},
		{"count", "count: there is no reading yet"},
		{"setups", `"" is not a number: setups 1`},
		{"count -4", `"-4" is below 0: count 40`},
		{"count 40", "count: there is no reading yet"},
		{"people 0", "people 0: want a number from 0.001 to 1000000"},
		{"void", "void needs a reason: void tray dropped"},
		{"void 1", "void 1 gives no reason: void WHY is of what runs, else of the last reading; amend N void WHY is of reading N, such as amend 1 void tray dropped"},
		{"note", `note needs words: note two trays were wet`},
		{"undo", "there is nothing to undo"},
		{"ended 08:00", "there is no reading yet"},
		{"amend 1 count 4", `amend "1 count 4": a number that show gives, a field and a value are needed, such as amend 2 count 40`},
		{"grow", "grow needs a name"},
		{"workflow trays", `no workflow is named "trays"`},
		{"take 1", `take "1": a number that stands behind an open reading is needed`},
		{"take it", `take "it": a number`},
	} {
		t.Run(c.line, func(t *testing.T) {
			dir := t.TempDir()
			got, err := obeyed(t, dir, newHand(), all, c.line)
			assert.EqualError(t, err, "1 line was refused: see the answers that begin with no")
			assert.Contains(t, got, "\nno: "+c.want)
			assert.NoFileExists(t, filepath.Join(dir, "journal"))
		})
	}
	got, err := obeyed(t, t.TempDir(), newHand(), all, "start", "ended noon", "amend 1 colour red", "amend 1 step thinn", "amend 1 count x", "take 1", "new")
	assert.EqualError(t, err, "6 lines were refused: see the answers that begin with no")
	for _, want := range []string{`"noon": a time of day`, `amend has no field "colour"`, `no step is named "thinn"`, `"x" is not a number`, `take "1"`, "wash is running: stop it first"} {
		assert.Contains(t, got, "\nno: "+want)
	}
}

// The end of the input leaves what runs running; a later run names it, goes on
// with it, and so with a reading that lacks its count.
func TestLinesTakeUp(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	got, err := obeyed(t, dir, h, all, "start sow", "+10s", "next transplant", "+5s")
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(got, "transplant is still open: headhours record takes it up\nsow (0:10) lacks its count: headhours record asks for it\n"), got)
	h.Boot, h.Mono = "b2", 0
	h.run(45 * time.Second)
	got, err = obeyed(t, dir, h, Names{}, "start wash", "+1s", "stop")
	require.NoError(t, err)
	assert.Contains(t, got, "open: transplant has run since 08:10, 0:50 by now (g1, w1); take 1 goes on with it\n")
	assert.Contains(t, got, "open: sow (0:10) of 08:10 (g1, w1) lacks its count; take 1, then count N\n")
	got, err = obeyed(t, dir, h, Names{}, "take 1", "count 30", "ended 08:10:40", "amend 1 count 20", "new", "start thin", "+1s", "stop")
	require.NoError(t, err)
	assert.Contains(t, got, " 1  08:10  sow  0:10  ? cells\n 2  08:10  transplant  running\nrunning: transplant 0:51, ? of 40 plants\n")
	assert.Contains(t, got, "transplant ended 08:10:40\n   transplant 0:30 for 30 plants; the first of it that is timed\n")
	assert.Contains(t, got, "amend 1 count 20\n   sow 0:10 for 20 cells; usually 2:10 (between 2:04 and 2:17)\n   this one stands out: shorter")
	sessions, _ := readSessions(filepath.Join(dir, "journal"))
	require.Len(t, sessions, 3)
	assert.Equal(t, []string{"sow 10s of 20", "transplant 30s of 30"}, []string{tell(sessions[0].Readings[0]), tell(sessions[0].Readings[1])})
}

// What the disk refuses is not answered with ok, and is written with a later line.
func TestLinesWhileTheDiskRefuses(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	blocked := filepath.Join(dir, "journal")
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere", "else"), blocked))
	got, err := obeyed(t, dir, h, all, "start", "+9s", "stop", "new")
	require.ErrorIs(t, err, stopwatch.ErrUnsaved)
	assert.ErrorContains(t, err, "write these down:\n  08:10:00  wash  0:09  of 1\n")
	assert.NotContains(t, got, "\nok ")
	assert.Contains(t, got, "not saved: start wash: ")
	assert.Contains(t, got, "no: not all is saved: ")

	m := &mending{script: script{h, []string{"start", "+9s", "stop"}}, mended: make(chan struct{}), mend: func() { require.NoError(t, os.Remove(blocked)) }}
	require.NoError(t, Lines(Config{Dir: dir, Study: aStudy(), Names: all, Now: h.now}, m, m))
	assert.Contains(t, m.out.String(), "not saved: start wash: ")
	assert.Contains(t, m.out.String(), "ok 08:10:18 stop\n")
	sessions, unread := readSessions(filepath.Join(dir, "journal"))
	assert.Empty(t, unread)
	assert.Equal(t, "wash 9s of 1", tell(sessions[0].Readings[0]))
}

// mending is a script, and what answers it, in the midst of which something is put right:
// once a line is not saved.
type mending struct {
	script
	out    bytes.Buffer
	mend   func()
	mended chan struct{}
	lines  int
}

func (m *mending) Read(p []byte) (int, error) {
	if m.lines++; m.lines == 2 {
		<-m.mended
	}
	return m.script.Read(p)
}

func (m *mending) Write(p []byte) (int, error) {
	if bytes.HasPrefix(p, []byte("not saved")) {
		m.mend()
		close(m.mended)
	}
	return m.out.Write(p)
}

// A forgotten clock is asked about once.
func TestLinesAskOfAForgottenClock(t *testing.T) {
	got, err := obeyed(t, t.TempDir(), newHand(), all, "start sow", "+12m", "show", "show", "ended 8", "count 40")
	require.NoError(t, err)
	assert.Equal(t, 1, strings.Count(got, `? still at "sow"? when did you stop? Answer: ended 14:05, or ended 12 for minutes ago`))
	assert.Contains(t, got, "sow 4:00 for 40 cells; usually 3:50")
}

// Lines that no person would type neither stop it nor reach the journal.
func FuzzLines(f *testing.F) {
	for _, o := range orders() {
		f.Add(o.name + " 1\n" + o.name + "\nstart sow\n" + o.name + " 1 count 2\n")
	}
	f.Add("start\n\x00\nnote \x1b[2J\n")
	f.Fuzz(func(t *testing.T, text string) {
		dir, h := t.TempDir(), newHand()
		err := Lines(Config{Dir: dir, Study: aStudy(), Names: all, Now: h.now}, strings.NewReader(text), io.Discard)
		if err != nil {
			require.NotErrorIs(t, err, stopwatch.ErrUnsaved)
		}
		journals, err := filepath.Glob(filepath.Join(dir, "journal", "*"))
		require.NoError(t, err)
		for _, path := range journals {
			held, _, problems := stopwatch.ReadFile(path, nil)
			require.Empty(t, problems)
			require.Empty(t, held.Warnings)
		}
	})
}

// A journal that cannot be read is named when the recorder starts, and keeps nothing
// from being timed.
func TestUnreadableJournalsAreNamed(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "journal", "2026-03-03T0810-w1-0003.jsonl")
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.Symlink(filepath.Base(path), path))
	got, err := obeyed(t, dir, newHand(), Names{}, "start sow", "stop")
	require.NoError(t, err)
	assert.Contains(t, got, "note: journal/2026-03-03T0810-w1-0003.jsonl: cannot be read: ")
	assert.Contains(t, got, "ok 08:10:00 ")
}

// What a visit is counted by is one, an end is said as help says it, and a stop is taken
// back by its own name.
func TestLinesSayAndBar(t *testing.T) {
	got, err := obeyed(t, t.TempDir(), newHand(), Names{}, "start wash", "count 2", "lot", "+600s", "stop", "undo", "ended 5 minutes ago", "amend 1 note wet")
	require.Error(t, err)
	assert.Contains(t, got, "no: wash is counted by the visit, and a reading is one visit")
	assert.Contains(t, got, "no: wash is counted by the visit, and a lap would be one more")
	assert.Contains(t, got, " undo: stop of wash; wash goes on\n")
	assert.Contains(t, got, " wash ended 08:15:00\n")
}

// A step that is stopped without a count is offered what is due of it; the end of a session
// says what has none, and what to do next.
func TestLinesSayWhatLacksACount(t *testing.T) {
	got, err := obeyed(t, t.TempDir(), newHand(), all,
		"start sow", "+9s", "stop", "count", "start thin", "+5s", "next sweep", "+5s", "stop", "start sow", "+5s", "lot", "count 12", "end", "amend 2 count 38")
	require.NoError(t, err)
	for _, want := range []string{
		"\n   sow (0:09) lacks its count: count alone gives the 40 cells due, count N another\n",
		" count 40 of sow\n",
		"\n   thin (0:05) lacks its count: amend 2 count 40 gives what is due\n",
		"\n   sweep (0:05) lacks its count: count N gives it\n",
		"\n   sow (0:05) lacks its count: amend 4 count N gives it\n",
		"\n   thin (0:05) lacks its count, and is in no answer until then: amend 2 count 40, as is due, gives it\n",
		"\n   sweep (0:05) lacks its count, and is in no answer until then: amend 3 count N gives it\n",
		"\n   next: headhours compare\n",
		" amend 2 count 38\n",
	} {
		assert.Contains(t, got, want)
	}
	got, err = obeyed(t, t.TempDir(), newHand(), all, "start sow", "+9s", "count 15", "lot", "+5s", "stop", "count")
	require.NoError(t, err)
	assert.Contains(t, got, "count alone gives the 25 cells due")
	assert.Contains(t, got, " count 25 of sow\n", "of lots, what the others leave")
}

// Count alone gives what is due; where nothing is, a number is asked for.
func TestCountAloneWhereNothingIsDue(t *testing.T) {
	for _, lines := range [][]string{
		{"start sweep", "+5s", "count"},
		{"start sweep", "+5s", "stop", "count"},
		{"start sow", "+5s", "count 40", "lot", "+5s", "count"}, // all of it is done
	} {
		got, err := obeyed(t, t.TempDir(), newHand(), all, lines...)
		require.Error(t, err)
		assert.Regexp(t, `no: nothing is known to be due of (sweep|sow): give a number, such as count 40\n`, got, lines)
	}
	got, err := obeyed(t, t.TempDir(), newHand(), all, "start sow", "+5s", "count")
	require.NoError(t, err)
	assert.Contains(t, got, " count 40 of sow\n")
}

// A count that is ten times off what is due is taken, and asked about once.
func TestLinesAskOfAnOddCount(t *testing.T) {
	got, err := obeyed(t, t.TempDir(), newHand(), all, "start sow", "count 4", "count 400", "show", "+9s", "next thin", "+9s", "count 3", "show", "stop", "show", "amend 1 count 40")
	require.NoError(t, err)
	assert.Equal(t, 2, strings.Count(got, "\n? "), "4 of 40 may grow while it runs")
	assert.Contains(t, got, " count 400 of sow\n? sow: 400 cells, where 40 cells are due: is that right? Else: count N\n")
	assert.Contains(t, got, "? thin: 3 seedlings, where 40 seedlings are due: is that right? Else: count N\n")
}

// The list of tasks is whole, however long it and its names are.
func TestLinesListAllTasks(t *testing.T) {
	c := Config{Dir: t.TempDir(), Study: aStudy(), Names: all, Now: newHand().now}
	long := strings.Repeat("very long name of a step ", 4) + "indeed"
	for range 60 {
		c.Study.Steps = append(c.Study.Steps, study.Step{Name: long + strings.Repeat("x", len(c.Study.Steps))})
	}
	var out bytes.Buffer
	require.NoError(t, Lines(c, strings.NewReader("tasks\n"), &out))
	assert.Equal(t, 60, strings.Count(out.String(), long))
	assert.NotContains(t, out.String(), "…")
}

// Where there can be no folder of journals what is pressed is kept, and to be written down.
func TestNoFolderOfJournals(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	blocked := filepath.Join(dir, "journal")
	require.NoError(t, os.WriteFile(blocked, []byte("a file"), 0o600))
	got, err := obeyed(t, dir, h, all, "start sow", "+9s", "count 12", "stop")
	require.ErrorIs(t, err, stopwatch.ErrUnsaved)
	assert.ErrorContains(t, err, "not a directory")
	assert.ErrorContains(t, err, "write these down:\n  08:10:00  sow  0:09  of 12\n")
	assert.NotContains(t, got, "\nno: ")
	assert.Contains(t, got, "not saved: start sow: ")

	b := benchIn(t, dir, h, all)
	b.keys("down", "space", "12", "e")
	b.sees("NOT SAVED: 5 kept here and tried again.", "not a directory")
	assert.Equal(t, []string{"sow 3s of 12"}, b.told())
	require.NoError(t, os.Remove(blocked))
	b.Update(tickMessage{})
	b.hides("NOT SAVED")
	sessions, _ := readSessions(blocked)
	assert.Len(t, sessions, 1)
}

// A change is marked with its time and its step, and what to write is shown.
func TestLinesMarkAChange(t *testing.T) {
	dir := t.TempDir()
	got, err := obeyed(t, dir, newHand(), all, "change bench", "change", "start sow", "+9s", "change dibber board", "change knife of house of Top Up", "undo", "count 12", "end")
	assert.EqualError(t, err, "2 lines were refused: see the answers that begin with no")
	assert.Contains(t, got, "no: of which step? change bench of STEP\nno: change needs a name: change dibber board\n")
	assert.Contains(t, got, `ok 08:10:09 change dibber board of sow
   to have answers tell before from after, copy into study.toml:
   [[change]]
   name = "dibber board"
   step = "sow"
   since = "2026-03-02"
   # outlay = 0.00    # what it cost, if anything
ok 08:10:09 change knife of house of top up
`)
	assert.Contains(t, got, " undo: change knife of house\n")
	sessions, _ := readSessions(filepath.Join(dir, "journal"))
	require.Len(t, sessions[0].Changes, 1)
	assert.Equal(t, []string{"dibber board", "sow"}, []string{sessions[0].Changes[0].Name, sessions[0].Changes[0].Step})
	assert.Equal(t, "sow 9s of 12", tell(sessions[0].Readings[0]))
}

// A line that is too long is refused by its number, and those behind it are obeyed; the same
// holds of one that ends the input.
func TestLinesThatAreTooLong(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"in the midst", "start sow\nnote " + strings.Repeat("x", maxBytes) + "\n\nstop\n", []string{"ok start sow", "no: line 2 is longer than 65536 bytes and was not read", "ok stop"}},
		{"several times", "start sow\n" + strings.Repeat("x", 3*maxBytes) + "\n#\n" + strings.Repeat("y", maxBytes) + "\nstop", []string{
			"ok start sow", "no: line 2 is longer than 65536 bytes and was not read", "no: line 4 is longer than 65536 bytes and was not read", "ok stop"}},
		{"at the end", "start sow\n" + strings.Repeat("x", 2*maxBytes), []string{"ok start sow", "no: line 2 is longer than 65536 bytes and was not read"}},
		{"just not too long", "start sow\n#" + strings.Repeat("x", maxBytes-3) + "\r\nstop\n", []string{"ok start sow", "ok stop"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			h := newHand()
			now := func() stopwatch.Instant { h.run(time.Second); return h.now() }
			err := Lines(Config{Dir: t.TempDir(), Study: aStudy(), Now: now}, strings.NewReader(c.text), &out)
			var got []string
			for _, l := range strings.Split(out.String(), "\n") {
				word, rest, _ := strings.Cut(l, " ")
				if word == "ok" {
					_, rest, _ = strings.Cut(rest, " ")
				}
				if word == "ok" || word == "no:" {
					got = append(got, word+" "+rest)
				}
			}
			assert.Equal(t, c.want, got)
			if refused := strings.Contains(strings.Join(c.want, ""), "no:"); refused {
				assert.ErrorContains(t, err, "refused: see the answers that begin with no")
			} else {
				assert.NoError(t, err)
			}
		})
	}
}

// A refusal speaks of the line that was typed, and says how to go on.
func TestRefusalsOfLines(t *testing.T) {
	got, err := obeyed(t, t.TempDir(), newHand(), all, "start sow", "+2m", "ended 5 minutes ago", "ended soon", "end", "start sow", "amend 1 ended 5 minutes ago")
	require.Error(t, err)
	for _, want := range []string{
		"\nno: ended: 08:", "is not after its beginning", "\nno: \"soon\": a time of day such as 14:05 is needed, or minutes\n",
		"\nno: start: the session has ended; new, then start, begins another\n", "\nno: amend: 08:",
	} {
		assert.Contains(t, got, want)
	}
}
