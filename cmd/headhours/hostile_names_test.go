package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Names and notes of a log and a study that are orders to a terminal, or markup,
// are shown as what they are in every text, are text in the report, and are kept
// to the letter in JSON.
func TestHostileNames(t *testing.T) {
	const (
		turned = "\u202e<script>x</script>\u2066" // what a study lets pass in a name
		orders = "\x1b[2J\x07" + turned           // what a log lets pass
	)
	dir := t.TempDir()
	writeFile(t, filepath.Join(dir, "study.toml"), strings.NewReplacer("small", turned, "sow", turned, "tray", turned).Replace(small)+
		"[labour]\nwage = 15\n[[step]]\nname = \"thin "+turned+"\"\n[[workflow]]\nname = \"b "+turned+"\"\ntasks = [ { step = \""+turned+"\", day = 0, count = \"cells\" }, { step = \"thin "+turned+"\", day = 1, count = \"cells\" } ]\n"+
		"[[grow]]\nname = \""+turned+"\"\nworkflow = \""+turned+"\"\ncells = 12\nheads = 10\nnotes = \""+turned+"\"\n"+
		"[[supply]]\nname = \""+turned+"\"\ncount = \"cells\"\nprice = 1\n[[change]]\nname = \""+turned+"\"\nstep = \""+turned+"\"\nunit_factor = 0.5\n"+
		"[[sowing]]\nworkflow = \""+turned+"\"\nheads = 10\nevery_days = 7\n")
	rows := "step,grow,workflow,worker,count,time,void,note\n"
	for _, tail := range []string{",10,60,,", ",20,110,,", ",30,700,,", ",40,230,,", ",50,290,,", ",10,60,"} {
		rows += turned + "," + turned + "," + turned + "," + orders + tail + orders + "\n"
	}
	rows = strings.Replace(rows, ",10,60,"+orders, ",10,60,"+orders+",", 1) // the last is voided, without a note
	writeFile(t, filepath.Join(dir, "timings", "a.csv"), rows)

	for _, cmd := range allCommands() {
		if !slices.Contains(cmd.flags, "format") || cmd.name == "demo" || cmd.formats != nil {
			continue
		}
		t.Run(cmd.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			require.Equal(t, done, run([]string{"--study", dir, cmd.name}, strings.NewReader(""), &out, &errs), errs.String())
			shown(t, out.String(), "text")
			shown(t, errs.String(), "warnings")
			assert.NotContains(t, string(answerOf(t, "--study", dir, cmd.name, "--format", "markdown")), "<script>")
			var value any
			require.NoError(t, json.Unmarshal(answerOf(t, "--study", dir, cmd.name, "--format", "json"), &value))
		})
	}
	fit := answerJSON(t, "--study", dir, "fit").(map[string]any)
	assert.Equal(t, turned, fit["steps"].([]any)[0].(map[string]any)["step"])

	answerOf(t, "--study", dir, "report")
	html, err := os.ReadFile(filepath.Join(dir, "reports", "report.html"))
	require.NoError(t, err)
	assert.NotContains(t, string(html), "<script>x")
	assert.Contains(t, string(html), "&lt;script&gt;x")
	assert.NotContains(t, string(html), "\x1b")
}
