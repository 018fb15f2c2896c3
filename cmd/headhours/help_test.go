package main

import (
	"bytes"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// beside are the files that examples speak of, by the command.
var beside = map[string]map[string]string{
	"film": {
		"monday.vtt": "WEBVTT\n\n00:10.000 --> 01:40.000\nsow\ncount: 24\n",
		"monday.txt": "0:12 sow x24\n1:40 stop\n",
	},
	"record": {"monday.txt": "start sow\n"},
}

// atDemo runs a command line in a folder that is a copy of the demo study, or has
// no study yet, and gives what it printed. An example may read its input from a
// file.
func atDemo(t *testing.T, line string) string {
	t.Helper()
	words := splitWords(line)
	require.Equal(t, "headhours", words[0])
	t.Chdir(t.TempDir())
	if words[1] != "init" {
		require.NoError(t, unpack("demo", "."))
	}
	log, err := studies.ReadFile("demo/timings/g3.csv")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile("monday.csv", log, 0o644))
	for name, text := range beside[words[1]] {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	}
	var stdin io.Reader = strings.NewReader("")
	if n := len(words); n > 2 && words[n-2] == "<" {
		text, err := os.ReadFile(words[n-1])
		require.NoError(t, err)
		stdin, words = bytes.NewReader(text), words[:n-2]
	}
	var out, errs bytes.Buffer
	require.Equal(t, done, run(words[1:], stdin, &out, &errs), errs.String())
	return out.String()
}

// Each command has two examples or more, and each example works on the demo study,
// save where a person has to be there.
func TestExamplesOfCommands(t *testing.T) {
	for _, cmd := range allCommands() {
		assert.GreaterOrEqual(t, len(cmd.examples), 2, cmd.name)
		for _, example := range cmd.examples {
			line, _, _ := strings.Cut(example, " # ")
			t.Run(line, func(t *testing.T) {
				assert.True(t, strings.HasPrefix(line+" ", "headhours "+cmd.name+" "))
				if cmd.attended {
					t.Skip("needs a person")
				}
				atDemo(t, line)
			})
		}
	}
}

// A command that goes on from another is there.
func TestNextCommands(t *testing.T) {
	for _, cmd := range allCommands() {
		if name, does, _ := strings.Cut(cmd.next, " "); cmd.next != "" {
			_, err := find(name)
			assert.NoError(t, err)
			assert.NotEmpty(t, does)
			assert.NotEqual(t, cmd.name, name)
		}
	}
}

var (
	topicExample = regexp.MustCompile(`(?m)^  (headhours .*)$`)
	topicBlock   = regexp.MustCompile(`(?m)(^    .*\n|^\n)+`)
)

// shownIn is what a topic shows of a file: lines that stand four blanks in.
func shownIn(t *testing.T, name, with string) string {
	t.Helper()
	text, err := topicTexts.ReadFile("topics/" + name + ".txt")
	require.NoError(t, err)
	longest := ""
	for _, block := range topicBlock.FindAllString(string(text), -1) {
		if len(block) > len(longest) && strings.Contains(block, with) {
			longest = block
		}
	}
	return regexp.MustCompile(`(?m)^    `).ReplaceAllString(longest, "")
}

// What the topics show works: their commands, the study file, the log.
func TestTopics(t *testing.T) {
	ran := 0
	for _, name := range topics {
		_, err := find(name)
		assert.Error(t, err, "help would hide the command")
		text, err := topicTexts.ReadFile("topics/" + name + ".txt")
		require.NoError(t, err)
		assert.Equal(t, string(text), string(answerOf(t, "help", name)))
		for _, found := range topicExample.FindAllStringSubmatch(string(text), -1) {
			t.Run(found[1], func(t *testing.T) { atDemo(t, found[1]) })
			ran++
		}
	}
	assert.GreaterOrEqual(t, ran, 5)

	st, err := folder.ReadStudy([]byte(shownIn(t, "study", "[study]")), "study.toml")
	require.NoError(t, err)
	assert.Equal(t, []string{"sow", "transplant", "harvest"}, st.StepNames())
	assert.Equal(t, []string{"tray"}, st.WorkflowNames())

	season, err := folder.ReadStudy([]byte(shownIn(t, "place", "[study]")), "study.toml")
	require.NoError(t, err)
	require.Len(t, season.Sowings, 2)
	plan, err := answer.PlanSeason(answer.Fit(season, nil, answer.Options{}), study.Maybe{})
	require.NoError(t, err)
	assert.True(t, plan.PerOwnHour.Known)
	assert.Zero(t, plan.Sowings[0].CutShort)
	assert.Zero(t, plan.Sowings[1].CutShort)

	log, err := tasklog.Read(strings.NewReader(strings.TrimSpace(shownIn(t, "log", "date,"))), "log.csv", tasklog.Dialect{})
	require.NoError(t, err)
	require.Len(t, log.Readings, 3)
	assert.Equal(t, 295.0, log.Readings[2].Seconds)
	assert.Empty(t, log.Warnings)

	_, err = folder.ReadStudy([]byte("[[step]]\nname = 'sow'\n"+shownIn(t, "log", "[log]")), "study.toml")
	assert.NoError(t, err)
}

