package main

import (
	"github.com/spf13/pflag"

	"headhours/timing/answer"
)

// fitting are the flags of fit alone.
type fitting struct {
	separate  string
	overGrows bool
}

func (f *fitting) define(set *pflag.FlagSet) {
	set.StringVar(&f.separate, "separate", "", "fit the readings of each workflow, or each worker, apart: `BY` is workflow or worker")
	set.BoolVar(&f.overGrows, "over-grows", false, "show each step's time in one grow after another, and whether it falls")
}

func (f *fitting) check() error {
	if f.separate == "" {
		return nil
	}
	return oneOf("separate", f.separate, namesOf(answer.Separations))
}
