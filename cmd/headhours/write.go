package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"headhours/report"
	"headhours/timing/folder"
	"headhours/timing/study"
)

// write writes an answer to where it was asked for.
func (c *call) write(doc report.Doc, answer any) error {
	doc.First(c.cautions)
	doc, err := c.oneTable(doc)
	if err != nil {
		return err
	}
	style := report.Style{Width: c.width, Colour: c.colour && (c.output == "" || c.output == "-")}
	fill := func(w io.Writer) error { return report.Write(w, c.format, doc, answer, style) }
	return c.deliver(fill)
}

// oneTable leaves the table of a CSV answer that is asked for, or the first, and then names
// the others.
func (c *call) oneTable(doc report.Doc) (report.Doc, error) {
	ids := doc.TableIDs()
	switch {
	case c.table != "" && !report.IsCSV(c.format):
		return doc, usagef("--table is for --format csv or %s", report.Semicolons)
	case !report.IsCSV(c.format) || len(ids) == 0:
		return doc, nil
	case c.table == "":
		if len(ids) > 1 {
			fmt.Fprintf(c.stderr, "hint: this is the table %s; --table has the others: %s\n", ids[0], strings.Join(ids[1:], ", "))
		}
		return doc.Only(ids[0]), nil
	case !slices.Contains(ids, c.table):
		return doc, study.UnknownName{Kind: "table", Name: c.table, Known: ids}
	}
	return doc.Only(c.table), nil
}

// deliver writes to the file that was asked for, whole or not at all, or else to
// standard output.
func (c *call) deliver(fill func(io.Writer) error) error {
	if c.output == "" || c.output == "-" {
		return fill(c.stdout)
	}
	return folder.WriteFile(c.output, fill)
}
