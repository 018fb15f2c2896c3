package main

import (
	"io"

	"headhours/report/sheet"
)

var sheetCommand = command{
	name: "sheet", does: "a timing sheet to write on by hand: one page of HTML to print on A4 or Letter",
	flags: []string{"workflow", "output"}, do: runSheet,
	examples: []string{"headhours sheet -o sheet.html", `headhours sheet --workflow "tray, one seed" -o sheet.html`},
}

// runSheet writes the sheet of a workflow, the study's first where none is named. It
// is for a printer or a pipe: on a screen nobody could read it.
func runSheet(c *call) error {
	if c.output == "" && isTerminal(c.stdout) {
		return usagef("sheet writes a page to print, not for this screen: give -o sheet.html, then open that in a browser")
	}
	study, err := c.onlyStudy()
	if err != nil {
		return err
	}
	name, err := c.oneWorkflow()
	if err != nil {
		return err
	}
	workflow, err := study.Workflow(name)
	if err != nil {
		return err
	}
	return c.deliver(func(w io.Writer) error { return sheet.Write(w, study, workflow) })
}
