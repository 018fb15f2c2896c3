package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// Season lays out a season: in words first, then by sowing, week and step.
func Season(a SeasonAnswer) Doc {
	p := a.SeasonPlan
	money := moneyOf(p)
	doc := Doc{Title: seasonTitle(p), Notes: slices.Clone(p.Notes)}
	doc.say("lead", seasonWords(p)...)
	if len(p.Gaps) > 0 {
		bound := ""
		if p.Margin.Known && p.Margin.Value >= 0 {
			bound = " and what an hour earns is at most that"
		}
		doc.say("gaps", fmt.Sprintf("At least: %s, so hours are those of the rest%s.", neverTimed(p.Gaps), bound))
	}
	if a.Try != nil {
		gaps := triedGaps(a)
		doc.say("try", tryWords(*a.Try, money, len(gaps) > 0))
		for _, note := range a.Try.Notes {
			if !slices.Contains(p.Notes, note) {
				doc.Notes = append(doc.Notes, "in the plan that is tried: "+note)
			}
		}
		if fits := triedFits(a); fits != "" {
			doc.say("try", fits)
		}
		t := tryTable(a, money)
		doc.show("try", t)
	}
	if a.Fill != nil {
		doc.say("fill", fillWords(p, *a.Fill))
	}
	doc.show("sowings", sowingsTable(p, money))
	doc.show("weeks", weeksTable(p, money))
	doc.show("steps", seasonSteps(p))
	if len(p.Changes) > 0 {
		doc.show("changes", seasonChanges(p))
	}
	doc.Notes = append(doc.Notes, "the range is that of the hours alone: prices, counts and losses are taken as exact")
	return doc
}

func seasonTitle(p answer.SeasonPlan) string {
	title := fmt.Sprintf("The whole place, %s", words.Many(p.Days/7, "week"))
	if p.Start != nil {
		title += " from " + *p.Start
	}
	return title
}

// seasonWords say what a person asks first: the hours of a week, what they earn, what to
// charge, where hours and space run out, and what to change.
func seasonWords(p answer.SeasonPlan) []string {
	if p.Hours == 0 {
		words := []string{"Nothing that is sown was timed or judged yet, so its weeks have no hours."}
		if space := spaceWords(p); space != "" {
			words = append(words, space)
		}
		return words
	}
	words := []string{weekWords(p)}
	for _, s := range []string{earnWords(p), chargeWords(p), hoursWords(p), spaceWords(p), changeWords(p), openChanges(p)} {
		if s != "" {
			words = append(words, s)
		}
	}
	return words
}

func weekWords(p answer.SeasonPlan) string {
	return fmt.Sprintf("%s The season takes %s.", weekSentence(p, "A week", atLeastWords(p.Gaps)), atLeastWords(p.Gaps)+durationWithin(p.Hours, p.Low, p.High))
}

func earnWords(p answer.SeasonPlan) string {
	money := moneyOf(p)
	switch {
	case !p.Revenue.Known:
		return "What an hour earns is not known: not everything that is sold has a price, or a weight where it is sold by weight."
	case !p.PerOwnHour.Known:
		return fmt.Sprintf("%s %s are left over, and no hours of your own.", words.Fixed(p.Margin.Value, 0), money)
	}
	text, within := anHourEarns(p), ""
	if len(p.Gaps) == 0 && !p.PerOwnHourLow.Known && p.MarginLow.Known && p.MarginLow.Value < p.MarginHigh.Value {
		text += ", how surely is not known"
		within = fmt.Sprintf(" (somewhere between %s and %s)", words.Fixed(p.MarginLow.Value, 0), words.Fixed(p.MarginHigh.Value, 0))
	}
	return text + fmt.Sprintf(": %s %s%s are left of %s, after supplies, space, overheads and hired hours.", words.Fixed(p.Margin.Value, 0), money, within, words.Fixed(p.Revenue.Value, 0))
}

// anHourEarns says what an hour of one's own does.
func anHourEarns(p answer.SeasonPlan) string {
	text := anHour("An hour of your own earns", p.PerOwnHour.Value, p.Gaps, moneyOf(p))
	if p.PerOwnHourLow.Known && p.PerOwnHourLow.Value < p.PerOwnHourHigh.Value {
		text += fmt.Sprintf(" (somewhere between %s and %s)", words.Fixed(p.PerOwnHourLow.Value, 2), words.Fixed(p.PerOwnHourHigh.Value, 2))
	}
	return text
}

