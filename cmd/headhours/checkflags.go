package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/words"
)

// check refuses flags that a command does not take and values that are out of
// range, and turns the rest into options.
func (f *flags) check(set *pflag.FlagSet, cmd command) error {
	var wrong error
	set.Visit(func(flag *pflag.Flag) {
		if !slices.Contains(anywhere, flag.Name) && !slices.Contains(cmd.flags, flag.Name) && wrong == nil {
			wrong = notTaken(cmd, flag.Name)
		}
		if flag.Value.Type() == "string" && flag.DefValue == "" && flag.Value.String() == "" && wrong == nil { // not given, it would seem
			wrong = bareFlag(flag)
		}
	})
	if wrong != nil {
		return wrong
	}
	if info, err := os.Stat(f.study); err == nil && !info.IsDir() {
		return usagef("--study takes the folder that holds study.toml, and %q is a file: is --study %s meant?", f.study, shellWord(filepath.Dir(f.study)))
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

// notTaken says that a command does not take a flag, and which do.
func notTaken(cmd command, flag string) error {
	const maxListed = 4
	var takers []string
	for _, other := range allCommands() {
		if slices.Contains(other.flags, flag) {
			takers = append(takers, other.name)
		}
	}
	more := max(0, len(takers)-maxListed)
	listed, verb := words.UpToMore(strings.Join(takers[:len(takers)-more], ", "), more), words.Agree(len(takers), "does", "do")
	return usagef("%s takes no --%s; %s %s", cmd.name, flag, listed, verb)
}

// checkPlot refuses a figure's file whose ending is no format of figures.
func (f *flags) checkPlot() error {
	if _, ok := plots.FormatOf(f.plot); f.plot != "" && !ok {
		return usagef("--plot %q: a file ending in .svg, .png or .pdf is needed", f.plot)
	}
	return nil
}

func (f *flags) parse() (err error) {
	if f.options.Filter.Since, err = day("since", f.since); err != nil {
		return err
	}
	if f.options.Filter.Until, err = day("until", f.until); err != nil {
		return err
	}
	if since, until := f.options.Filter.Since, f.options.Filter.Until; !until.IsZero() && since.After(until) {
		return usagef("--since %s is later than --until %s: no day lies between", f.since, f.until)
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
