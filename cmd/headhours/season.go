package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"time"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/folder"
)

var seasonFlags = slices.DeleteFunc(slices.Clone(answerFlags), func(name string) bool { return name == "workflow" || name == "heads" })

var seasonCommand = command{
	name: "season", does: "what the whole place takes and gives: all sowings, week by week, in hours and money",
	flags: append([]string{"earn", "try", "fill", "ics", "plot"}, seasonFlags...), do: runSeason,
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
