package folder

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Readings under names that the study lacks are told of once a name, with what to write, and
// keep no other from being answered for; they are not exported. What is written joins them.
func TestOpenRenamed(t *testing.T) {
	workflow := "[[workflow]]\nname = 'tray'\ntasks = [{ step = 'sow', day = 0, count = 'seeds' }]\n"
	files := map[string]string{
		"study.toml":                    small + workflow,
		"journal/" + monday + ".jsonl":  session(monday, begun, `"start","step":"saw","count":4,"workflow":"raft"`, `"next","step":"saw","count":5`, `"next","step":"sow","count":6,"workflow":"raft"`, stopped),
		"journal/" + tuesday + ".jsonl": session(tuesday, begun, `"start","step":"something else","count":4`, stopped),
	}
	dir := studyIn(t, files)
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	saw := `2 readings of journals are in no answer: the study has no step "saw". If it has another name now, write in study.toml, under [log.steps]: "saw" = "sow"`
	raft := `2 readings of journals are taken as of no way: the study has no workflow "raft". If it has another name now, write in study.toml, under [log.workflows]: "raft" = "…"`
	other := `1 reading of journals is in no answer: the study has no step "something else". If it has another name now, write in study.toml, under [log.steps]: "something else" = "…"`
	assert.Equal(t, []string{saw, raft, other}, o.Cautions)
	j := "journal/" + monday + ".jsonl:"
	assert.Equal(t, []string{j + "2: " + saw, j + "2: " + raft, "journal/" + tuesday + ".jsonl:2: " + other}, told(dir, o.Warnings))
	assert.Equal(t, []string{"sow 10 of 6 " + monday + ".jsonl:4"}, steps(readingsOf(t, o)))
	left, logged, err := o.Unlogged("")
	require.NoError(t, err)
	assert.Equal(t, []string{"sow 10 of 6 " + monday + ".jsonl:4"}, steps(left))
	assert.Zero(t, logged)

	files["study.toml"] += "[log.steps]\n\"saw\" = \"sow\"\n\"something else\" = \"sow\"\n[log.workflows]\n\"raft\" = \"tray\"\n"
	o, err = Open(studyIn(t, files), nil, How{})
	require.NoError(t, err)
	assert.Empty(t, o.Cautions)
	assert.Len(t, readingsOf(t, o), 4)
}

// A change that was marked is told of until the study has it.
func TestOpenMarkedChange(t *testing.T) {
	files := map[string]string{
		"study.toml":                   small,
		"journal/" + monday + ".jsonl": session(monday, begun, sow, `"change","text":"dibber board"`, stopped),
	}
	dir := studyIn(t, files)
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	assert.Equal(t, []string{"journal/" + monday + `.jsonl:3: from here on "sow" is done otherwise, and the study does not say so: write in study.toml [[change]], ` +
		`and below it name = "dibber board", step = "sow", since = "2026-03-02"`}, told(dir, o.Warnings))
	before := files["study.toml"] + "[[change]]\nname = \"Dibber board\"\nstep = \"sow\"\n"
	files["study.toml"] = before + "unit_factor = 0.5\n"
	dir = studyIn(t, files)
	o, err = Open(dir, nil, How{})
	require.NoError(t, err)
	assert.Equal(t, []string{"journal/" + monday + `.jsonl:3: from here on "sow" is done otherwise, and the study has "dibber board" as a change that may be made: ` +
		`add to it in study.toml since = "2026-03-02"`}, told(dir, o.Warnings))
	for since, want := range map[string][]string{"2026-03-02": nil, "2026-03-03": nil} {
		files["study.toml"] = before + "since = \"" + since + "\"\n"
		o, err = Open(studyIn(t, files), nil, How{})
		require.NoError(t, err)
		assert.Equal(t, want, told(dir, o.Warnings), "the reading ran on")
	}

	files["journal/"+monday+".jsonl"] = session(monday, begun, sow, stopped, `"change","text":"dibber board"`, sow, stopped)
	for since, want := range map[string][]string{
		"2026-03-02": {"journal/" + monday + `.jsonl:4: 1 reading of "sow" was taken before "Dibber board" on its day, and counts as taken after it: void it, or write in study.toml since = "2026-03-03"`},
		"2026-03-03": nil,
	} {
		files["study.toml"] = before + "since = \"" + since + "\"\n"
		dir = studyIn(t, files)
		o, err = Open(dir, nil, How{})
		require.NoError(t, err)
		assert.Equal(t, want, told(dir, o.Warnings))
	}
}

// An amended step is held to the study by its new name.
func TestOpenAmendedName(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":                   small,
		"journal/" + monday + ".jsonl": session(monday, begun, `"start","step":"saw","count":4`, stopped, `"amend","step":"sow"`),
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, []string{"sow 10 of 4 " + monday + ".jsonl:2"}, steps(readingsOf(t, o)))
}
