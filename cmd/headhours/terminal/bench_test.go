package terminal

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/cmd/headhours/sums"
	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

var update = flag.Bool("update", false, "rewrite the expected screens")

// hand is a clock that the test moves.
type hand struct{ stopwatch.Instant }

func newHand() *hand {
	return &hand{stopwatch.Instant{Wall: time.Date(2026, 3, 2, 8, 10, 0, 0, time.UTC), Boot: "b1"}}
}

func (h *hand) now() stopwatch.Instant { return h.Instant }

func (h *hand) run(d time.Duration) {
	h.Wall, h.Mono = h.Wall.Add(d), h.Mono+d.Milliseconds()
}

func task1(step string, count crop.Word, each float64, days ...int) study.Task {
	return study.Task{Step: step, Days: days, Count: count, Each: each, SharedBy: 1}
}

// aStudy is a small invented study.
func aStudy() study.Study {
	return study.Study{
		Name: "a study", Heads: 40, Confidence: 0.95, Germination: crop.Germination{Share: 1},
		Steps: []study.Step{
			{Name: "wash", Per: "visit", Estimate: &study.Estimate{Low: 60, Likely: 120, High: 180, OfVisit: true}},
			{Name: "sow", Per: "cell"}, {Name: "thin", Per: "seedling"}, {Name: "transplant", Per: "plant"},
			{Name: "top up", Per: "litre"}, {Name: "harvest", Per: "head"}, {Name: "check pH", Per: "visit"}, {Name: "sweep"},
		},
		Workflows: []study.Workflow{
			{Name: "tray, two seeds", SeedsPerCell: 2, Tasks: []study.Task{
				task1("wash", crop.Once, 1, 0), task1("sow", crop.Cells, 1, 0), task1("thin", crop.Surplus, 1, 6),
				task1("transplant", crop.Plants, 1, 13), task1("top up", crop.Plants, 0.5, 20, 27), task1("harvest", crop.Heads, 1, 34),
			}},
			{Name: "in place", SeedsPerCell: 1, Tasks: []study.Task{task1("sow", crop.Cells, 1, 0), task1("harvest", crop.Heads, 1, 30)}},
		},
		Grows:  []study.Grow{{Name: "g1", Workflow: "tray, two seeds"}, {Name: "g2", Workflow: "in place", Cells: study.Known(20)}},
		Chores: []study.Chore{{Step: "check pH", EveryDays: 3, Count: 1}},
	}
}

// timed is readings of a task log: sow at three counts, close to 30 s + 5 s a cell.
func timed() []study.Reading {
	var readings []study.Reading
	for i, x := range []struct{ count, seconds float64 }{{10, 81}, {20, 129}, {40, 232}, {40, 228}, {20, 130}} {
		readings = append(readings, study.Reading{
			Place: study.Place{File: "timings/old.csv", Line: i + 2}, Date: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC),
			Grow: "g0", Workflow: "tray, two seeds", Step: "sow", Worker: "w1", People: 1, Seconds: x.seconds, Count: x.count, Rating: 100, Source: study.Watch,
		})
	}
	return readings
}

// inMemory is logs that are at hand.
type inMemory struct{ known sums.Snapshot }

func logsOf(readings []study.Reading) Logs {
	m := answer.Fit(aStudy(), readings, answer.Options{})
	k := sums.Snapshot{Models: m, Ready: true, Holds: func(journal string) bool {
		return slices.ContainsFunc(readings, func(r study.Reading) bool { return r.Journal == journal })
	}}
	k.Grow, k.Workflow, k.Worker, _ = answer.LastNames(m)
	return inMemory{k}
}

func (m inMemory) Latest(time.Duration) sums.Snapshot { return m.known }

func (m inMemory) DoneIn(grow string, _ time.Duration) ([]answer.Done, bool) {
	done, err := answer.DoneIn(m.known.Models, grow)
	return done, err == nil
}

// bench is a screen with a recorder behind it, in a folder of its own, without a
// terminal.
type bench struct {
	*program
	t    *testing.T
	hand *hand
	dir  string
}

