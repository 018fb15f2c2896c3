package terminal

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// The screens as they are shown, to be read as a person would.
func TestScreens(t *testing.T) {
	b := newBench(t, Names{})
	b.golden("whom_80x24", 80, 24)
	b.keys("g", "3", "enter")
	b.golden("ready_80x24", 80, 24)
	b.golden("ready_40x12", 40, 12)
	b.keys("space")
	b.hand.run(83 * time.Second)
	b.keys("space")
	b.hand.run(4*time.Minute + 9*time.Second)
	b.golden("running_80x24", 80, 24)
	b.golden("running_40x12", 40, 12)
	b.golden("running_120x40", 120, 40)
	b.golden("running_20x6", 20, 6)
	b.keys("l", "4")
	b.golden("count_80x24", 80, 24)
	b.golden("count_40x12", 40, 12)
	b.keys("0", "p")
	b.hand.run(35 * time.Second)
	b.golden("paused_80x24", 80, 24)
	b.keys("n", "'two trays were wet")
	b.golden("note_80x24", 80, 24)
	b.golden("note_40x12", 40, 12)
	b.keys("esc", "a")
	b.golden("amend_80x24", 80, 24)
	b.keys("esc", "p")
	b.hand.run(58 * time.Minute)
	b.golden("forgotten_80x24", 80, 24)
	b.keys("e", "19")
	b.golden("stopped_80x24", 80, 24)
}

// Whatever the size, the screen keeps to it, and shows the step that runs and the
// big key as soon as there are a few lines.
func TestScreensOfAnySize(t *testing.T) {
	b := newBench(t, Names{})
	for _, keys := range [][]string{nil, {"g"}, {"esc", "enter"}, {"space"}, {"space", "l", "1"}, {"p"}, {"n", "'wet"}, {"esc", "v"}, {"esc", "a"}, {"enter"}, {"s"}, {"esc"}} {
		b.keys(keys...)
		for _, width := range []int{-1, 1, 7, 33, 60, 80, 120, 300} {
			for _, height := range []int{-1, 1, 2, 3, 5, 8, 12, 24, 90} {
				lines := b.screen.view(width, height, b.hand.now())
				require.Len(t, lines, max(1, height))
				for _, l := range lines {
					require.LessOrEqual(t, l.width(), max(1, width))
				}
			}
		}
	}
	b.keys("space")
	b.keys("space")
	for _, size := range [][2]int{{40, 12}, {60, 10}, {24, 20}, {80, 24}} {
		shown := b.shown(size[0], size[1])
		assert.Contains(t, shown, "RUNNING")
		assert.Contains(t, shown, "[space]")
		assert.Contains(t, shown, "[q]")
	}
}

// Every key that work knows stands in the legend when it does something.
func TestEveryKeyIsShown(t *testing.T) {
	b := newBench(t, all)
	b.keys("space")
	b.hides("[l]") // of a visit
	b.keys("l")
	b.sees("wash is counted by the visit, and a lap would be one more")
	b.keys("down", "space", "down")
	for _, key := range []string{"space", "l", "e", "p", "0-9", "+ -", "n", "t", "v", "u", "a", "o", "g", "↑↓", "q"} {
		b.sees("[" + key + "]")
	}
}

// How things stand is said in words and never by colour alone; attributes are of
// the sixteen colours.
func TestStyles(t *testing.T) {
	b := newBench(t, all)
	b.keys("space")
	painted := ""
	for _, l := range b.screen.view(80, 24, b.hand.now()) {
		painted += l.painted()
	}
	assert.Contains(t, painted, "\x1b[1;7;32m RUNNING \x1b[0m")
	assert.NotContains(t, painted, "38;")
	assert.NotContains(t, painted, "48;")
}

// A name cannot do anything to the terminal.
func TestNamesAreHarmless(t *testing.T) {
	b := newBench(t, all)
	b.study.Steps[0].Name = "wash\x1b[2J\u202e"
	b.study.Workflows[0].Tasks[0].Step = b.study.Steps[0].Name
	b.plans = nil
	b.names.Grow = "g\x07"
	b.look(b.state)
	for _, l := range b.screen.view(80, 24, b.hand.now()) {
		for _, r := range l.String() {
			require.True(t, r >= ' ' && r != 0x7f && r != '\u202e', "%q", l.String())
		}
	}
}

func TestLarge(t *testing.T) {
	assert.Equal(t, []string{
		"  ██        ██████",
		"████    ██      ██",
		"  ██            ██",
		"  ██    ██      ██",
		"██████          ██",
	}, square{2, 1}.draw("1:7"))
	seen := map[string]rune{}
	for r, shape := range shapes {
		picture := strings.Join(shape[:], "\n")
		assert.Zero(t, seen[picture], "%c looks like another", r)
		seen[picture] = r
	}
	for _, c := range []struct {
		time               string
		width, height      int
		columns, lineCount int
	}{
		{"0:00", 34, 5, 26, 5}, // as small as they come, with room for 10:00
		{"0:00", 33, 5, 4, 1},
		{"0:00", 80, 4, 4, 1},
		{"10:00", 51, 10, 51, 10},
		{"1:00:00", 51, 10, 46, 5},
		{"1:00:00", 69, 10, 69, 10},
		{"0:00", 500, 100, 104, 20},
	} {
		lines := large(c.time, c.width, c.height)
		assert.Len(t, lines, c.lineCount, c)
		for _, l := range lines {
			assert.Equal(t, c.columns, text(l).width(), c)
		}
	}
}

func TestLines(t *testing.T) {
	l := painted{{"sow ", plain}, {"40 cells", bold}}
	assert.Equal(t, "sow 40 cells", l.cut(12).String())
	assert.Equal(t, "sow 40 cel…", l.cut(11).String())
	assert.Equal(t, "sow…", l.cut(4).String())
	assert.Equal(t, "…", l.cut(1).String())
	assert.Equal(t, "sow 40 cells  ", l.filled(14).String())
	assert.Equal(t, "sow 40…  end", across(l, text("  end"), 12).String())
	assert.Equal(t, "sow 40 cells  end", across(l, text("  end"), 17).String())
	assert.Equal(t, "e…", across(l, text("end"), 2).String())
	wide := text("間引き 40")
	assert.Equal(t, 9, wide.width())
	assert.LessOrEqual(t, wide.cut(4).width(), 4)
	assert.Equal(t, "sow \x1b[1m40 cells\x1b[0m", l.painted())
}

func TestWords(t *testing.T) {
	b := newBench(t, all)
	for _, c := range []struct {
		n    float64
		step string
		want string
	}{{1, "sow", "1 cell"}, {12, "sow", "12 cells"}, {12.5, "sow", "12.5 cells"}, {0.333333, "sow", "0.33 cells"}, {7, "sweep", "7"}, {2e7, "sow", "20000000 cells"}} {
		assert.Equal(t, c.want, b.counted(c.n, c.step))
	}
	for seconds, want := range map[float64]string{0: "0:00", 59.4: "0:59", 59.6: "1:00", 250: "4:10", 3599.6: "1:00:00", 36061: "10:01:01", -3: "0:00"} {
		assert.Equal(t, want, clock(seconds))
	}
	for text, want := range map[string]study.Maybe{"40": study.Known(40), "12,5": study.Known(12.5), ".5": study.Known(0.5), "": {}, "1e3": {}, "-4": {}, "1.2.3": {}, "x": {}} {
		n, ok := parseNumber(text)
		assert.Equal(t, want, n, text)
		assert.Equal(t, want.Known, ok, text)
	}
}
