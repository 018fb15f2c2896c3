package folder

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

var update = flag.Bool("update", false, "write golden files anew")

func testdata(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	return data
}

func at[T any](x T) *T { return &x }

// full is what testdata/full.toml says.
var full = study.Study{
	Name: "lettuce in rafts", Currency: "EUR", Heads: 48,
	Allowance: 0.12, Confidence: 0.9, SowEveryDays: 7,
	Germination: crop.Germination{Share: 0.91, CameUp: 182, Of: 200},
	Steps: []study.Step{
		{Name: "sow", Per: "cell", Class: study.Operation},
		{
			Name: "thin", Per: "seedling", Class: study.Operation, Rework: true,
			Hazards: []study.Hazard{study.Repetition}, Form: "auto", Spread: at(0),
		},
		{
			Name: "transplant", Per: "plant", Class: study.Operation,
			Hazards: []study.Hazard{study.Lifting, study.FibreDust}, SetupCovers: 20, Form: "setup+unit",
			Estimate: &study.Estimate{Low: 180, Likely: 240, High: 300.5, OfVisit: true},
		},
		{
			Name: "check pH", Class: study.Inspection,
			Estimate: &study.Estimate{Low: 30, Likely: 45, High: 90},
		},
	},
	Workflows: []study.Workflow{
		{
			Name: "tray, three seeds", SeedsPerCell: 3, CellsPerTray: 40,
			Tasks: []study.Task{
				{Step: "sow", Days: []int{0}, Count: crop.Seeds, Each: 1, SharedBy: 1},
				{Step: "thin", Days: []int{6}, Count: crop.Surplus, Each: 1, SharedBy: 1},
				{Step: "transplant", Days: []int{13, 20}, Count: crop.Plants, Each: 0.5, SharedBy: 2},
			},
			Losses: []crop.Loss{{Day: 10, Share: 0.04}},
			Space: []study.SpaceUse{
				{From: 0, To: 13, Count: crop.Trays, M2: 0.15},
				{From: 13, To: 34, Count: crop.Plants, M2: 0.04},
			},
		},
		{
			Name: "one seed", SeedsPerCell: 1,
			Tasks: []study.Task{{Step: "sow", Days: []int{0}, Count: crop.Once, Each: 3, SharedBy: 1}},
		},
	},
	Grows: []study.Grow{
		{
			Name: "g3", Workflow: "tray, three seeds", Cells: study.Known(60), CameUp: study.Known(55),
			Heads: study.Known(51.5), Weight: study.Known(7.2), Notes: "cold week\n",
		},
		{Name: "g4", Workflow: "one seed"},
	},
	Supplies: []study.Supply{
		{
			Name: "net pot", Count: crop.Plants, Day: at(13), Price: 0.3, Uses: 20, Each: 1.5,
			Workflows: []string{"tray, three seeds", "one seed"},
		},
		{Name: "seed", Count: crop.Seeds, Uses: 1, Each: 1},
	},
	Labour:       &study.Labour{Wage: 14.5, OnCost: 0.21},
	PricePerHead: study.Known(1.9),
	SpacePrice:   study.Known(0.08),
	Chores: []study.Chore{
		{Step: "check pH", EveryDays: 7, Count: 2},
		{Step: "check pH", EveryDays: 1, Count: 1},
	},
	Changes: []study.Change{
		{Name: "pre-filled trays", Step: "transplant", SetupFactor: 0.5, Outlay: study.Known(60)},
		{Name: "one seed a cell", Step: "thin", SetupFactor: 1, UnitFactor: 1, Drop: true},
	},
}

func TestReadStudyFull(t *testing.T) {
	src := testdata(t, "full.toml")
	forms := map[string][]byte{
		"as in DESIGN": src,
		"otherwise":    testdata(t, "full_otherwise.toml"),
		"CRLF":         bytes.ReplaceAll(src, []byte("\n"), []byte("\r\n")),
		"byte order":   append([]byte("\ufeff"), src...),
	}
	for name, src := range forms {
		t.Run(name, func(t *testing.T) {
			study, err := ReadStudy(src, "study.toml")
			require.NoError(t, err)
			if name == "CRLF" {
				study.Grows[0].Notes = strings.ReplaceAll(study.Grows[0].Notes, "\r\n", "\n") // a text keeps its line ends
			}
			assert.Equal(t, full, study)
		})
	}
}

func TestReadStudyDefaults(t *testing.T) {
	st, err := ReadStudy([]byte("[study]\n[crop]\n[sale]\n[space]\n[labour]\nwage = 0"), "study.toml")
	require.NoError(t, err)
	want := study.Study{
		Confidence:  study.DefaultConfidence,
		Germination: crop.Germination{Share: 1},
		Labour:      &study.Labour{},
	}
	assert.Equal(t, want, st)

	st, err = ReadStudy([]byte("crop.germination = 1"), "study.toml")
	require.NoError(t, err)
	assert.Equal(t, crop.Germination{Share: 1}, st.Germination)
}

// TestReadStudyMistakes holds every kind of mistake in one file against its
// golden list.
func TestReadStudyMistakes(t *testing.T) {
	st, err := ReadStudy(testdata(t, "mistakes.toml"), "study.toml")
	require.Error(t, err)
	assert.Equal(t, study.Study{}, st)
	got := err.Error() + "\n"
	if *update {
		require.NoError(t, os.WriteFile(filepath.Join("testdata", "mistakes.golden"), []byte(got), 0o644))
	}
	assert.Equal(t, string(testdata(t, "mistakes.golden")), got)
}
