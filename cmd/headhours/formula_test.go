package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func writeFile(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

// A spreadsheet that opens an answer runs no name as a formula, wherever the name
// came from. (Cells that begin so are run as formulas: OWASP, CSV injection.)
func TestNoFormulaInCSV(t *testing.T) {
	names := []string{"=1+1", "+1", "-1+1", "@SUM(1)", "=cmd|' /C calc'!A0"}
	var study, log strings.Builder
	study.WriteString("[study]\nname = \"=1\"\ncurrency = \"EUR\"\nheads = 24\nsow_every_days = 7\n[labour]\nwage = 15\n")
	log.WriteString("step,grow,workflow,worker,count,time,void,note\n")
	for i, name := range names {
		q := strconv.Quote(name)
		study.WriteString("[[step]]\nname = " + q + "\n")
		study.WriteString("[[workflow]]\nname = " + q + "\ntasks = [ { step = " + q + ", day = 0, count = \"cells\" }, { step = \"=1+1\", day = 1, count = \"once\" } ]\n")
		study.WriteString("[[grow]]\nname = " + q + "\nworkflow = " + q + "\ncells = 30\nheads = 24\n")
		study.WriteString("[[supply]]\nname = " + q + "\ncount = \"cells\"\nprice = 1\n")
		study.WriteString("[[change]]\nname = " + q + "\nstep = " + q + "\nunit_factor = 0.5\noutlay = 9\n")
		if i < 4 { // one step is left without a reading: a gap
			for j := range 4 {
				log.WriteString(strings.Join([]string{name, name, name, name, strconv.Itoa(10 + j), strconv.Itoa(60 + 7*j*i), "", name}, ",") + "\n")
			}
		}
	}
	study.WriteString("[[sowing]]\nworkflow = \"=1+1\"\nheads = 4\nevery_days = 7\n")
	study.WriteString("[[chore]]\nstep = \"@SUM(1)\"\nevery_days = 7\ncount = 1\n")
	dir := t.TempDir()
	writeFile(t, filepath.Join(dir, "study.toml"), study.String())
	writeFile(t, filepath.Join(dir, "timings", "=1.csv"), log.String())

	texts := map[string]string{}
	for _, cmd := range allCommands() {
		if slices.Contains(cmd.flags, "format") && cmd.name != "demo" {
			texts[cmd.name] = string(answerOf(t, "--study", dir, cmd.name, "--format", "csv"))
		}
	}
	tables, err := filepath.Glob(filepath.Join(dir, "reports", "csv", "*.csv"))
	require.NoError(t, err)
	require.NotEmpty(t, tables)
	for _, name := range tables {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		texts[name] = string(text)
	}

	led := map[string]bool{} // names that were made harmless
	for from, text := range texts {
		for _, table := range strings.Split(text, "\r\n\r\n") {
			rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
			require.NoError(t, err)
			for _, cell := range slices.Concat(rows...) {
				if _, err := strconv.ParseFloat(cell, 64); err != nil {
					assert.NotRegexp(t, `^\s*[=+@-]`, cell, from)
					led[strings.TrimPrefix(cell, "'")] = true
				}
			}
		}
	}
	for _, name := range names {
		assert.True(t, led[name], name)
	}
}
