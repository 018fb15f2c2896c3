package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// becomes gives the words, without what they are, that the last word may become.
func becomes(t *testing.T, words ...string) []string {
	t.Helper()
	var found []string
	for _, line := range strings.Split(string(answerOf(t, append([]string{"complete", "--"}, words...)...)), "\n") {
		if word, _, _ := strings.Cut(line, "\t"); word != "" {
			found = append(found, word)
		}
	}
	return found
}

func TestComplete(t *testing.T) {
	t.Chdir(t.TempDir())
	assert.NoError(t, unpack("demo", "pak choi"))
	ways := []string{"tray, one seed", "tray, three seeds", "in place, one seed", "in place, three seeds"}
	for _, c := range []struct {
		words []string
		want  []string
	}{
		// commands
		{[]string{"comp"}, []string{"compare", "completion"}},
		{[]string{"--heads", "12", "co"}, []string{"cost", "compare", "completion"}},
		{[]string{"help", "s"}, []string{"scale", "season", "seeding", "sheet", "study"}},
		{[]string{"help", "fit", ""}, nil},
		{[]string{"xyz"}, nil},

		// arguments
		{[]string{"completion", ""}, shells},
		{[]string{"completion", "bash", ""}, nil},
		{[]string{"film", "mon"}, []string{files}},
		{[]string{"init", ""}, []string{folders}},
		{[]string{"compare", ""}, nil},
		{[]string{"nosuch", ""}, nil},

		// flags
		{[]string{"compare", "--for"}, []string{"--format", "--form"}},
		{[]string{"scale", "--ma", ""}, nil},
		{[]string{"-"}, []string{"--study", "--help", "--version"}},
		{[]string{"init", "--"}, []string{"--study", "--from", "--help", "--version"}},

		// their values
		{[]string{"compare", "--format", ""}, []string{"text", "json", "csv", "semicolons", "markdown"}},
		{[]string{"compare", "--format=j"}, []string{"json"}},
		{[]string{"compare", "--format", "="}, []string{"text", "json", "csv", "semicolons", "markdown"}},
		{[]string{"compare", "--format", "=", "j"}, []string{"json"}},
		{[]string{"compare", "--format=json", "--form"}, []string{"--format", "--form"}},
		{[]string{"fit", "--form", "s"}, []string{"setup+unit", "setup"}},
		{[]string{"fit", "--spread", ""}, []string{"0", "1", "2"}},
		{[]string{"fit", "--grouping", "w"}, []string{"worker"}},
		{[]string{"fit", "--nosuch="}, nil},
		{[]string{"fit", "--heads", ""}, nil},
		{[]string{"calendar", "--days-off", "s"}, []string{"sun", "sat"}},
		{[]string{"cost", "-o", ""}, []string{files}},
		{[]string{"cost", "-ofile", "--sen"}, []string{"--sensitivity"}},
		{[]string{"cost", "--sensitivity", "--heads-"}, []string{"--heads-per-year"}},
		{[]string{"fit", "--log="}, []string{files}},
		{[]string{"--study", ""}, []string{folders}},

		// of the study
		{[]string{"--study", "pak choi", "compare", "--workflow", ""}, ways},
		{[]string{"compare", "--study=pak choi", "--workflow", "tray, t"}, []string{"tray, three seeds"}},
		{[]string{"season", "--study", "pak choi", "--try", "in"}, []string{"in place, one seed=40/14", "in place, three seeds=48/7"}},
		{[]string{"improve", "--study", "pak choi", "--change", "h"}, []string{"hand seeder"}},
		{[]string{"fit", "--study", "pak choi", "--worker", ""}, []string{"w1", "w2"}},
		{[]string{"fit", "--study", "pak choi", "--grow", "g"}, []string{"g1", "g2", "g3", "g4", "g5", "g6"}},
		{[]string{"compare", "--workflow", ""}, nil}, // no study here
		{[]string{"fit", "--worker", ""}, nil},
	} {
		assert.ElementsMatch(t, c.want, becomes(t, c.words...), strings.Join(c.words, " "))
	}
	assert.Contains(t, becomes(t), "demo")
	assert.Contains(t, becomes(t, ""), "help")
}

// What a word is stands behind it.
func TestCompleteSaysWhat(t *testing.T) {
	assert.Equal(t, "scale\thours against heads\n", string(answerOf(t, "complete", "--", "sca")))
	assert.Equal(t, "--plot\tdraw the answer to FILE, which ends in .svg, .png or .pdf\n", string(answerOf(t, "complete", "--", "fit", "--plot")))
}

// Names with line ends would be two to a shell.
func TestCompleteLeavesControlsOut(t *testing.T) {
	t.Chdir(t.TempDir())
	writeFile(t, "a.csv", "step,count,time,grow\nsow,1,20,\"g\n1\"\nsow,1,20,g2\n")
	assert.Equal(t, []string{"g2"}, becomes(t, "fit", "--log", "a.csv", "--grow", ""))
}
