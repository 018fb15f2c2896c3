package folder

import (
	"strings"

	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// step reads a [[step]].
func (d *decoder) step(n *node) study.Step {
	s := study.Step{Class: study.Operation}
	d.table(n, "[[step]]", keys{
		{"name", needed, newName(&s.Name, &d.names.steps)},
		{"per", optional, oneLine(&s.Per)},
		{"class", optional, oneOf(&s.Class, study.Classes)},
		{"rework", optional, yesNo(&s.Rework)},
		{"hazards", optional, listOf(&s.Hazards, hazard)},
		{"setup_covers", optional, divides(number(&s.SetupCovers, above(0)))},
		{"form", optional, oneOf((*stepfit.Form)(&s.Form), stepfit.Forms)},
		{"spread", optional, wholeOrNil(&s.Spread, atLeast(0), atMost(2))},
		{"together", optional, yesNo(&s.Together)},
		{"estimate", optional, estimate(&s.Estimate)},
	})
	return s
}

func hazard(to *study.Hazard) keyReader { return oneOf(to, study.Hazards) }

// estimate reads a judged time in three points.
func estimate(to **study.Estimate) keyReader {
	return func(d *decoder, f field) {
		var low, likely, high study.Maybe
		of := "unit"
		d.oneTable(f, "estimate", keys{
			{"low", needed, seconds(&low)},
			{"likely", needed, seconds(&likely)},
			{"high", needed, seconds(&high)},
			{"of", optional, oneOf(&of, []string{"visit", "unit"})},
		})
		d.atMostOf(f.value, "low", low, "likely", likely)
		d.atMostOf(f.value, "likely", likely, "high", high)
		if !likely.Known {
			d.atMostOf(f.value, "low", low, "high", high)
		}
		if high.Known && high.Value < study.MinDivisor {
			f, _ := f.value.get("high")
			d.want(f, "a time above 0")
		}
		*to = &study.Estimate{Low: low.Value, Likely: likely.Value, High: high.Value, OfVisit: of == "visit"}
		if part, ok := f.value.get("likely"); ok && (*to).Mean() < 1 && strings.Trim(part.value.text, "0123456789., ") == "" {
			d.warn(part.value.at, "estimate: a time of %s s comes out: were minutes meant? Write the unit, \"0.5min\" or \"0.5s\"", words.Digits((*to).Mean(), 3))
		}
	}
}
