package main

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"headhours/report"
	"headhours/timing/answer"
)

// flags are the values of all flags; every command takes its share of them.
type flags struct {
	study, format, output      string
	table                      string
	plot                       string
	workflows, logs, from      []string
	heads                      []int
	confidence                 float64
	worker, grow, since, until string
	form, spread, grouping     string
	decide
	planning
	filming
	phoning
	fitting
	settling
	lines         bool
	help, version bool
	options       answer.Options
	set           *pflag.FlagSet // that they were read from
}

// answerFlags are the flags that every answer takes.
var answerFlags = []string{"workflow", "heads", "confidence", "worker", "grow", "since", "until",
	"log", "form", "spread", "grouping", "scatter", "format", "table", "output"}

// anywhere are the flags that every command takes.
var anywhere = []string{"study", "help", "version"}

func (f *flags) define() *pflag.FlagSet {
	set := pflag.NewFlagSet("headhours", pflag.ContinueOnError)
	f.set = set
	set.SortFlags = false
	set.Usage = func() {}
	set.StringVar(&f.study, "study", ".", "the study `DIR`, which holds study.toml")
	set.StringArrayVar(&f.workflows, "workflow", nil, "answer for the way of this `NAME` (repeatable)")
	set.IntSliceVar(&f.heads, "heads", nil, "answer for `N` heads a grow")
	set.StringVar(&f.format, "format", "text", formatUsage(report.Formats))
	set.StringVar(&f.table, "table", "", "of CSV, which has one table a file: the table of this `NAME` (the first)")
	set.StringVarP(&f.output, "output", "o", "", "write the answer to `FILE`")
	set.StringVar(&f.plot, "plot", "", "draw the answer to `FILE`, which ends in .svg, .png or .pdf")
	set.Float64Var(&f.confidence, "confidence", 0, "confidence of intervals, `C` between 0 and 1")
	set.StringVar(&f.worker, "worker", "", "only readings of the worker of this `NAME`")
	set.StringVar(&f.grow, "grow", "", "only readings of the grow of this `NAME`")
	set.StringVar(&f.since, "since", "", "only readings from this `DATE` on, YYYY-MM-DD")
	set.StringVar(&f.until, "until", "", "only readings up to this `DATE`, YYYY-MM-DD")
	set.StringArrayVar(&f.logs, "log", nil, "read this `FILE` in place of the study's logs (repeatable)")
	set.StringArrayVar(&f.from, "from", nil, "start from the readings of this `FILE`, any log or sheet (repeatable)")
	set.StringVar(&f.form, "form", "", "`FORM` of every step's model: auto, setup+unit, unit, setup")
	set.StringVar(&f.spread, "spread", "", "`Q`: 0, 1 or 2; readings vary with count^Q")
	set.StringVar(&f.grouping, "grouping", string(answer.AutoGrouping), "what may be slow in all steps alike, by `KIND`: none, grow, worker, auto")
	f.fitting.define(set)
	f.settling.define(set)
	f.decide.define(set)
	f.planning.define(set)
	f.filming.define(set)
	f.phoning.define(set)
	set.BoolVar(&f.lines, "lines", false, "read commands, a line each, even in a terminal: for screen readers")
	set.BoolVarP(&f.help, "help", "h", false, "show help")
	set.BoolVar(&f.version, "version", false, "show the version")
	return set
}

func formatUsage(formats []string) string {
	usage := "`FORMAT` of the answer: " + strings.Join(formats, ", ")
	if slices.Contains(formats, report.Semicolons) {
		usage += "; " + report.Semicolons + " is CSV with ; and decimal commas"
	}
	return usage
}
