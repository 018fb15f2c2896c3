package main

import (
	"strings"

	"github.com/spf13/pflag"

	"headhours/timing/answer"
)

// settling are the flags of how sure an answer is.
type settling struct {
	scatter string
	within  float64
}

func (s *settling) define(set *pflag.FlagSet) {
	set.StringVar(&s.scatter, "scatter", string(answer.LentScatter),
		"what is made of the scatter of few readings, by `RULE`: "+strings.Join(namesOf(answer.Scatters), ", "))
	set.Float64Var(&s.within, "within", 0, "readings that make the answer sure to ± `SHARE` of itself (0.10; of two ways: a clear difference)")
}

func (s *settling) check(set *pflag.FlagSet) error {
	if set.Changed("within") && !(s.within > 0 && s.within < 1) {
		return outOfRange("within", s.within)
	}
	return oneOf("scatter", s.scatter, namesOf(answer.Scatters))
}
