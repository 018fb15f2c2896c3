package report

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// FitOverGrows lays out the time model of each step with what it took in one grow
// after another.
func FitOverGrows(f answer.FitsOverGrows) Doc {
	doc := Fit(f.Fits)
	for _, s := range f.OverGrows {
		if sentence := trendSentence(s, f.Confidence); sentence != "" {
			doc.say("over-grows", sentence)
		}
		for _, note := range s.Notes {
			doc.Notes = append(doc.Notes, words.Show(s.Step)+" over the grows: "+note)
		}
	}
	if slices.ContainsFunc(f.OverGrows, func(s answer.StepOverGrows) bool { return s.Rate.Known }) {
		doc.Notes = append(doc.Notes, "after twice: the share of its time that a step takes after twice as many grows, by the trend over these")
	}
	doc.show("over-grows", trendsTable(f))
	doc.show("by-grow", growsTable(f))
	return doc
}

// trendSentence says which way a step's time goes, where that is clear.
func trendSentence(s answer.StepOverGrows, confidence float64) string {
	if s.Trend == answer.NoTrend {
		return ""
	}
	return fmt.Sprintf("%s is %s over the grows: after twice as many it takes %s of the time (%s interval: %s). That is of these grows, and says nothing of later ones.",
		words.Quoted(s.Step), s.Trend, words.Share(s.Rate.Value), words.Share(confidence), shareRange(s))
}

func shareRange(s answer.StepOverGrows) string {
	if !s.RateLow.Known || !s.RateHigh.Known {
		return ""
	}
	return words.Fixed(100*s.RateLow.Value, 0) + "–" + words.Share(s.RateHigh.Value)
}

// trendsTable has a row a step, its grows side by side, for reading.
func trendsTable(f answer.FitsOverGrows) Table {
	t := Table{Title: "Over the grows, in order of date: seconds for the mean count", For: onlyPeople, Columns: []Column{
		{Head: "step"}, {Head: "count", Right: true}, {Head: "seconds in each grow"}, {Head: "after twice", Right: true}, {Head: "range", Right: true},
	}}
	for _, s := range f.OverGrows {
		var times []string
		for _, g := range s.Grows {
			times = append(times, words.Show(g.Grow)+" "+maybe(g.Seconds, words.PlainDecimals(g.Seconds.Value)).Text)
		}
		rate := Cell{}
		if s.Rate.Known {
			rate.Text = words.Share(s.Rate.Value)
		}
		t.Rows = append(t.Rows, []Cell{
			{Text: words.Show(s.Step)}, {Text: words.Count(s.Count)}, {Text: strings.Join(times, ", ")}, rate, {Text: shareRange(s)},
		})
	}
	return t
}

// growsTable has a row for each step and grow.
func growsTable(f answer.FitsOverGrows) Table {
	t := Table{Title: "Steps over the grows", For: Programs, Columns: []Column{
		{Head: "step", Key: "step"}, {Head: "setups", Key: "setups"}, {Head: "count", Key: "count"},
		{Head: "grow", Key: "grow"}, {Head: "date", Key: "date"}, {Head: "readings", Key: "readings"}, {Head: "seconds", Key: "time_s"},
		{Head: "rate", Key: "rate"}, {Head: "lowest", Key: "rate_low"}, {Head: "highest", Key: "rate_high"}, {Head: "p", Key: "p"}, {Head: "trend", Key: "trend"},
	}}
	for _, s := range f.OverGrows {
		for _, g := range s.Grows {
			date := ""
			if !g.Date.IsZero() {
				date = g.Date.Format(time.DateOnly)
			}
			t.Rows = append(t.Rows, []Cell{
				{words.Show(s.Step), s.Step}, {words.Count(s.Setups), s.Setups}, {words.Count(s.Count), s.Count},
				{words.Show(g.Grow), g.Grow}, {date, date}, {fmt.Sprint(g.Readings), g.Readings}, maybe(g.Seconds, 1),
				maybe(s.Rate, 3), maybe(s.RateLow, 3), maybe(s.RateHigh, 3), chance(s.P), {string(s.Trend), string(s.Trend)},
			})
		}
	}
	return t
}
