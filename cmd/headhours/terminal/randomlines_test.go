package terminal

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyLine is a line as a hurried, a clumsy or a hostile hand types it.
func anyLine(r *rand.Rand) string {
	of := func(words ...string) string { return words[r.IntN(len(words))] }
	step := of("sow", "thin", "wash", "Top Up", "sweep", "harvest", "sww", "", "check  ph")
	number := of("0", "1", "2", "3", "12,5", "40", "400", "-1", "1e9", "", "x", "999999999999", "0.5")
	text := of("wet", "two trays, \"wet\"", "a\tb", "\x1b[2J", "", strings.Repeat("x", 300), "1", "of sow", "lamp of thin", "\u202e", "ü")
	return of(
		"start "+step, "start "+step, "next "+step, "next "+step, "lot", "lot", "pause "+text, "pause", "resume", "resume", "stop", "stop", "count "+number, "count "+number, "count",
		"setups "+number, "people "+number, "note "+text, "change "+text, "change board of "+step, "void "+text, "ended "+of(number, number+" s", "08:15", "8:10:30", "noon", "26:00"),
		"undo", "show", "tasks", "help", "grow "+of("g1", "g2", "g9", text), "workflow "+of("in place", "tray, two seeds", "tray"), "worker "+of("w1", "W 2", text),
		"amend "+number+" "+of("step "+step, "count "+number, "setups "+number, "people "+number, "ended "+number, "note "+text, "void "+text, "grow g2", "worker w2", "workflow in place", "colour red", ""),
		"take "+number, text, step, number, strings.ToUpper("stop"), "new", "end",
	)
}

// presses says whether a line is of a command that presses.
func presses(line string) bool {
	word, _ := firstWord(strings.ToLower(clean(line)))
	for _, w := range []string{"start", "next", "lot", "pause", "resume", "stop", "count", "setups", "people", "note", "change", "void", "ended", "amend", "end"} {
		if word == w {
			return true
		}
	}
	return false
}

// Every line is answered; one that is refused changes neither the session nor the disk; one
// that is taken is on the disk before its answer, and undone by the next undo.
func TestRandomLines(t *testing.T) {
	for seed := range uint64(5) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(seed, 31))
			dir := t.TempDir()
			f := newFace(t, dir, newHand(), all)
			taken, refused := 0, 0
			for range 150 {
				f.hand.run(time.Duration(r.IntN(60_000)) * time.Millisecond)
				line := anyLine(r)
				if clean(line) == "" {
					continue // passed over before it is obeyed
				}
				before, disk, session := toldPlainly(f.state, false), onDisk(t, dir), f.state.Session.Name
				answer := f.says(line)
				require.NotEmpty(t, answer, "%q", line)
				require.NotContains(t, answer, "\x1b", "%q", line)
				if strings.HasPrefix(answer, "no: ") {
					refused++
					require.Equal(t, before, toldPlainly(f.state, false), "%q", line)
					require.Equal(t, disk, onDisk(t, dir), "%q", line)
					continue
				}
				if !presses(line) {
					continue
				}
				taken++
				require.True(t, strings.HasPrefix(answer, "ok "), "%q: %s", line, answer)
				require.Greater(t, len(onDisk(t, dir)), len(disk), "%q", line)
				if r.IntN(2) == 0 || strings.HasPrefix(line, "end") && r.IntN(9) > 0 {
					answer = f.says("undo")
					require.True(t, strings.HasPrefix(answer, "ok "), "after %q: %s", line, answer)
					if session != "" { // else it had not begun
						require.Equal(t, before, toldPlainly(f.state, false), "after %q", line)
					}
				}
			}
			assert.Greater(t, taken, 20)
			assert.Greater(t, refused, 20)
		})
	}
}

// onDisk is all that the journals hold.
func onDisk(t *testing.T, dir string) string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(dir, "journal", "*"))
	require.NoError(t, err)
	all := ""
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		all += string(text)
	}
	return all
}
