package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// A sheet with headings of its own starts the same study as CSV, .xlsx and .ods.
func TestStartFromAnySheet(t *testing.T) {
	rows := [][]string{
		{"Our timings"}, {"Day", "Job", "Qty (trays)", "Mins", "Who"},
		{"1.4.2026", "fill", "2", "6", "w1"}, {"1.4.2026", "fill", "8", "20", "w1"}, {"9.4.2026", "cut back", "8", "31", "w2"},
	}
	var csv, ods strings.Builder
	book := excelize.NewFile()
	for i, row := range rows {
		csv.WriteString(strings.Join(row, ";") + "\n")
		ods.WriteString("<table:table-row>")
		for j, cell := range row {
			fmt.Fprintf(&ods, "<table:table-cell><text:p>%s</text:p></table:table-cell>", cell)
			at, err := excelize.CoordinatesToCellName(j+1, i+1)
			require.NoError(t, err)
			require.NoError(t, book.SetCellStr("Sheet1", at, cell))
		}
		ods.WriteString("</table:table-row>")
	}
	xlsx, err := book.WriteToBuffer()
	require.NoError(t, err)
	table := strings.Index(tableHead, "<table:table-row>")
	files := map[string][]byte{
		"log.csv": []byte(csv.String()), "log.xlsx": xlsx.Bytes(),
		"log.ods": packed(entry{name: "content.xml", head: tableHead[:table] + ods.String() + tableTail}),
	}
	answers := map[string]string{}
	for name, data := range files {
		t.Chdir(t.TempDir())
		require.NoError(t, os.WriteFile(name, data, 0o644))
		var out, errs bytes.Buffer
		require.Equal(t, done, run([]string{"init", "greens", "--from", name}, nil, &out, &errs), "%s: %s", name, errs.String())
		answers[name] = out.String()
		copied, err := os.ReadFile(filepath.Join("greens", "timings", name))
		require.NoError(t, err)
		assert.Equal(t, data, copied)
		study, err := os.ReadFile("greens/study.toml")
		require.NoError(t, err)
		assert.Contains(t, string(study), `per = "tray"`)
		assert.Contains(t, string(study), `#   { step = "cut back", day = 8, count = "trays" },`)
	}
	assert.Contains(t, answers["log.csv"], "cut back")
	assert.Equal(t, answers["log.csv"], answers["log.xlsx"])
	assert.Equal(t, answers["log.csv"], answers["log.ods"])
}
