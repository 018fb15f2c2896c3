package study

import (
	"testing"

	"headhours/timing/crop"

	"github.com/stretchr/testify/assert"
)

// Steps that workflows ask unlike amounts of come first, whatever the days.
func TestStepsToTellApart(t *testing.T) {
	task := func(step string, count crop.Word, days ...int) Task {
		return Task{Step: step, Days: days, Count: count, Each: 1, SharedBy: 1}
	}
	s := Study{Steps: []Step{{Name: "wash"}, {Name: "sow"}, {Name: "plant out"}, {Name: "feed"}, {Name: "cut"}, {Name: "never"}}}
	assert.Equal(t, []string{"wash", "sow", "plant out", "feed", "cut", "never"}, s.StepsToTellApart(), "no workflow")
	s.Workflows = []Workflow{
		{SeedsPerCell: 1, Tasks: []Task{task("sow", crop.Seeds, 0), task("wash", crop.Once, 0, 9), task("plant out", crop.Plants, 9), task("feed", crop.Plants, 12, 15), task("cut", crop.Heads, 30)}},
		{SeedsPerCell: 3, Tasks: []Task{task("sow", crop.Seeds, 0), task("wash", crop.Once, 0, 8), task("feed", crop.Plants, 11, 16), task("cut", crop.Heads, 28)}},
	}
	assert.Equal(t, []string{"sow", "plant out", "wash", "feed", "cut", "never"}, s.StepsToTellApart())
	s.Workflows = s.Workflows[:1]
	assert.Equal(t, []string{"wash", "sow", "plant out", "feed", "cut", "never"}, s.StepsToTellApart(), "one workflow")
}
