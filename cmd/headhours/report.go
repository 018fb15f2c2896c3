package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/report"
	"headhours/report/page"
	"headhours/timing/folder"
)

// Formats of the whole report, and where it goes when nobody says otherwise.
var reportFormats = []string{"html", "markdown", "csv", report.Semicolons, "json"}

const (
	reportsFolder = "reports"
	reportFile    = "report.html"
	tablesFolder  = "csv"
)

var reportCommand = command{
	name: "report", does: "the whole report: one HTML file to read, print and show",
	flags: reportFlags, formats: reportFormats, do: runReport,
	examples: []string{
		"headhours report # writes reports/report.html into the study's folder",
		"headhours report --heads 200 -o spring.html # for grows of 200 heads, to a file of this name",
		"headhours report --format csv # tables for a spreadsheet, into reports/csv",
		"headhours report --format semicolons # the same for one with decimal commas",
	},
}

func runReport(c *call) error {
	whole, err := c.whole()
	if err != nil {
		return err
	}
	switch c.format {
	case "json":
		return c.write(report.Doc{}, whole)
	case "markdown":
		return c.deliver(func(w io.Writer) error { return page.WriteMarkdown(w, whole) })
	case "csv", report.Semicolons:
		if c.output == "-" {
			return fmt.Errorf("report --format %s writes several tables, a file each: -o needs a folder", c.format)
		}
		return c.place(filepath.Join(reportsFolder, tablesFolder), func(dir string) error { return writeTables(dir, whole, c.format) })
	}
	if c.output == "-" {
		return page.WriteHTML(c.stdout, whole)
	}
	return c.place(filepath.Join(reportsFolder, reportFile), func(name string) error { return writePage(name, whole) })
}

// place writes to where it was asked for, or else to a place in the study folder,
// and then says where.
func (c *call) place(usual string, write func(string) error) error {
	if c.output != "" {
		return write(c.output)
	}
	name := filepath.Join(c.study, usual)
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	if err := write(name); err != nil {
		return err
	}
	_, err := fmt.Fprintf(c.stdout, "Wrote %s\n", name)
	return err
}

func writePage(name string, whole report.Whole) error {
	return folder.WriteFile(name, func(w io.Writer) error { return page.WriteHTML(w, whole) })
}

// writeTables writes the tables as CSV files of a folder, which is made where
// missing. One that the study has no figures for is taken away, so that none of
// an earlier report is left.
func writeTables(dir string, whole report.Whole, format string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, t := range whole.Tables() {
		name := filepath.Join(dir, t.Name+".csv")
		if len(t.Columns) == 0 {
			if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			continue
		}
		doc := report.Of(t.Table)
		fill := func(w io.Writer) error { return report.Write(w, format, doc, nil, report.Style{}) }
		if err := folder.WriteFile(name, fill); err != nil {
			return err
		}
	}
	return nil
}
