package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
)

// recording is record run on a pseudo-terminal.
type recording struct {
	races string // where the race detector writes what it finds
	t     *testing.T
	cmd   *exec.Cmd
	tty   *os.File
	dir   string

	mu   sync.Mutex
	read bytes.Buffer // what it has printed
}

const aGrow = `
[study]
heads = 20
[[step]]
name = "sow"
per = "cell"
[[step]]
name = "transplant"
per = "plant"
[[step]]
name = "harvest"
per = "head"
[[workflow]]
name = "tray"
tasks = [
  { step = "sow", day = 0, count = "cells" },
  { step = "transplant", day = 13, count = "plants" },
  { step = "harvest", day = 34, count = "heads" },
]
`

func newGrow(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "study.toml"), []byte(aGrow), 0o600))
	return dir
}

func startRecord(t *testing.T, dir string, env []string, args ...string) *recording {
	t.Helper()
	r := &recording{t: t, dir: dir, cmd: exec.Command("headhours", append([]string{"--study", dir, "record"}, args...)...)}
	r.races = filepath.Join(t.TempDir(), "race")
	r.cmd.Env = append(append(os.Environ(), "TERM=xterm-256color", "NO_COLOR=", "GORACE=log_path="+r.races), env...)
	tty, err := pty.StartWithSize(r.cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	r.tty = tty
	go func() {
		b := make([]byte, 4096)
		for {
			n, err := tty.Read(b)
			r.mu.Lock()
			r.read.Write(b[:n])
			r.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	t.Cleanup(func() {
		_ = r.cmd.Process.Kill() // it may have ended
		tty.Close()
	})
	return r
}

func (r *recording) press(keys string) {
	r.t.Helper()
	_, err := io.WriteString(r.tty, keys)
	require.NoError(r.t, err)
}

// soon waits until something holds; said says what was seen instead.
func (r *recording) soon(holds func() bool, said func() string) {
	r.t.Helper()
	for end := time.Now().Add(20 * time.Second); !holds(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			require.Fail(r.t, "it did not come to that", "%s", said())
		}
	}
}

func (r *recording) printed() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.read.String()
}

// sees waits for words on the screen, drawn anew; once a second again, for what is pressed in
// the middle of drawing may be drawn in pieces.
func (r *recording) sees(words ...string) {
	r.t.Helper()
	from := len(r.printed())
	var drawn time.Time
	for _, word := range words {
		shown := func() string { return ansi.Strip(r.printed()[from:]) }
		r.soon(func() bool {
			if time.Since(drawn) > time.Second {
				r.press("\x0c") // ctrl-l
				drawn = time.Now()
			}
			return strings.Contains(shown(), word)
		}, func() string { return word + " is not in: " + shown() })
	}
}

// comesTo waits until the journals hold these readings, without their times.
func (r *recording) comesTo(want ...string) {
	r.t.Helper()
	r.soon(func() bool { return assert.ObjectsAreEqual(want, r.readings()) }, func() string { return fmt.Sprintf("%q, want %q", r.readings(), want) })
}

func (r *recording) readings() []string {
	var told []string
	paths, err := filepath.Glob(filepath.Join(r.dir, "journal", "*.jsonl"))
	require.NoError(r.t, err)
	for _, path := range paths {
		_, state, problems := stopwatch.ReadFile(path, nil)
		require.Empty(r.t, problems)
		for _, reading := range state.Readings {
			s := reading.Step
			if reading.Counted.Known {
				s += fmt.Sprintf(" of %g", reading.Count)
			}
			if reading.Paused > 0 {
				s += " paused"
			}
			if reading.Ended.IsZero() {
				s += " runs"
			}
			told = append(told, s)
		}
	}
	return told
}

// racesOfTheTerminal says whether the race detector, where it is on, found something, and
// only this: the terminal's library closes its reader of keys while its own goroutine may
// still be about to wait on it. Any other race fails the test.
func (r *recording) racesOfTheTerminal() bool {
	r.t.Helper()
	logs, err := filepath.Glob(r.races + ".*")
	require.NoError(r.t, err)
	for _, log := range logs {
		found, err := os.ReadFile(log)
		require.NoError(r.t, err)
		for _, race := range strings.Split(string(found), "WARNING: DATA RACE")[1:] {
			require.Contains(r.t, race, "cancelreader.(*epollCancelReader).Close")
			require.Contains(r.t, race, "cancelreader.(*epollCancelReader).wait")
		}
	}
	return len(logs) > 0
}

// ends waits for the end of the process, by itself or by a signal.
func (r *recording) ends(by syscall.Signal) {
	r.t.Helper()
	if by != 0 {
		require.NoError(r.t, r.cmd.Process.Signal(by))
	}
	ended := make(chan error, 1)
	go func() { ended <- r.cmd.Wait() }()
	select {
	case err := <-ended:
		if by != syscall.SIGKILL && !r.racesOfTheTerminal() {
			require.NoError(r.t, err, "%s", r.printed())
		}
	case <-time.After(20 * time.Second):
		require.Fail(r.t, "it does not end", "%s", r.printed())
	}
}

// A whole grow, in which the terminal goes away, the process is killed and a key
// is pressed too often; fit then reads the journals with no step between. The
// space bar and enter take turns, since one of them twice at once would bounce.
func TestRecordAGrow(t *testing.T) {
	dir := newGrow(t)
	r := startRecord(t, dir, nil, "--grow", "g1", "--workflow", "tray", "--worker", "w1")
	r.sees("READY", "sow", "[space] start sow")
	r.press(" ")
	r.comesTo("sow runs")
	r.press("12l") // not in the same millisecond, which would be no time
	r.comesTo("sow of 12", "sow runs")
	r.press("p")
	r.sees("PAUSED")
	r.press("\r8")
	r.comesTo("sow of 12", "sow of 8 paused runs")
	r.press("\r") // ends: the next is due in 13 days
	r.sees("STOPPED")
	r.press(" ")
	r.comesTo("sow of 12", "sow of 8 paused", "transplant runs")
	r.press("u\x1b[A\x1b[B") // a press too many; the arrows move the mark and back
	r.comesTo("sow of 12", "sow of 8 paused")
	r.press("\r")
	r.comesTo("sow of 12", "sow of 8 paused", "transplant runs")
	r.press("nhalf a note")
	r.sees("half a note_")
	r.ends(syscall.SIGHUP)

	r = startRecord(t, dir, nil)
	r.sees("transplant is open since", "take it up")
	r.press(" 20\r")
	r.comesTo("sow of 12", "sow of 8 paused", "transplant of 20")
	r.press(" 2") // harvest
	r.comesTo("sow of 12", "sow of 8 paused", "transplant of 20", "harvest of 2 runs")
	r.ends(syscall.SIGKILL)

	r = startRecord(t, dir, nil)
	r.sees("harvest is open since")
	r.press("t0")
	r.comesTo("sow of 12", "sow of 8 paused", "transplant of 20", "harvest of 0 runs")
	r.press("\x7f20") // backspace: the count before stands again
	r.comesTo("sow of 12", "sow of 8 paused", "transplant of 20", "harvest of 20 runs")
	r.ends(syscall.SIGTERM)

	r = startRecord(t, dir, nil, "--worker", "w1")
	r.sees("harvest is open since")
	r.press(" e")
	r.comesTo("sow of 12", "sow of 8 paused", "transplant of 20", "harvest of 20")
	r.press("q")
	r.ends(0)
	r.soon(func() bool { return strings.Contains(r.printed(), "4 readings") }, r.printed)

	var out, errs bytes.Buffer
	require.Equal(t, done, run([]string{"--study", dir, "fit", "--format", "csv"}, nil, &out, &errs), errs.String())
	for _, step := range []string{"sow,2,", "transplant,1,", "harvest,1,"} {
		assert.Regexp(t, "(?m)^"+step, out.String())
	}
	assert.Empty(t, errs.String())
	journals, err := filepath.Glob(filepath.Join(dir, "journal", "*"))
	require.NoError(t, err)
	require.Len(t, journals, 1)
	journal, err := os.ReadFile(journals[0])
	require.NoError(t, err)
	assert.Contains(t, string(journal), "half a note")
}

// The screen follows the terminal's size, comes back after ctrl-z and quits with
// ctrl-c.
func TestRecordResizedAndSuspended(t *testing.T) {
	r := startRecord(t, newGrow(t), nil, "--grow", "g1", "--workflow", "tray", "--worker", "w1")
	r.press(" ")
	r.comesTo("sow runs")
	r.sees("[l] next lap")
	require.NoError(t, pty.Setsize(r.tty, &pty.Winsize{Rows: 12, Cols: 40}))
	r.soon(func() bool { return strings.Contains(ansi.Strip(r.printed()), "[l] lot") }, r.printed)
	require.NoError(t, pty.Setsize(r.tty, &pty.Winsize{Rows: 1, Cols: 1}))
	r.press("p")
	r.comesTo("sow runs") // still, paused or not
	require.NoError(t, pty.Setsize(r.tty, &pty.Winsize{Rows: 24, Cols: 80}))
	r.sees("PAUSED")
	r.press("\x1a") // ctrl-z: no shell stands behind, so it goes on by itself
	const shown, left = "\x1b[?1049h", "\x1b[?1049l"
	r.soon(func() bool {
		return strings.Contains(r.printed(), left) && strings.LastIndex(r.printed(), shown) > strings.LastIndex(r.printed(), left)
	}, r.printed)
	r.press("\r")
	r.sees("RUNNING")
	r.press("\x03")
	r.ends(0)
	r.soon(func() bool {
		return strings.Contains(r.printed(), " record takes it up")
	}, r.printed)
}

var colour = regexp.MustCompile(`\x1b\[[0-9;]*3[0-7][;m]`)

// Colour is left out where NO_COLOR is set; otherwise it is of the sixteen.
func TestRecordColours(t *testing.T) {
	for _, env := range []string{"NO_COLOR=1", "NO_COLOR="} {
		r := startRecord(t, newGrow(t), []string{env}, "--grow", "g1", "--workflow", "tray", "--worker", "w1")
		r.press(" ")
		r.sees("RUNNING")
		r.press("q")
		r.ends(0)
		assert.Equal(t, env == "NO_COLOR=", colour.MatchString(r.printed()), env)
		assert.NotContains(t, r.printed(), "38;")
	}
}

// In a folder without a study it starts one, if that is wanted.
func TestRecordStartsAStudy(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	r := startRecord(t, dir, nil)
	r.soon(func() bool { return strings.Contains(r.printed(), "(yes or no)") }, r.printed)
	r.press("y\n")
	r.sees("what is being worked on?")
	r.press("bq")
	r.ends(0)
	assert.FileExists(t, filepath.Join(dir, "study.toml"))
}

// Ctrl-\ ends the lines as the end of the input does, without a trace of the program's
// insides.
func TestRecordLinesQuit(t *testing.T) {
	dir := newGrow(t)
	cmd := exec.Command("headhours", "--study", dir, "record", "--lines")
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	var out, errs safeBuffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() }) // it may have ended
	_, err = io.WriteString(in, "start sow\n")
	require.NoError(t, err)
	require.Eventually(t, func() bool { return strings.Contains(out.String(), " start sow\n") }, 20*time.Second, 5*time.Millisecond)
	require.NoError(t, cmd.Process.Signal(syscall.SIGQUIT))
	require.NoError(t, cmd.Wait())
	assert.Contains(t, out.String(), "sow is still open: ")
	assert.Empty(t, errs.String())
}

// safeBuffer is a buffer that is read while it is written.
type safeBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *safeBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *safeBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}
