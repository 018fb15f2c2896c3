package terminal

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"headhours/timing/crop"
	"headhours/timing/stopwatch"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// places are what the screen may be at, from a first start on, each by the keys that lead
// there from the one before and words that it shows wherever there is room for a line.
var places = []struct {
	name string
	keys []string
	sees string
}{
	{"for whom", nil, "what is being"},
	{"which grow", []string{"g"}, "which grow?"},
	{"ready", []string{"1", "b"}, "READY"},
	{"running", []string{"space"}, "RUNNING"},
	{"paused", []string{"p"}, "PAUSED"},
	{"two steps on", []string{"p", "down", "space"}, "RUNNING"},
	{"asked", []string{"l", "x"}, "RUNNING"},
	{"typing", []string{"3", "9"}, "RUNNING"},
	{"note", []string{"n", "'two trays were wet and one of them had to be sown anew because of that"}, "note on"},
	{"void", []string{"esc", "v"}, "why does"},
	{"which reading", []string{"esc", "a"}, "which reading"},
	{"what of it", []string{"1"}, "08:10"},
	{"stopped", []string{"esc", "e"}, "STOPPED"},
	{"done otherwise", []string{"o"}, "work is done"},
	{"to be copied", []string{"1", "'lamp", "enter"}, "to have answers"},
}

// At every width and height every place keeps to the screen and shows a key, and with eight
// lines how things stand or what is asked or typed.
func TestPlacesAtAnySize(t *testing.T) {
	b := newBench(t, Names{})
	for _, p := range places {
		b.keys(p.keys...)
		for _, width := range []int{1, 2, 11, 20, 40, 80, 200} {
			for _, height := range []int{1, 2, 3, 5, 8, 24, 60} {
				lines := b.screen.view(width, height, b.hand.now())
				require.Len(t, lines, height)
				text := ""
				for _, l := range lines {
					require.LessOrEqual(t, l.width(), width, "%s at %dx%d: %q", p.name, width, height, l)
					text += l.String() + "\n"
				}
				if width >= 20 && height >= 8 {
					seen := strings.Contains(text, p.sees) || strings.Contains(text, "_\n") // a question may give way to its answer
					assert.True(t, seen, "%s at %dx%d:\n%s", p.name, width, height, text)
				}
				if width >= 20 && height >= 3 {
					assert.Regexp(t, `\[(space|enter|↑↓|0-9)\]`, text, "%s at %dx%d", p.name, width, height)
				}
			}
		}
	}
}

// What the screens look like at the edges: small, flat, and wide.
func TestScreensAtTheEdges(t *testing.T) {
	b := newBench(t, Names{})
	var out strings.Builder
	for _, p := range places {
		b.keys(p.keys...)
		b.hand.run(7 * time.Second)
		for _, size := range [][2]int{{20, 5}, {20, 24}, {40, 24}, {80, 5}, {200, 24}} {
			if size[1] == 24 && len(p.name) > 8 { // those of short names stand for the rest
				continue
			}
			fmt.Fprintf(&out, "== %s, %d columns, %d lines\n", p.name, size[0], size[1])
			for _, l := range strings.SplitAfter(strings.TrimRight(b.shown(size[0], size[1]), "\n"), "\n") {
				out.WriteString("|" + l)
			}
			out.WriteString("\n")
		}
	}
	assertGolden(t, "edges.txt", out.String())
}

// wide is a study whose names take two columns a letter, join letters or are long.
func wide() study.Study {
	s := aStudy()
	names := []string{"洗う", "間引きと植え替え", "e\u0301te\u0301", "👩\u200d🌾 harvest", strings.Repeat("long ", 30) + "name", "ﷺ", "a\u0300\u0301\u0302", "sow"}
	for i := range s.Steps {
		s.Steps[i].Name, s.Steps[i].Per = names[i%len(names)], "株"
	}
	s.Workflows[0].Name, s.Workflows[0].Tasks = "水耕", nil
	for i := range 60 {
		s.Workflows[0].Tasks = append(s.Workflows[0].Tasks, task1(s.Steps[i%len(s.Steps)].Name, crop.Cells, 1, i))
	}
	s.Workflows = s.Workflows[:1]
	return s
}

