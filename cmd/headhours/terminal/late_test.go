package terminal

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slow is what answers a script, and takes a minute over the first answer, in which the
// rest of the script is read.
type slow struct {
	script
	out   bytes.Buffer
	all   chan struct{}
	begun bool
}

func (s *slow) Read(p []byte) (int, error) {
	n, err := s.script.Read(p)
	if err != nil {
		close(s.all)
	}
	return n, err
}

func (s *slow) Write(p []byte) (int, error) {
	if !s.begun && bytes.HasPrefix(p, []byte("ok")) {
		s.begun = true
		<-s.all
		s.hand.run(time.Minute)
	}
	return s.out.Write(p)
}

// A line has the time at which it was read, whatever goes on before it is obeyed.
func TestLinesAreStampedAsTheyAreRead(t *testing.T) {
	s := &slow{script: script{newHand(), []string{"start sow", "+10s", "stop", "+5s", "start thin", "+1s", "end"}}, all: make(chan struct{})}
	dir := t.TempDir()
	require.NoError(t, Lines(Config{Dir: dir, Study: aStudy(), Logs: logsOf(timed()), Names: all, Now: s.hand.now}, s, s))
	sessions, _ := readSessions(filepath.Join(dir, "journal"))
	require.Len(t, sessions, 1)
	assert.Equal(t, []string{"sow 10s", "thin 1s"}, []string{tell(sessions[0].Readings[0]), tell(sessions[0].Readings[1])})
	assert.Contains(t, s.out.String(), "ok 08:10:10 stop\n")
}

// late is logs that are read after so many looks.
type late struct {
	Logs
	looks int
}

func (l *late) Latest(wait time.Duration) sums.Snapshot {
	if l.looks--; l.looks < 0 {
		return l.Logs.Latest(wait)
	}
	return sums.Snapshot{}
}

func (l *late) DoneIn(grow string, wait time.Duration) ([]answer.Done, bool) {
	if l.looks < 0 {
		return l.Logs.DoneIn(grow, wait)
	}
	return nil, false
}

// Presses are answered while the logs are read; what rests on those is said once they are.
func TestLinesWhileLogsAreRead(t *testing.T) {
	h := newHand()
	var out bytes.Buffer
	c := Config{Dir: t.TempDir(), Study: aStudy(), Logs: &late{logsOf(timed()), 9}, Now: h.now}
	require.NoError(t, Lines(c, &script{h, []string{"tasks", "start sow", "+60s", "count 20", "stop", "people 2", "note late", "tasks"}}, &out))
	got := out.String()
	assert.Contains(t, got, "grow none, workflow tray, two seeds, worker none\n")
	assert.Contains(t, got, "   the logs are still being read: what they hold of this grow is not ticked yet\n")
	assert.Contains(t, got, "ok 08:11:00 stop\n   what is usual is still being read from the logs\nok 08:11:00 people 2\n")
	assert.Equal(t, 1, strings.Count(got, "still being read from the logs"))
	assert.Contains(t, got, " note late\n   sow 1:00 for 20 cells; usually 2:10 (between 2:04 and 2:17)\n   this one stands out: shorter than it usually is\n")
	assert.Contains(t, got, "\npart sow")

	out.Reset() // the end waits a little for it
	c.Dir, c.Logs = t.TempDir(), &late{logsOf(timed()), 6}
	require.NoError(t, Lines(c, &script{h, []string{"start sow", "+60s", "count 20", "stop"}}, &out))
	assert.Contains(t, out.String(), "still being read from the logs\n   sow 1:00 for 20 cells; usually 2:10")
}

// What the logs name is offered once they are read, as long as nothing was pressed or
// named.
func TestNamesOfLateLogs(t *testing.T) {
	h := newHand()
	var out bytes.Buffer
	c := Config{Dir: t.TempDir(), Study: aStudy(), Logs: &late{logsOf(timed()), 4}, Now: h.now}
	require.NoError(t, Lines(c, &script{h, []string{"show", "show", "start sow"}}, &out))
	sessions, _ := readSessions(filepath.Join(c.Dir, "journal"))
	assert.Equal(t, "g0", sessions[0].Session.Grow)
	c.Dir, c.Logs = t.TempDir(), &late{logsOf(timed()), 4}
	require.NoError(t, Lines(c, &script{h, []string{"worker w5", "show", "show", "start sow"}}, &out))
	sessions, _ = readSessions(filepath.Join(c.Dir, "journal"))
	assert.Equal(t, []string{"", "w5"}, []string{sessions[0].Session.Grow, sessions[0].Session.Worker})
}
