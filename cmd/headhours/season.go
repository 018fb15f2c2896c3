package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/folder"
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
		if slices.ContainsFunc(p.sowings, func(o study.Sowing) bool { return o.Workflow == s.Workflow }) {
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

var seasonFlags = slices.DeleteFunc(slices.Clone(answerFlags), func(name string) bool { return name == "workflow" || name == "heads" })

var seasonCommand = command{
	name: "season", does: "what the whole place takes and gives: all sowings, week by week, in hours and money",
	flags: append([]string{"earn", "try", "fill", "ics", "plot"}, seasonFlags...), run: runSeason,
	examples: []string{
		"headhours season # hours a week, what an hour earns, where hours and space run out",
		"headhours season --earn 20 # what to charge, for twenty an hour",
		`headhours season --try "tray, three seeds=60/7" # another plan beside the study's, which stays as it is`,
		"headhours season --fill # how much fits your own hours and space",
	},
	next: "improve shows where one grow's time goes",
}

// aSowing is shown where a study has none.
const aSowing = `no [[sowing]] in study.toml yet, which says what is sown when; add one such as

[season]
start = "2027-03-01"

[[sowing]]
workflow = %s
heads = %d
every_days = 7
hint: headhours help place shows a whole study, and what the answer says`

func runSeason(c *call) error {
	models, err := c.models()
	if err != nil {
		return err
	}
	own, err := answer.PlanSeason(models, c.wanted)
	if errors.Is(err, answer.ErrNoSowing) {
		name, heads := "the name of a [[workflow]]", 60
		if names := models.Study.WorkflowNames(); len(names) > 0 {
			name = names[0]
		}
		if models.Study.Heads > 0 {
			heads = models.Study.Heads
		}
		return fmt.Errorf(aSowing, strconv.Quote(name), heads)
	}
	if err != nil {
		return err
	}
	reply := report.SeasonAnswer{SeasonPlan: own}
	if len(c.sowings) > 0 {
		tried, err := answer.TrySeason(models, own, c.wanted, c.sowings)
		if err != nil {
			return err
		}
		reply.Try = &report.SeasonTrial{SeasonPlan: tried.Plan, Difference: tried.Difference, DiffLow: tried.Low, DiffHigh: tried.High, MarginMore: tried.Margin}
	}
	if c.fill {
		filled, err := answer.FillSeason(models)
		if err != nil {
			return err
		}
		reply.Fill = &filled
	}
	if c.ics != "" {
		start := models.Study.Season.Start
		if start.IsZero() {
			return usagef("--ics needs the first day of the season: start = \"2027-03-01\" in [season] of study.toml")
		}
		fill := func(w io.Writer) error { return report.SeasonICal(w, own, start, models.Study.Name, time.Now()) }
		if err := folder.WriteFile(c.ics, fill); err != nil {
			return err
		}
	}
	return c.writeAndDraw(report.Season(reply), reply, func() (plots.Figure, error) { return plots.Season(own), nil })
}