// anHour says what an hour brings. A step that was never timed makes it less where something is
// left; a loss it spreads over more hours, or makes greater by those that are hired.
func anHour(brings string, value float64, gaps []string, money string) string {
	switch {
	case len(gaps) == 0:
	case value >= 0:
		brings += " at most"
	default:
		brings = "As far as is known " + words.Uncapital(brings)
	}
	return fmt.Sprintf("%s %s %s", brings, words.Fixed(value, 2), money)
}

func chargeWords(p answer.SeasonPlan) string {
	money := moneyOf(p)
	if !p.Earn.Known {
		return "What to charge is known once an hour's worth is said, or the study gives a wage."
	}
	prices := pricesNeeded(p)
	if prices == nil {
		return ""
	}
	if len(prices) > 6 {
		prices = append(prices[:6], fmt.Sprintf("%d more in the table", len(prices)-6))
	}
	text := fmt.Sprintf("For %s %s an hour charge%s: %s.", words.Fixed(p.Earn.Value, 2), money, strings.TrimRight(" "+atLeastWords(p.Gaps), " "), strings.Join(prices, "; "))
	if p.PriceFactor.Known {
		text += fmt.Sprintf(" That is %s times today's prices, all taken together.", words.Fixed(p.PriceFactor.Value, 2))
	}
	return text
}

func hoursWords(p answer.SeasonPlan) string {
	if !p.OwnWeek.Known {
		return ""
	}
	var over []int
	for _, w := range p.Weeks {
		if w.Hired > 0 {
			over = append(over, w.Week)
		}
	}
	if over == nil {
		sofar, most := "", 0.0
		for _, w := range p.Weeks {
			most = max(most, w.High.Value)
		}
		switch {
		case len(p.Gaps) > 0:
			sofar = ", as far as is known"
		case most > p.OwnWeek.Value && words.Duration(most) != words.Duration(p.OwnWeek.Value):
			sofar = ", as far as the timings tell: one may take up to " + words.Duration(most)
		}
		return fmt.Sprintf("No week takes more than your %s%s.", words.Numbered(words.Count(p.OwnWeek.Value), "hour"), sofar)
	}
	own, run := words.Numbered(words.Count(p.OwnWeek.Value), "hour"), "run"
	if own == "1 hour" {
		run = "runs"
	}
	return fmt.Sprintf("Your %s a week %s out in %s, first in %s: %s are hired, for %s %s.", own, run,
		words.Many(len(over), "week"), weekName(p, over[0]), atLeastWords(p.Gaps)+words.Duration(p.Hired), words.Fixed(p.HiredCost, 2), moneyOf(p))
}

func spaceWords(p answer.SeasonPlan) string {
	switch {
	case !p.M2.Known || p.PeakDay == nil:
		return ""
	case len(*p.Over) == 0:
		return fmt.Sprintf("Space is enough: at most %s of %s m² are in use, on %s.", words.Count3(p.PeakM2), words.Count(p.M2.Value), seasonDay(p, *p.PeakDay))
	}
	return fmt.Sprintf("Space runs out on %s, first on %s: up to %s m² are asked for, and there are %s.", words.Many(len(*p.Over), "day"),
		seasonDay(p, (*p.Over)[0]), words.Apart(p.PeakM2, p.M2.Value), words.Count(p.M2.Value))
}

// changeWords name the change that saves most, of those that nobody would be harmed by.
func changeWords(p answer.SeasonPlan) string {
	var best *answer.SeasonSaving
	for i, c := range p.Changes {
		if c.Saved.Known && c.Saved.Value > 0 && !c.Hygiene && (best == nil || c.Saved.Value > best.Saved.Value) {
			best = &p.Changes[i]
		}
	}
	if best == nil {
		return ""
	}
	text := fmt.Sprintf("First change to make: %s, which would save %s", words.Quoted(best.Name), durationWithin(best.Saved.Value, best.Low, best.High, "in the season"))
	if best.Low.Known && best.Low.Value <= 0 {
		text += "; that it saves anything is not sure"
	}
	if best.Payback.Known {
		text += fmt.Sprintf("; its outlay is back after %s", words.Many(int(best.Payback.Value+0.5), "day"))
		if best.Payback.Value > float64(p.Days) {
			text += ", not within this season"
		}
	}
	return text + "."
}

