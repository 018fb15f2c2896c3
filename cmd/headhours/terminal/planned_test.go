package terminal

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// A count that is ten times off what is due is asked about once it stands.
func TestOddCount(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter", "4")
	b.hides("where 40 cells are due")
	b.sees("count of sow: 4_", "[0-9] count of sow")
	b.keys("00")
	b.sees("sow: 400 cells, where 40 cells are due? [y] that is right; else type it anew", "[y] that is right")
	b.keys("space")
	b.sees("where 40 cells are due?")
	b.keys("y")
	b.hides("where 40 cells are due?")
	b.keys("space", "4", "e")
	b.sees("thin: 4 seedlings, where 40 seedlings are due?")
	b.keys("3", "8")
	b.hides("are due?")
	assert.Equal(t, 38.0, b.state.Readings[2].Count)
	b.keys("a", "1", "c", "'3", "enter")
	b.sees("thin: 3 seedlings, where 40 seedlings are due? enter once more if that is right")
	assert.Equal(t, 38.0, b.state.Readings[2].Count)
	b.keys("enter")
	assert.Equal(t, 3.0, b.state.Readings[2].Count)
	b.hides("are due?")
}

// The count that is due is a key away where one is asked for.
func TestPlannedCount(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter", "e")
	b.sees("sow (0:01): how many cells? _ [c] 40 cells, as is due", "[c] count 40, as is due")
	b.keys("c")
	assert.Equal(t, []string{"wash 1s of 1", "sow 1s of 40"}, b.told())
	b.hides("[c]")
	b.keys("c")
	b.sees("no count is asked for that the plan knows")
	b.keys("u")
	b.sees("? sow ? of 40 cells", "taken back: count 40")
	b.hides("✓ sow")
}

// A part of a task is not all of it, and a list says what of it does not show.
func TestBenchList(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter", "10", "e")
	b.sees("✓ wash 1 visit day 0, today", "part sow 10 of 40 cells day 0, today", "check pH 1 visit")
	small := b.shown(60, 15)
	assert.Regexp(t, `  ↓ \d more`, small)
	b.keys("down", "down", "down", "down", "down", "down")
	assert.Regexp(t, `  ↑ \d more`, b.shown(60, 15))
}

// Work that is done otherwise from now on is marked while the clock goes on.
func TestScreenMarksAChange(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter", "o")
	b.sees("work is done otherwise from now on: at which step?", "> [1] sow", "[2] wash")
	b.keys("enter", "'dibber", "space", "'board", "enter")
	b.sees("RUNNING sow", "copy into study.toml:", `name = "dibber board"`, `step = "sow"`, `since = "2026-03-02"`, "# outlay", "[enter] back to work")
	b.keys("enter", "e")
	assert.Equal(t, []string{"wash 1s of 1", "sow 17s"}, b.told())
	assert.Len(t, b.state.Changes, 1)
	b.keys("o", "4", "'halfway")
	assert.Equal(t, []stopwatch.Event{{Kind: stopwatch.Mark, Text: "halfway", Step: "transplant"}}, b.screen.left())
}

// What is left of a plan is whole plants, or nothing: there is no tenth of one. Of litres
// there is.
func TestPartsThatArePlanned(t *testing.T) {
	for _, c := range []struct {
		per  string
		left float64
		want string // "" where nothing is offered
	}{
		{"plant", 0.1, ""}, {"plant", 0.4, ""}, {"plant", 0.6, "1"}, {"plant", 4.4, "4"}, {"", 0.1, ""}, {"plant", 43.7, "44"},
		{"litre", 0.1, "0.1"}, {"l", 4.44, "4.4"}, {"kg", 0.04, ""},
	} {
		b := newBench(t, all)
		b.keys("space", "enter", "e") // of sow
		at := slices.IndexFunc(b.tasks, func(t task) bool { return t.Step == "sow" })
		b.tasks[at].Count = study.Known(c.left)
		b.study.Steps[slices.Index(b.study.StepNames(), "sow")].Per = c.per
		count, ok := b.planned(b.state.Readings[len(b.state.Readings)-1])
		got := ""
		if ok {
			got = words.UpTo(count, 2)
		}
		assert.Equal(t, c.want, got, "%v %s", c.left, c.per)
	}
}
