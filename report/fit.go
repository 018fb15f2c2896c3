package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Fit lays out the time model of each step.
func Fit(f answer.Fits) Doc {
	doc := Doc{Title: "Time of each step"}
	doc.say("model", "Time = setup time × setups + unit time × count, in seconds of one person's work at normal pace, without rest.")
	doc.show("model", fitTable(f))
	if len(f.Earlier) > 0 {
		doc.show("earlier", earlierTable(f))
	}
	for _, s := range withEarlier(f) {
		if len(s.StandsOut) > 0 {
			doc.say("stands out", standsOutSentences(s)...)
		}
	}
	if all := standOuts(withEarlier(f)); len(all.Rows) > 0 {
		all.For = Programs
		doc.show("stands out", all)
	}
	doc.Notes = FitNotes(f)
	doc.Notes = append(doc.Notes, gapNotes(f.Steps)...)
	return doc
}

// withEarlier is the steps and, behind them, what they were before changes.
func withEarlier(f answer.Fits) []answer.StepFit {
	if len(f.Earlier) == 0 {
		return f.Steps
	}
	return slices.Concat(f.Steps, f.Earlier)
}

// FitNotes are the notes of models of steps, but for what was never timed.
func FitNotes(f answer.Fits) []string {
	return append(slices.Clone(f.Notes), stepNotes(withEarlier(f))...)
}

// stepNotes are the notes of the steps, each said once for all steps it is true
// of.
func stepNotes(steps []answer.StepFit) []string {
	var notes []string
	of := map[string][]string{}
	for _, s := range steps {
		for _, note := range s.Notes {
			if of[note] == nil {
				notes = append(notes, note)
			}
			of[note] = append(of[note], s.Step)
		}
	}
	for i, note := range notes {
		notes[i] = words.Names(of[note]) + ": " + note
	}
	return notes
}

// gapNotes are those of steps without a model.
func gapNotes(steps []answer.StepFit) []string {
	var untimed, voided, notes []string
	for _, s := range steps {
		switch {
		case s.Form != nil:
		case s.Voided > 0:
			voided = append(voided, s.Step)
		default:
			untimed = append(untimed, s.Step)
		}
	}
	for _, gap := range []struct {
		steps []string
		is    string
	}{{untimed, "neither timed nor judged"}, {voided, "timed in void readings only, and not judged"}} {
		if n := len(gap.steps); n > 0 {
			notes = append(notes, words.Names(gap.steps)+": "+gap.is+"; totals that need "+words.Agree(n, "it", "them")+" say \"at least\"")
		}
	}
	return notes
}

// earlierTable is the models of steps as they were before changes.
func earlierTable(f answer.Fits) Table {
	f.Steps = f.Earlier
	t := fitTable(f)
	t.Title = "The same before changes that were made, which no answer of now takes"
	return t
}

func fitTable(f answer.Fits) Table {
	t := Table{Title: fmt.Sprintf("Steps, with %s intervals", words.Share(f.Confidence)), Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "readings", Key: "readings", Right: true},
		{Head: "voided", Key: "voided", Right: true, Full: true},
		{Head: "counts", Key: "count_min", Right: true},
		{Head: "", Key: "count_max", Full: true},
		{Head: "setup", Key: "setup_s", Right: true},
		{Head: "", Key: "setup_se_s", Full: true},
		{Head: "range", Key: "setup_low_s", Right: true},
		{Head: "", Key: "setup_high_s", Full: true},
		{Head: "a unit", Key: "unit_s", Right: true},
		{Head: "", Key: "unit_se_s", Full: true},
		{Head: "range", Key: "unit_low_s", Right: true},
		{Head: "", Key: "unit_high_s", Full: true},
		{Head: "per", Key: "per"},
		{Head: "form", Key: "form", Full: true},
		{Head: "spread", Key: "spread", Full: true},
		{Head: "", Key: "setup_unit_cov_s2", Full: true},
		{Head: "scatter", Key: "residual_sd_s", Full: true},
		{Head: "df", Key: "df", Full: true},
		{Head: "r2", Key: "r2", Full: true},
		{Head: "borrowed", Key: "borrowed", Full: true},
		{Head: "readings for 10 %", Key: "readings_for_10_percent", Full: true},
		{Head: "lent", Key: "lent_share", Full: true},
	}}
	for _, s := range f.Steps {
		t.Rows = append(t.Rows, []Cell{
			{words.Show(s.Step), s.Step},
			{fmt.Sprint(s.Readings), s.Readings},
			{fmt.Sprint(s.Voided), s.Voided},
			{countsOf(s), s.CountMin}, {"", s.CountMax},
			seconds(s.Setup), full(s.SetupSE), secondsRange(s.SetupLow, s.SetupHigh), full(s.SetupHigh),
			seconds(s.Unit), full(s.UnitSE), secondsRange(s.UnitLow, s.UnitHigh), full(s.UnitHigh),
			{words.Show(perOf(s)), perOf(s)},
			{textOf(s.Form), textOf(s.Form)},
			{numberOf(s.Spread), numberOf(s.Spread)},
			full(s.SetupUnitCov), full(s.ResidualSD), full(s.DF), full(s.R2),
			{yes(s.Borrowed), s.Borrowed},
			{numberOf(s.ReadingsFor10), numberOf(s.ReadingsFor10)},
			full(s.LentShare),
		})
	}
	return t
}

