package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/study"
)

// A grow is of the way that the study gives it, else of the one that its readings name; one
// that they name two of is told of, unless the study lists it.
func TestWaysOfGrows(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Steps: []study.Step{{Name: "sow"}, {Name: "cut"}},
		Workflows: []study.Workflow{{Name: "tray"}, {Name: "bed"}}, Grows: []study.Grow{{Name: "g1", Workflow: "bed"}},
	}
	var readings []study.Reading
	for _, r := range [][3]string{
		{"sow", "g1", "tray"}, {"sow", "g1", "bed"}, {"sow", "c1", "tray"}, {"cut", "c1", "tray"}, {"cut", "c1", ""}, {"sow", "c2", "tray"}, {"cut", "c2", "bed"}, {"cut", "c2", "bed"},
		{"sow", "", "tray"}, {"cut", "", "bed"}, {"cut", "c3", ""},
	} {
		readings = append(readings, study.Reading{Step: r[0], Grow: r[1], Workflow: r[2], Count: 5, Seconds: 60, People: 1, Rating: 100, Source: study.Watch})
	}
	m := Fit(st, readings, Options{})
	ways := m.WaysOfGrows()
	assert.Equal(t, []GrowWays{{"g1", []string{"tray", "bed"}, []int{1, 1}}, {"c1", []string{"tray"}, []int{2}}, {"c2", []string{"tray", "bed"}, []int{1, 2}}}, ways)
	for grow, want := range map[string]string{"g1": "bed", "c1": "tray", "c2": "", "c3": "", "": "", "unheard of": ""} {
		assert.Equal(t, want, m.WayOf(grow, ways), grow)
	}
	assert.Equal(t, []string{`grow "c2" was logged under more ways than one: "tray" (1 reading) and "bed" (2 readings). Is one of them another grow, or noted under a wrong way?`}, m.TwoWaysNotes())
	assert.Empty(t, Fit(st, nil, Options{}).TwoWaysNotes())
}