// openChanges say what changes may save of which it is not known that they save anything.
func openChanges(p answer.SeasonPlan) string {
	var sentences []string
	for _, c := range p.Changes {
		if c.Saved.Known && c.Saved.Value == 0 && c.High.Known && c.High.Value > 0 && !c.Hygiene {
			sentences = append(sentences, openSaving(words.Quoted(c.Name), c.Low.Value, c.High.Value, "in the season", c.Open))
		}
	}
	return strings.Join(sentences, " ")
}

// doesNotFit names what a plan has not enough of: "your own hours", "the space there is".
func doesNotFit(p answer.SeasonPlan) []string {
	var short []string
	if p.OwnWeek.Known && p.Hired > 0 {
		short = append(short, "your own hours")
	}
	if p.Over != nil && len(*p.Over) > 0 {
		short = append(short, "the space there is")
	}
	return short
}

// triedFits says of a plan that is tried what the study's own says of hours and space, and
// what was never timed of it alone.
func triedFits(a SeasonAnswer) string {
	p := a.Try.SeasonPlan
	var sentences []string
	for _, s := range []string{hoursWords(p), spaceWords(p)} {
		if s != "" {
			sentences = append(sentences, s)
		}
	}
	if gaps := triedGaps(a); len(gaps) > 0 {
		sentences = append(sentences, fmt.Sprintf("Its hours are at least that: %s.", neverTimed(gaps)))
	}
	if sentences == nil {
		return ""
	}
	return "In the plan that is tried: " + words.Uncapital(strings.Join(sentences, " "))
}

// triedGaps are what was never timed of a plan that is tried alone.
func triedGaps(a SeasonAnswer) []string {
	return slices.DeleteFunc(slices.Clone(a.Try.Gaps), func(g string) bool { return slices.Contains(a.Gaps, g) })
}

// tryWords put a plan that is tried beside the study's; where it alone has gaps it takes more yet.
func tryWords(t SeasonTrial, money string, lacks bool) string {
	more := "more"
	hours, low, high := t.Difference, t.DiffLow, t.DiffHigh
	if hours < 0 {
		more, hours, low, high = "less", -hours, t.DiffHigh.Times(-1), t.DiffLow.Times(-1)
	}
	bound := func(atLeast bool) string {
		switch {
		case !lacks:
			return ""
		case atLeast:
			return "at least "
		}
		return "at most "
	}
	text := "The plan that is tried takes " + bound(more == "more") + durationWithin(hours, low, high, more+" in the season than the study's")
	if hours == 0 {
		text = "The plan that is tried takes " + bound(true) + "as long in the season as the study's"
	}
	if t.MarginMore.Known {
		word := "more"
		margin := t.MarginMore.Value
		if margin < 0 {
			word, margin = "less", -margin
		}
		if left := words.Fixed(margin, 0); left == "0" {
			text += ", and leaves " + bound(false) + "as much"
		} else {
			text += fmt.Sprintf(", and leaves %s%s %s %s", bound(word == "less"), left, money, word)
		}
	}
	if short := doesNotFit(t.SeasonPlan); short != nil {
		text += "; it does not fit " + words.And(short)
	}
	return text + ". The study stays as it is."
}

func fillWords(p answer.SeasonPlan, f answer.Filled) string {
	if f.EndsBy == "" {
		return "Nothing ends how much can be grown: the study says neither own_hours_per_week in [labour] nor m2 in [space]."
	}
	at := ""
	switch {
	case f.Week != nil:
		at = "your own hours, in " + weekName(p, *f.Week)
	case f.Day != nil:
		at = "space, on " + seasonDay(p, *f.Day)
	}
	if f.Factor.Value == 0 {
		return fmt.Sprintf("Not even a little fits: what ends it is %s.", at)
	}
	return fmt.Sprintf("What fits is %s times the heads of every sowing; what ends it is %s.", words.Apart(f.Factor.Value, 1), at)
}
