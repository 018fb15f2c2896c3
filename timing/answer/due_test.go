package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

func TestDue(t *testing.T) {
	shared := task("mix feed", crop.Plants, 13)
	shared.Each, shared.SharedBy = 0.5, 2
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, Heads: 40,
		Steps: []study.Step{{Name: "sow"}, {Name: "thin"}, {Name: "mix feed"}, {Name: "top up"}, {Name: "harvest"}, {Name: "clean up"}},
		Workflows: []study.Workflow{
			{Name: "tray", SeedsPerCell: 1, Tasks: []study.Task{
				task("sow", crop.Cells, 0), task("thin", crop.Surplus, 6), task("top up", crop.Plants, 24, 19), shared, task("harvest", crop.Heads, 30), task("clean up", crop.Once, 30),
			}},
			{Name: "in place", SeedsPerCell: 2, Tasks: []study.Task{task("sow", crop.Seeds, 0), task("thin", crop.Surplus, 6)}},
		},
		Grows: []study.Grow{{Name: "g1", Workflow: "tray", Cells: study.Known(60)}, {Name: "g2", Workflow: "tray"}},
	}
	tray := func(n float64) []Due {
		return []Due{{"sow", 0, study.Known(n), false}, {"mix feed", 13, study.Known(n), false}, {"top up", 19, study.Known(n), false}, {"top up", 24, study.Known(n), false},
			{"harvest", 30, study.Known(n), false}, {"clean up", 30, study.Known(1), true}}
	}
	unknown := tray(0)
	for i := range unknown[:5] {
		unknown[i].Count = study.Maybe{}
	}
	noHeads := st
	noHeads.Heads = 0
	for _, c := range []struct {
		name           string
		study          study.Study
		workflow, grow string
		want           []Due
	}{
		{"by day, a day at a time; nothing to thin at one seed a cell", st, "tray", "g9", tray(40)},
		{"a grow's own cells", st, "tray", "g1", tray(60)},
		{"a grow that notes none", st, "tray", "g2", tray(40)},
		{"the first workflow", st, "", "", tray(40)},
		{"the grow's cells where the study has no heads", noHeads, "tray", "g1", tray(60)},
		{"no heads", noHeads, "tray", "g2", unknown},
		{"another workflow", st, "in place", "g9", []Due{{"sow", 0, study.Known(80), false}, {"thin", 6, study.Known(40), false}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			due, err := Fit(c.study, nil, Options{}).Due(c.workflow, c.grow)
			require.NoError(t, err)
			assert.Equal(t, c.want, due)
		})
	}
	_, err := Fit(st, nil, Options{}).Due("trays", "")
	assert.EqualError(t, err, `no workflow is named "trays": did you mean "tray"`)
	_, err = Fit(study.Study{}, nil, Options{}).Due("", "")
	assert.ErrorContains(t, err, "the study has no [[workflow]]")
}

// A round that serves several grows is one visit to whoever times it, and what else is
// counted in it is of all of them.
func TestDueOfJointRounds(t *testing.T) {
	shared := task("weigh", crop.Once, 20)
	shared.SharedBy = 2
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, Heads: 40, SowEveryDays: 7,
		Steps: []study.Step{{Name: "check pH", Per: "visit", Together: true}, {Name: "water", Per: "plant", Together: true}, {Name: "weigh", Per: "visit"}},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1, Tasks: []study.Task{
			task("check pH", crop.Once, 13, 20, 27), task("water", crop.Plants, 13, 20), shared,
		}}},
	}
	due, err := Fit(st, nil, Options{}).Due("tray", "")
	require.NoError(t, err)
	assert.Equal(t, []Due{
		{"check pH", 13, study.Known(1), true}, {"water", 13, study.Known(80), false},
		{"check pH", 20, study.Known(1), true}, {"water", 20, study.Known(80), false}, {"weigh", 20, study.Known(1), true},
		{"check pH", 27, study.Known(1), true},
	}, due)
}
