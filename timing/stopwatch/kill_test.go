package stopwatch

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// recorderFolder, where it is set, makes this test binary a recorder.
const recorderFolder = "STOPWATCH_TEST_RECORDER"

func TestMain(m *testing.M) {
	if dir := os.Getenv(recorderFolder); dir != "" {
		record(dir)
		return
	}
	debug.SetGCPercent(400) // thousands of small journals come and go
	os.Exit(m.Run())
}

// record presses as fast as it can, for ever, now and then many at once, and
// prints what it has pressed so far each time that it was told it is saved.
func record(dir string) {
	s, err := Open(dir, session, SystemClock())
	if err != nil {
		fmt.Println("error", err)
		return
	}
	n := len(s.State().Readings)
	if s.State().Session.Name == "" {
		err = s.Press(begin)
	}
	for err == nil {
		batch := make([]Event, 1+n%17)
		for i := range batch {
			n++
			batch[i] = Event{Kind: Start, Step: fmt.Sprint(n), Text: strings.Repeat("x", n%97*10)}
		}
		if err = s.Press(batch...); err == nil {
			fmt.Println(n)
		}
	}
	fmt.Println("error", err)
}

// Killed again and again at random moments, a recorder loses nothing that it
// said was saved, and carries on with what it has each time.
func TestKilledRecorder(t *testing.T) {
	t.Parallel() // it waits for the disk
	binary, err := os.Executable()
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(11, 12))
	dir, saved := t.TempDir(), 0
	kills := 16
	if os.Getenv("LONG_TESTS") != "" {
		kills = 200
	}
	for kill := range kills {
		if kill%8 == 0 {
			dir, saved = t.TempDir(), 0
		}
		saved = max(saved, recordAndKill(t, binary, dir, r))
		j, err := openToAppend(dir, session)
		require.NoError(t, err, "after kill %d", kill+1)
		steps := 0
		for _, reading := range Fold(j.path, j.events).Readings {
			steps++
			require.Equal(t, fmt.Sprint(steps), reading.Step)
		}
		require.GreaterOrEqual(t, steps, saved, "after kill %d", kill+1)
	}
}

// recordAndKill starts a recorder, kills it at a random moment and tells how
// much it had said was saved.
func recordAndKill(t *testing.T, binary, dir string, r *rand.Rand) (saved int) {
	t.Helper()
	c := exec.Command(binary)
	c.Env = append(os.Environ(), recorderFolder+"="+dir)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	words := bufio.NewScanner(out)
	for range r.IntN(10) { // presses; then some moment of the next ones
		if !words.Scan() {
			break
		}
		saved = number(t, words.Text())
	}
	time.Sleep(time.Duration(r.IntN(2000)) * time.Microsecond)
	require.NoError(t, c.Process.Kill())
	for words.Scan() { // what it said before it died
		saved = number(t, words.Text())
	}
	_ = c.Wait() // it was killed
	return saved
}

// number reads what the recorder said; a last word may be cut off by the kill.
func number(t *testing.T, word string) int {
	t.Helper()
	n := 0
	_, err := fmt.Sscan(word, &n)
	require.NoError(t, err, "the recorder says %q", word)
	return n
}
