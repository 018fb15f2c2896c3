package main

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"headhours/timing/study"
)

// planning are the flags of the season.
type planning struct {
	earn    float64
	tries   []string
	fill    bool
	wanted  study.Maybe    // what an own hour is to earn
	sowings []study.Sowing // to try
}

func (p *planning) define(set *pflag.FlagSet) {
	set.Float64Var(&p.earn, "earn", 0, "what an hour of your own is to earn, `E` in the study's currency (an hour's wage with on-costs)")
	set.StringArrayVar(&p.tries, "try", nil, "set beside the study's plan one with `WAY=HEADS/DAYS` in place of that way's sowings (repeatable)")
	set.BoolVar(&p.fill, "fill", false, "how much more or less of everything fits your own hours and space")
}

func (p *planning) check(set *pflag.FlagSet) error {
	if set.Changed("earn") {
		if !(p.earn >= 0 && p.earn < math.MaxInt32) {
			return outOfRange("earn", p.earn)
		}
		p.wanted = study.Known(p.earn)
	}
	for _, text := range p.tries {
		s, err := trial(text)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(p.sowings, func(o study.Sowing) bool { return study.FoldedName(o.Workflow) == study.FoldedName(s.Workflow) }) {
			return usagef("--try names %q twice: once a way", s.Workflow)
		}
		p.sowings = append(p.sowings, s)
	}
	return nil
}

// trial reads "mizuna=80/7": the way of working, heads, and days between sowings.
func trial(text string) (study.Sowing, error) {
	wrong := usagef("--try %q: a way, heads and days are needed, such as --try \"mizuna=80/7\"", text)
	at := strings.LastIndex(text, "=")
	if at < 1 {
		return study.Sowing{}, wrong
	}
	heads, days, found := strings.Cut(text[at+1:], "/")
	n, err := strconv.ParseFloat(strings.TrimSpace(heads), 64)
	every, badDays := strconv.Atoi(strings.TrimSpace(days))
	if !found || err != nil || badDays != nil || !(n > 0 && n < math.MaxInt32) || every < 1 || every > maxEvery {
		return study.Sowing{}, wrong
	}
	return study.Sowing{Workflow: strings.TrimSpace(text[:at]), Heads: study.Known(n), EveryDays: every}, nil
}
