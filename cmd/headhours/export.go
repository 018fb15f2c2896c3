package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"headhours/report"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

var exportCommand = command{
	name: "export", does: "journals' readings as a task log, for a spreadsheet or to keep",
	flags: []string{"format", "output"}, formats: []string{"csv", report.Semicolons}, do: runExport,
	examples: []string{"headhours export", "headhours export -o timings/stopwatch.csv",
		"headhours export --format semicolons -o times.csv # for a spreadsheet with decimal commas"},
}

// runExport writes the readings that stand in journals alone. Kept among the
// study's logs they are read from there and not from the journals, so each counts
// once; run again to the same file, export writes it anew, unless something that was
// changed there since would be lost.
func runExport(c *call) error {
	if ending := strings.ToLower(filepath.Ext(c.output)); ending == ".xlsx" || ending == ".ods" {
		return usagef("export writes CSV, and no workbook as %s would be: give a name that ends in .csv, which spreadsheets open too", words.Quote(c.output))
	}
	opened, err := c.open()
	if err != nil {
		return err
	}
	readings, logged, err := opened.Unlogged(c.output)
	if err != nil {
		return err
	}
	if err := c.makeTimings(); err != nil {
		return err
	}
	fill := func(w io.Writer) error {
		return tasklog.Write(w, readings, opened.Study.LogTimes, c.format == report.Semicolons)
	}
	if err := c.deliver(fill); err != nil {
		return err
	}
	switch {
	case logged > 0:
		fmt.Fprintf(c.stderr, "readings written %d, left out %d that a log holds already\n", len(readings), logged)
	case len(readings) == 0:
		fmt.Fprintln(c.stderr, "the journals hold no readings yet")
	}
	return nil
}

// makeTimings makes the study's own folder of logs where the output lies in it.
func (c *call) makeTimings() error {
	into, err := filepath.Abs(filepath.Dir(c.output))
	if err != nil {
		return err
	}
	timings, err := filepath.Abs(filepath.Join(c.study, "timings"))
	if err != nil || c.output == "" || c.output == "-" || into != timings {
		return err
	}
	return os.MkdirAll(timings, 0o755)
}