// Letters that are wide, that join others or that run from the right neither break a line nor
// put one out of its column, in a list longer than any screen.
func TestWideLettersAndLongLists(t *testing.T) {
	h := newHand()
	b := &bench{program: newProgram(Config{Dir: t.TempDir(), Study: wide(), Names: Names{"畑", "水耕", "子"}, Now: h.now}), t: t, hand: h}
	defer b.close()
	for _, keys := range [][]string{nil, {"space"}, {"p"}, {"p", "l"}, {"1", "2"}, {"x", "n", "'間引き終わり"}, {"enter", "v"}, {"esc", "a"}, {"1"}, {"s"}, {"3", "e"}, {"g", "g"}, {"esc", "k"}, {"esc", "esc", "o"}} {
		b.keys(keys...)
		for _, width := range []int{1, 2, 3, 4, 7, 19, 20, 21, 40, 79, 80, 200} {
			for _, height := range []int{1, 5, 24} {
				lines := b.screen.view(width, height, b.hand.now())
				require.Len(t, lines, height)
				for _, l := range lines {
					require.LessOrEqual(t, l.width(), width, "%v at %d: %q", keys, width, l)
				}
			}
		}
	}
	b.keys("esc")
	for range 70 {
		b.keys("down")
	}
	assert.Equal(t, len(b.tasks)-1, b.screen.marked(), "the arrow stops at the last of the list")
	assert.Contains(t, b.shown(80, 24), "↑")
	for range 70 {
		b.keys("up")
	}
	assert.Equal(t, 0, b.screen.marked(), "and at the first")
	assert.Contains(t, b.shown(80, 24), "↓")
}

// A window about a line of many shows that line, fills its room and holds to the list.
func TestWindow(t *testing.T) {
	for all := range 12 {
		for height := range 14 {
			for at := -1; at < all; at++ {
				from, to := window(at, all, height)
				require.True(t, 0 <= from && from <= to && to <= all, "%d %d %d", at, all, height)
				require.Equal(t, min(all, height), to-from, "%d %d %d", at, all, height)
				if at >= 0 && height > 0 {
					require.True(t, from <= at && at < to, "%d of %d in %d: %d to %d", at, all, height, from, to)
				}
			}
		}
	}
}

// Where lines before or behind are left out the first and the last say how many, themselves
// included, in lists of four lines and more.
func TestMarked(t *testing.T) {
	list := func(n int) (lines []painted) {
		for i := range n {
			lines = append(lines, text(fmt.Sprint(i)))
		}
		return lines
	}
	for _, c := range []struct {
		before, behind, height int
		want                   string
	}{
		{0, 0, 4, "0 1 2 3"}, {1, 0, 4, "  ↑ 2 more 1 2 3"}, {0, 1, 4, "0 1 2   ↓ 2 more"}, {7, 9, 4, "  ↑ 8 more 1 2   ↓ 10 more"}, {7, 9, 3, "0 1 2 3"},
	} {
		var got []string
		for _, l := range marked(list(4), c.before, c.behind, c.height) {
			got = append(got, l.String())
		}
		assert.Equal(t, c.want, strings.Join(got, " "), c)
	}
}

// The big key always says what it does, and does that.
func TestBigKey(t *testing.T) {
	b := newBench(t, all)
	says := func(want string) {
		t.Helper()
		long, _ := b.screen.bigKey()
		assert.Equal(t, want, long)
		b.keys("space", "x")
	}
	says("start wash")
	says("end, on to sow")
	says("end") // what is due in six days does not begin by itself
	says("start thin")
	b.keys("p")
	says("go on")
	b.keys("down", "down", "down")
	says("end, on to top up")
	b.keys("down", "down")
	says("end, on to harvest")
	says("end") // nothing follows
	long, _ := b.screen.bigKey()
	assert.Empty(t, long, "the plan is at its end")
	b.keys("space")
	b.sees("nothing comes next by the plan: choose a step with the arrow keys")
	b.keys("down")
	says("start wash")
	assert.Equal(t, []string{"wash 2s of 1", "sow 2s", "thin 7s paused 1s", "top up 4s", "harvest 2s", "wash runs of 1"}, b.told())
}

// Presses that are not on the disk are told on every screen of 24 lines, whatever else it
// asks.
func TestUnsavedIsSeenEverywhere(t *testing.T) {
	b := newBench(t, all)
	require.NoError(t, os.WriteFile(b.dir+"/journal", nil, 0o600))
	b.keys("space")
	for _, keys := range [][]string{nil, {"n"}, {"esc", "v"}, {"esc", "a"}, {"1"}, {"esc", "g"}, {"esc", "o"}, {"esc", "l", "1"}, {"e"}} {
		b.keys(keys...)
		for _, size := range [][2]int{{40, 24}, {80, 24}, {200, 24}} {
			assert.Contains(t, strings.Join(strings.Fields(b.shown(size[0], size[1])), " "), "NOT SAVED: ", "%v at %v", keys, size)
		}
	}
	assert.Equal(t, stopwatch.EventKind(stopwatch.Stop), last(b).Kind)
}

func last(b *bench) stopwatch.Event {
	e, _ := b.watch.Last()
	return e
}
