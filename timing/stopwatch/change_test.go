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
	assert.Equal(t, []string{"[[change]]", `name = "dibber \"board\""`, `step = "sow"`, `since = "2026-03-02"`, "# outlay = 0.00    # what it cost, if anything"}, s.Changes[1].TOML())
}