// The topic of the study names every part and key that a study may have.
func TestTopicOfTheStudyNamesEveryKey(t *testing.T) {
	text, err := topicTexts.ReadFile("topics/study.txt")
	require.NoError(t, err)
	starter, err := studies.ReadFile("starter/study.toml")
	require.NoError(t, err)
	keys := regexp.MustCompile(`(?m)^(?:# )?(\[\[?\w+\]\]?|\w+) *(?:=|$)`).FindAllStringSubmatch(string(starter), -1)
	require.Greater(t, len(keys), 30)
	for _, key := range keys {
		assert.Contains(t, string(text), key[1])
	}
}

// Help fits a terminal of 80 columns, but for command lines, which are not broken.
func TestHelpIsNarrow(t *testing.T) {
	pages := append([]string{""}, topics...)
	for _, cmd := range allCommands() {
		pages = append(pages, cmd.name)
	}
	for _, page := range pages {
		for _, line := range strings.Split(string(answerOf(t, splitWords("help "+page)...)), "\n") {
			if !strings.HasPrefix(line, "  headhours ") {
				assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "help %s: %s", page, line)
			}
			assert.NotContains(t, line, "true|false", "help %s", page)
		}
	}
}

// Help says of --workflow and --heads that they may be given several times where they may be,
// and of no other command.
func TestHelpSaysWhatMayBeRepeated(t *testing.T) {
	dir := studyHolding(t, map[string]string{"study.toml": small + "[[workflow]]\nname = \"bed\"\ntasks = [ { step = \"sow\", day = 0, count = \"cells\" } ]\n", "m.txt": "0:00 sow x3\n0:09 stop\n"})
	tried := 0
	for _, c := range allCommands() {
		flag := flagsOf(c).Lookup("workflow")
		if flag == nil || c.name == "readings" { // which takes two
			continue
		}
		args := []string{c.name, "--workflow", "tray", "--workflow", "bed"}
		if c.name == "film" {
			args = append(args, dir+"/m.txt")
		}
		got := headhoursIn(dir, args...)
		assert.Equal(t, !strings.Contains(got.err, "one --workflow is enough"), strings.Contains(flag.Usage, "repeatable"), "%s: %s", c.name, got.err)
		tried++
	}
	assert.Greater(t, tried, 9)
}

// A flag that changes nothing in a command's answer is said to, and no other.
func TestHelpSaysWhatChangesNothing(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, unpack("demo", "."))
	values := map[string]string{
		"workflow": "in place, one seed", "heads": "99", "confidence": "0.8", "worker": "w1", "grow": "g3", "since": "2026-03-10", "until": "2026-04-10",
		"form": "unit", "spread": "1", "grouping": "none", "scatter": "own",
	}
	said := 0
	for _, c := range allCommands() {
		if !slices.Contains(c.flags, "confidence") || c.name == "report" {
			continue
		}
		plain := headhoursIn(".", c.name, "--format", "json")
		require.Equal(t, done, plain.status, plain.err)
		flagsOf(c).VisitAll(func(f *pflag.Flag) {
			value, ok := values[f.Name]
			if !ok || strings.HasPrefix(f.Usage, "of the figure: ") {
				return
			}
			nothing := strings.Contains(f.Usage, "changes nothing here")
			got := headhoursIn(".", c.name, "--format", "json", "--"+f.Name, value)
			assert.Equal(t, nothing, got.out == plain.out, "%s --%s", c.name, f.Name)
			if nothing {
				said++
			}
		})
	}
	assert.Equal(t, 8, said)
}
