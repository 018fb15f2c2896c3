package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"headhours/report"
	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/study"
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
	set.IntSliceVar(&f.heads, "heads", nil, "answer for `N` heads a grow (scale: N,N,…)")
	set.StringVar(&f.format, "format", "text", formatUsage(report.Formats))
	set.StringVar(&f.table, "table", "", "of CSV, which has one table a file: the table of this `NAME` (the first)")
	set.StringVarP(&f.output, "output", "o", "", "write the answer to `FILE`")
	set.StringVar(&f.plot, "plot", "", "draw the answer to `FILE`, which ends in .svg, .png or .pdf")
	set.Float64Var(&f.confidence, "confidence", 0, "confidence of intervals, `C` between 0 and 1")
	set.StringVar(&f.worker, "worker", "", "only readings of the worker of this `NAME`; film: of cues that name none; record: who works")
	set.StringVar(&f.grow, "grow", "", "only readings of the grow of this `NAME`; film: of cues that name none; record: which it is")
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

// check refuses flags that a command does not take and values that are out of
// range, and turns the rest into options.
func (f *flags) check(set *pflag.FlagSet, cmd command) error {
	var wrong error
	set.Visit(func(flag *pflag.Flag) {
		if !slices.Contains(anywhere, flag.Name) && !slices.Contains(cmd.flags, flag.Name) && wrong == nil {
			wrong = notTaken(cmd, flag.Name)
		}
	})
	if wrong != nil {
		return wrong
	}
	if slices.Contains(f.workflows, "") {
		return bareFlag(set.Lookup("workflow"))
	}
	if !set.Changed("format") {
		f.format = cmd.answersIn()[0]
	}
	if err := oneOf("format", f.format, cmd.answersIn()); err != nil {
		return err
	}
	if err := f.checkPlot(); err != nil {
		return err
	}
	if err := oneOf("grouping", f.grouping, namesOf(answer.Groupings)); err != nil {
		return err
	}
	f.options.Grouping = answer.Grouping(f.grouping)
	if err := f.fitting.check(); err != nil {
		return err
	}
	if err := f.settling.check(set); err != nil {
		return err
	}
	f.options.Scatter = answer.Scatter(f.scatter)
	for _, n := range f.heads {
		if n < 1 {
			return outOfRange("heads", n)
		}
	}
	if set.Changed("confidence") && !(f.confidence > 0 && f.confidence < 1) {
		return outOfRange("confidence", f.confidence)
	}
	f.options.Confidence = f.confidence
	f.options.Filter.Worker, f.options.Filter.Grow = f.worker, f.grow
	f.ofSeason = cmd.name == seasonCommand.name
	if err := f.decide.check(set); err != nil {
		return err
	}
	if err := f.planning.check(set); err != nil {
		return err
	}
	if err := f.filming.check(); err != nil {
		return err
	}
	if err := f.phoning.check(); err != nil {
		return err
	}
	return f.parse()
}

// answersIn lists the formats of the command's answer, the usual one first.
func (c command) answersIn() []string {
	if c.formats == nil {
		return report.Formats
	}
	return c.formats
}

func formatUsage(formats []string) string {
	return "`FORMAT` of the answer: " + strings.Join(formats, ", ")
}

func (f *flags) parse() (err error) {
	if f.options.Filter.Since, err = day("since", f.since); err != nil {
		return err
	}
	if f.options.Filter.Until, err = day("until", f.until); err != nil {
		return err
	}
	if f.form != "" {
		if err := oneOf("form", f.form, namesOf(stepfit.Forms)); err != nil {
			return err
		}
		f.options.Form = stepfit.Form(f.form)
	}
	if f.spread != "" {
		if err := oneOf("spread", f.spread, []string{"0", "1", "2"}); err != nil {
			return err
		}
		q := int(f.spread[0] - '0')
		f.options.Spread = &q
	}
	return nil
}

func oneOf(flag, value string, allowed []string) error {
	if slices.Contains(allowed, value) {
		return nil
	}
	text := fmt.Sprintf("--%s %q: one of %s is needed", flag, value, strings.Join(allowed, ", "))
	if near := study.Nearest(value, allowed); near != "" {
		text += fmt.Sprintf("; did you mean %s", near)
	}
	return usageError{text}
}

func day(flag, value string) (time.Time, error) {
	if value == "" {
		return time.Time{}, nil
	}
	date, err := time.Parse(time.DateOnly, value)
	if err != nil {
		return time.Time{}, usagef("--%s %q: a date such as 2026-03-31 is needed", flag, value)
	}
	return date, nil
}
