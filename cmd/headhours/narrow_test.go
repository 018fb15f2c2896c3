package main

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// Answers as text fit a terminal of 80 columns, whichever command gives them.
func TestAnswersAreNarrow(t *testing.T) {
	t.Chdir(t.TempDir())
	assert.NoError(t, unpack("demo", "."))
	for _, cmd := range allCommands() {
		if !slices.Contains(cmd.flags, "format") || cmd.answersIn()[0] != "text" || cmd.name == "demo" {
			continue
		}
		for _, more := range []string{"", `--workflow "tray, three seeds"`} {
			if more != "" && !slices.Contains(cmd.flags, "workflow") {
				continue
			}
			for _, line := range strings.Split(string(answerOf(t, splitWords(cmd.name+" "+more)...)), "\n") {
				assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%s: %s", cmd.name, line)
			}
		}
	}
}
