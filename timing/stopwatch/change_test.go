package stopwatch

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A change that is marked is of a moment and a step, changes no reading, and is taken back
// as any press.
func TestMarkedChanges(t *testing.T) {
	mark := func(name, step string) Event { return Event{Kind: Mark, Text: name, Step: step} }
	s := fold(t, begin, mark("nothing", ""), mark("bench", "thin"), second, Event{Kind: Start, Step: "sow"}, 10*second, mark("dibber \"board\"", ""), 10*second,
		stop, second, mark("one too many", ""), undo, end, minute, mark("light", ""))
	told := []string{}
	for _, c := range s.Changes {
		told = append(told, c.At.Format("15:04:05")+" "+c.Name+" of "+c.Step)
	}
	assert.Equal(t, []string{"08:10:00 bench of thin", `08:10:11 dibber "board" of sow`, "08:11:22 light of sow"}, told)
	assert.Equal(t, 5, s.Changes[1].Place.Line)
	assert.Equal(t, 20.0, s.Readings[0].Seconds)
	assert.Len(t, s.Warnings, 1)
	assert.Contains(t, s.Warnings[0].Text, "change is left out: want a step")
	assert.Equal(t, []string{"[[change]]", `name = "dibber \"board\""`, `step = "sow"`, `since = "2026-03-02"`, "# outlay = 0.00    # what it cost, if anything"}, s.TOML(s.Changes[1]))
}

// Readings that were taken on the day of a change before it are told of where it is to be copied.
func TestTakenBeforeAChange(t *testing.T) {
	sow := Event{Kind: Start, Step: "sow", Count: known(4)}
	for _, c := range []struct {
		events []any
		want   string
	}{
		{[]any{begin, sow, second, stop, Event{Kind: Mark, Text: "board"}, sow, second, stop}, "# 1 reading of that day was taken before it: void it, or begin a day later"},
		{[]any{begin, sow, second, stop, sow, second, stop, Event{Kind: Mark, Text: "board"}}, "# 2 readings of that day were taken before it: void them, or begin a day later"},
		{[]any{begin, sow, second, stop, Event{Kind: Void, Text: "hose"}, Event{Kind: Mark, Text: "board"}}, ""},
		{[]any{begin, sow, second, Event{Kind: Mark, Text: "board"}, second, stop}, ""},
		{[]any{begin, sow, second, stop, Event{Kind: Mark, Text: "bench", Step: "thin"}}, ""},
	} {
		s := fold(t, c.events...)
		lines := s.TOML(s.Changes[0])
		if c.want == "" {
			assert.Len(t, lines, 5)
		} else {
			assert.Equal(t, c.want, lines[len(lines)-1])
		}
	}
}
