package main

import (
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"headhours/report"
	"headhours/timing/folder"
)

var reportFlags = slices.DeleteFunc(append([]string{"assurance", "every", "start", "days-off"}, answerFlags...),
	func(name string) bool { return name == "table" }) // it writes all tables, a file each

// whole works out every answer. Files are named as seen from the study folder,
// so that the report does not tell where that is.
func (c *call) whole() (report.Whole, error) {
	if err := c.fromAnywhere(); err != nil {
		return report.Whole{}, err
	}
	inside := insideOf(c.study)
	opened, err := c.openAs(folder.How{Sums: true, Name: inside})
	if err != nil {
		return report.Whole{}, err
	}
	options := report.WholeOptions{Workflows: c.workflows, Assurance: c.assurance, Schedule: c.schedule, Cautions: c.cautions}
	for _, w := range opened.Warnings {
		w.Place.File = inside(w.Place.File)
		options.Warnings = append(options.Warnings, w)
	}
	doubts, err := c.doubts(opened.Models)
	if err != nil {
		return report.Whole{}, err
	}
	options.Warnings = options.Warnings.And(doubts...)
	options.Voided = opened.VoidedUncounted()
	for _, f := range opened.Files {
		options.Files = append(options.Files, report.SourceFile{Name: f.Name, SHA256: f.SHA256, Readings: f.Readings})
	}
	models := opened.Models
	if options.Heads, err = c.onlyHeads(models.Study); err != nil {
		return report.Whole{}, err
	}
	options.Settings = []report.Setting{
		{Name: "command, in the study's folder", Value: c.anew(inside)},
		{Name: "version", Value: version()},
	}
	return report.Gather(models, options)
}

// fromAnywhere names logs that were given from the root on, so that their order
// is the same wherever the command was started from.
func (c *call) fromAnywhere() (err error) {
	if len(c.logs) == 0 {
		return nil
	}
	if c.study, err = filepath.Abs(c.study); err != nil {
		return err
	}
	for i := range c.logs {
		if c.logs[i], err = filepath.Abs(c.logs[i]); err != nil {
			return err
		}
	}
	return nil
}

// insideOf names files as seen from a folder, with slashes, wherever the command
// was started from.
func insideOf(dir string) func(string) string {
	return func(name string) string {
		from, err := filepath.Abs(dir)
		if err != nil {
			return filepath.ToSlash(name)
		}
		to, err := filepath.Abs(name)
		if err != nil {
			return filepath.ToSlash(name)
		}
		rel, err := filepath.Rel(from, to)
		if err != nil { // on another disk
			rel = filepath.Base(name)
		}
		return filepath.ToSlash(rel)
	}
}

// anew is the command that makes this report again, but for where it goes to.
func (c *call) anew(inside func(string) string) string {
	command := "headhours report"
	c.set.VisitAll(func(flag *pflag.Flag) {
		if !flag.Changed || !slices.Contains(reportFlags, flag.Name) || flag.Name == "format" || flag.Name == "output" {
			return
		}
		values := []string{strings.Trim(flag.Value.String(), "[]")}
		switch flag.Name {
		case "workflow":
			values = c.workflows
		case "log":
			values = nil
			for _, log := range c.logs {
				values = append(values, inside(log))
			}
		}
		for _, value := range values {
			command += " --" + flag.Name + " " + shellWord(value)
		}
	})
	return command
}