func perOf(s answer.StepFit) string {
	if s.Per == nil {
		return "unit"
	}
	return *s.Per
}

func textOf(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

func numberOf(n *int) string {
	if n == nil {
		return ""
	}
	return fmt.Sprint(*n)
}

// full is a cell that only full tables show.
func full(m study.Maybe) Cell { return maybe(m, 3) }

func countsOf(s answer.StepFit) string {
	switch {
	case s.Form == nil:
		return "never"
	case !s.CountMin.Known:
		return "judged"
	case s.CountMin.Value == s.CountMax.Value:
		return words.Count(s.CountMin.Value)
	}
	return words.Count(s.CountMin.Value) + "–" + words.Count(s.CountMax.Value)
}

// seconds is a time as a cell, "-" where the model has none.
func seconds(m study.Maybe) Cell {
	if !m.Known {
		return Cell{"-", m}
	}
	return Cell{words.Plain(m.Value) + " s", m}
}

func secondsRange(low, high study.Maybe) Cell {
	if !low.Known {
		return Cell{"", low}
	}
	d := visible(words.Decimals((high.Value-low.Value)/2), low, high)
	return Cell{words.Fixed(low.Value, d) + "–" + words.Fixed(high.Value, d), low}
}

// mostStandOut is how many readings of a step are told of one by one.
const mostStandOut = 5

// standsOutSentences tell of the readings of a step that stand out: of many, of those that do
// so most.
func standsOutSentences(s answer.StepFit) []string {
	told := make([]*answer.StandOut, len(s.StandsOut))
	for i := range told {
		told[i] = &s.StandsOut[i]
	}
	if len(told) > mostStandOut {
		slices.SortStableFunc(told, func(a, b *answer.StandOut) int {
			return cmp.Or(cmp.Compare(a.P, b.P), cmp.Compare(math.Abs(b.Studentised.Value), math.Abs(a.Studentised.Value)))
		})
		told = told[:mostStandOut]
	}
	var sentences []string
	for _, out := range told {
		sentences = append(sentences, standsOutSentence(s, *out))
	}
	if more := len(s.StandsOut) - len(told); more > 0 {
		sentences = append(sentences, fmt.Sprintf("%s of %s %s out, less than these: this answer as CSV or JSON lists all.",
			words.Many(more, "more reading"), words.Show(s.Step), words.Agree(more, "stands", "stand")))
	}
	return sentences
}

func standsOutSentence(s answer.StepFit, out answer.StandOut) string {
	var without []string
	if out.Setup.Known {
		without = append(without, "setup "+seconds(out.Setup).Text)
	}
	if out.Unit.Known {
		without = append(without, fmt.Sprintf("%s a %s", seconds(out.Unit).Text, words.Show(perOf(s))))
	}
	advice := "It is counted all the same; void it with a reason if it was not that work."
	if off := math.Abs(out.Seconds/out.Expected.Value - 1); out.Expected.Known && off < closeEnough {
		advice = fmt.Sprintf("It is only %s off: the others agree more closely than handwork does, so leave it as it is.", words.Percent(off, 2))
	}
	return fmt.Sprintf("Stands out: %s, %s for %s (%s:%d). Without it: %s. %s",
		words.Show(s.Step), seconds(study.Known(out.Seconds)).Text, words.Count(out.Count), words.Show(out.File), out.Line, strings.Join(without, ", "), advice)
}

// closeEnough is how far off the others' time handwork is in any case, as a share of it (common practice, no source).
const closeEnough = 0.1
