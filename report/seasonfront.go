package report

import (
	"fmt"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// maxFrontPrices is how many prices stand on the front of a report; of more, it is by how
// much all would have to change.
const maxFrontPrices = 3

// SeasonFront is a season in a few short sentences, for the front of a report: hours of a
// week, what an hour earns and what to charge; none where no season is answered for.
func SeasonFront(p *answer.SeasonPlan) []string {
	if p == nil {
		return nil
	}
	if p.Hours == 0 {
		return []string{"The whole place: nothing that is sown was timed or judged yet."}
	}
	lines := []string{"The whole place: " + words.Uncapital(weekSentence(*p, "A week", atLeastWords(p.Gaps)))}
	if p.PerOwnHour.Known {
		lines = append(lines, anHourEarns(*p)+".")
	}
	if charge := frontCharge(*p); charge != "" {
		lines = append(lines, charge)
	}
	return lines
}

// frontCharge says what to charge for the wanted hour, in short.
func frontCharge(p answer.SeasonPlan) string {
	if !p.Earn.Known {
		return ""
	}
	prices := pricesNeeded(p)
	switch {
	case len(prices) > 0 && len(prices) <= maxFrontPrices:
		return fmt.Sprintf("For %s %s an hour charge %s%s.", words.Fixed(p.Earn.Value, 2), moneyOf(p), atLeastWords(p.Gaps), strings.Join(prices, "; "))
	case p.PriceFactor.Known:
		return fmt.Sprintf("For %s %s an hour charge %s%s times today's prices, all taken together.", words.Fixed(p.Earn.Value, 2), moneyOf(p), atLeastWords(p.Gaps), words.Fixed(p.PriceFactor.Value, 2))
	}
	return ""
}

// pricesNeeded are the prices that the wanted hour needs, each way's once.
func pricesNeeded(p answer.SeasonPlan) []string {
	var prices []string
	seen := map[string]bool{}
	for _, s := range p.Sowings {
		if !s.PriceNeeded.Known {
			continue
		}
		text := fmt.Sprintf("%s %s %s of %s", words.Fixed(s.PriceNeeded.Value, enough(2, s.PriceNeeded)), moneyOf(p), aUnit(s.Unit), words.Quoted(s.Workflow))
		if s.Price.Known {
			text += fmt.Sprintf(" (now %s)", words.Fixed(s.Price.Value, enough(2, s.Price)))
		}
		if !seen[text] {
			seen[text] = true
			prices = append(prices, text)
		}
	}
	return prices
}

// steadyWords are the hours of a week in the steady part, to the same decimals as those of
// the busiest, with the least and the most where weeks differ.
func steadyWords(p answer.SeasonPlan) string {
	busiest, steady := p.Weeks[p.Busiest.Week], p.Steady
	u := words.UnitFor(busiest.Hours)
	decimals := words.PlainDecimals(busiest.Hours * u.PerHour)
	if busiest.Low.Known {
		decimals = words.Decimals((busiest.High.Value - busiest.Low.Value) / 2 * u.PerHour)
	}
	text := words.Duration(steady.Mean.Value)
	if busiest.Low.Known && steady.Mean.Value > 0 {
		text = u.Of(steady.Mean.Value*u.PerHour, decimals)
	}
	if weeksDiffer(steady) {
		text += fmt.Sprintf(" on average, in weeks of %s to %s", words.Fixed(steady.Least.Value*u.PerHour, decimals), words.Fixed(steady.Most.Value*u.PerHour, decimals))
	}
	return text
}

func weeksDiffer(s answer.SteadyWeeks) bool {
	return s.Most.Value-s.Least.Value > muchAlike*s.Most.Value
}

// weekSentence says what a week takes of someone in the steady part and in the busiest,
// with what is to be said where that lacks a step.
func weekSentence(p answer.SeasonPlan, who, least string) string {
	busiest := p.Weeks[p.Busiest.Week]
	all := least + durationWithin(busiest.Hours, busiest.Low, busiest.High)
	name := weekName(p, p.Busiest.Week)
	alike := busiest.Hours-p.Steady.Most.Value <= muchAlike*busiest.Hours
	switch {
	case !p.Steady.Mean.Known:
		return fmt.Sprintf("The busiest week, %s, takes %s.", name, all)
	case alike && !weeksDiffer(p.Steady):
		return fmt.Sprintf("%s of the steady part takes %s; no week takes more.", who, all)
	}
	return fmt.Sprintf("%s of the steady part takes %s%s; the busiest, %s, takes %s.", who, least, steadyWords(p), name, all)
}
