package main

import (
	"io"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/folder"
)

// writeAndDraw writes an answer, then its figure to the file that was asked for,
// if any, whole or not at all.
func (c *call) writeAndDraw(doc report.Doc, answer any, figure func() (plots.Figure, error)) error {
	if err := c.write(doc, answer); err != nil || c.plot == "" {
		return err
	}
	figureToDraw, err := figure()
	if err != nil {
		return err
	}
	format, _ := plots.FormatOf(c.plot)
	return folder.WriteFile(c.plot, func(w io.Writer) error { return figureToDraw.Write(w, format) })
}
