package timing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
)

func TestDue(t *testing.T) {
	shared := task("mix feed", crop.Plants, 13)
	shared.Each, shared.SharedBy = 0.5, 2
	study := Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, Heads: 40,
		Steps: []Step{{Name: "sow"}, {Name: "thin"}, {Name: "mix feed"}, {Name: "top up"}, {Name: "harvest"}, {Name: "clean up"}},
		Workflows: []Workflow{
			{Name: "tray", SeedsPerCell: 1, Tasks: []Task{
				task("sow", crop.Cells, 0), task("thin", crop.Surplus, 6), task("top up", crop.Plants, 24, 19), shared, task("harvest", crop.Heads, 30), task("clean up", crop.Once, 30),
			}},
			{Name: "in place", SeedsPerCell: 2, Tasks: []Task{task("sow", crop.Seeds, 0), task("thin", crop.Surplus, 6)}},
		},
		Grows: []Grow{{Name: "g1", Workflow: "tray", Cells: Known(60)}, {Name: "g2", Workflow: "tray"}},
	}
	tray := func(n float64) []Due {
		return []Due{{"sow", 0, Known(n), false}, {"mix feed", 13, Known(n), false}, {"top up", 19, Known(n), false}, {"top up", 24, Known(n), false},
			{"harvest", 30, Known(n), false}, {"clean up", 30, Known(1), true}}
	}
	unknown := tray(0)
	for i := range unknown[:5] {
		unknown[i].Count = Maybe{}
	}
	noHeads := study
	noHeads.Heads = 0
	for _, c := range []struct {
		name           string
		study          Study
		workflow, grow string
		want           []Due
	}{
		{"by day, a day at a time; nothing to thin at one seed a cell", study, "tray", "g9", tray(40)},
		{"a grow's own cells", study, "tray", "g1", tray(60)},
		{"a grow that notes none", study, "tray", "g2", tray(40)},
		{"the first workflow", study, "", "", tray(40)},
		{"the grow's cells where the study has no heads", noHeads, "tray", "g1", tray(60)},
		{"no heads", noHeads, "tray", "g2", unknown},
		{"another workflow", study, "in place", "g9", []Due{{"sow", 0, Known(80), false}, {"thin", 6, Known(40), false}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			due, err := Fit(c.study, nil, Options{}).Due(c.workflow, c.grow)
			require.NoError(t, err)
			assert.Equal(t, c.want, due)
		})
	}
	_, err := Fit(study, nil, Options{}).Due("trays", "")
	assert.EqualError(t, err, `no workflow is named "trays": did you mean "tray"`)
	_, err = Fit(Study{}, nil, Options{}).Due("", "")
	assert.ErrorIs(t, err, ErrNoWorkflow)
}