func newBench(t *testing.T, names Names) *bench {
	t.Helper()
	return benchIn(t, t.TempDir(), newHand(), names)
}

func benchIn(t *testing.T, dir string, h *hand, names Names) *bench {
	t.Helper()
	c := Config{Dir: dir, Study: aStudy(), Logs: logsOf(timed()), Names: names, Now: h.now}
	b := &bench{program: newProgram(c), t: t, hand: h, dir: dir}
	t.Cleanup(func() { b.close() })
	return b
}

// all are the names with which the screen asks for none.
var all = Names{"g1", "tray, two seeds", "w1"}

// keys presses keys, a second apart: "space", "p", "12" (two keys), "'text" (as
// many as letters).
func (b *bench) keys(names ...string) {
	b.t.Helper()
	for _, name := range names {
		switch letters, typed := strings.CutPrefix(name, "'"); {
		case typed:
			for _, r := range letters {
				b.one(keystroke{string(r), string(r)})
			}
		case strings.Trim(name, "0123456789.") == "":
			for _, r := range name {
				b.one(keystroke{string(r), string(r)})
			}
		case len([]rune(name)) == 1:
			b.one(keystroke{name, name})
		case name == "space":
			b.one(keystroke{name, " "})
		default:
			b.one(keystroke{name: name})
		}
	}
}

// press is a key as the program takes it.
func (b *bench) press(k keystroke) outcome { return b.program.one(job{key: k, at: b.hand.now()}) }

func (b *bench) one(k keystroke) outcome {
	do := b.press(k)
	b.hand.run(time.Second)
	return do
}

// told is the readings of the session at hand, as short as they can be.
func (b *bench) told() []string {
	told := []string{}
	for _, r := range b.state.Readings {
		told = append(told, tell(r))
	}
	return told
}

func tell(r stopwatch.Reading) string {
	s := fmt.Sprintf("%s %gs", r.Step, r.Seconds)
	if r.Ended.IsZero() {
		s = r.Step + " runs" // its time is up to the last press alone
	}
	if r.Counted.Known {
		s += fmt.Sprintf(" of %g", r.Count)
	}
	if r.Paused > 0 {
		s += fmt.Sprintf(" paused %gs", r.Paused)
	}
	if r.Setups.Known {
		s += fmt.Sprintf(" setups %g", r.Setups.Value)
	}
	if r.People != 1 {
		s += fmt.Sprintf(" people %.3g", r.People)
	}
	if r.Note != "" {
		s += " note " + r.Note
	}
	if r.Void != "" {
		s += " void " + r.Void
	}
	return s
}

// shown is the screen as text, its lines without blanks at the end.
func (b *bench) shown(width, height int) string {
	b.t.Helper()
	var lines []string
	for _, l := range b.screen.view(width, height, b.hand.now()) {
		require.LessOrEqual(b.t, l.width(), width)
		lines = append(lines, strings.TrimRight(l.String(), " "))
	}
	require.LessOrEqual(b.t, len(lines), height)
	return strings.Join(lines, "\n") + "\n"
}

// sees holds that the screen shows some words, however its lines break.
func (b *bench) sees(words ...string) {
	b.t.Helper()
	screen := strings.Join(strings.Fields(b.shown(80, 24)), " ")
	for _, w := range words {
		assert.Contains(b.t, screen, w)
	}
}

func (b *bench) hides(words string) {
	b.t.Helper()
	assert.NotContains(b.t, strings.Join(strings.Fields(b.shown(80, 24)), " "), words)
}

// golden holds the screen against the one that is kept.
func (b *bench) golden(name string, width, height int) {
	b.t.Helper()
	got, path := b.shown(width, height), filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(b.t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(b.t, err)
	assert.Equal(b.t, string(want), got)
}

// close closes the session at hand. The error is of presses that could not be
// written to the end.
func (r *recorder) close() error {
	if r.watch == nil {
		return nil
	}
	return r.watch.Close()
}
