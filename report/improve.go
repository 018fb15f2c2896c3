package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Improve lays out where the hours go and what would change them.
func Improve(in answer.Improvement) Doc {
	doc := Doc{Title: fmt.Sprintf("%s: where the time of %s goes", words.Show(in.Workflow), words.Many(in.Heads, "head"))}
	if what := harvestWords(in.Gives, 1); what != "" {
		doc.Title += fmt.Sprintf(" (%s)", what)
	}
	if questions := questionsBlock(in); questions != "" {
		doc.say("questions", questions)
	}
	doc.say("shares", largestSentence(in))
	doc.show("shares", sharesTable(in))
	if rework := reworkSentence(in); rework != "" {
		doc.say("rework", rework)
	}
	if len(in.Gaps) > 0 {
		doc.say("gaps", fmt.Sprintf("At least: %s.", neverTimed(in.Gaps)))
	}
	for _, c := range in.Made {
		doc.say("made", madeSentence(c, in))
	}
	for _, c := range allSavings(in) {
		doc.say("changes", savingSentence(c, in))
	}
	if len(in.Changes)+len(in.Made) == 0 {
		doc.say("no changes", "To see what a tool or a habit would save, write it as a [[change]] into study.toml; headhours help study shows how.")
	}
	if tenth := tenthSentence(in); tenth != "" {
		doc.say("tenth", tenth)
	}
	if len(in.Advice) > 0 {
		doc.say("time next", adviceBlock(in))
	}
	if len(in.Made) > 0 {
		doc.show("made", madeTable(in))
	}
	if len(in.Changes) > 0 {
		doc.show("changes", savingsTable(in))
	}
	doc.Notes = append(slices.Clone(in.Notes), bracketedNote(in)...)
	doc.Notes = append(doc.Notes,
		"rest and hand-washing are never counted as a saving",
		"minutes saved are money only where they are paid for, or used for other work that is")
	return doc
}

// AddWay adds a line about another way of working.
func (d *Doc) AddWay(in answer.Improvement) {
	s := d.section("other ways")
	line := fmt.Sprintf("%s: %s", words.Quoted(in.Workflow), largestSentence(in))
	if len(s.Answer) == 0 {
		s.Answer = []string{"The other ways, which --workflow shows whole:"}
	}
	s.Answer[0] += "\n" + line
}

// bracketedNote says why setup and units of some steps are left open.
func bracketedNote(in answer.Improvement) []string {
	var names []string
	for _, s := range in.Steps {
		if s.Bracketed {
			names = append(names, s.Step)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{"always timed at about the same count, so that setup and units cannot be told apart: " + words.Names(names)}
}

// allSavings are what-ifs, then those taken together, where these are more than one.
func allSavings(in answer.Improvement) []answer.Saving {
	savings := slices.Clone(in.Changes)
	if t := in.Together; t != nil && !slices.ContainsFunc(savings, func(s answer.Saving) bool { return s.Name == t.Name }) {
		savings = append(savings, *in.Together)
	}
	return savings
}

// largestSentence names the fewest steps that take half of the known hours.
func largestSentence(in answer.Improvement) string {
	var names []string
	for _, s := range in.Steps {
		if !s.Cumulative.Known {
			break
		}
		names = append(names, words.Show(s.Step))
		if s.Cumulative.Value >= 0.5 {
			verb := "takes"
			if len(names) > 1 {
				verb = "take"
			}
			return fmt.Sprintf("%s %s %s of the %s.", words.Capital(words.Names(names)), verb, words.Share(s.Cumulative.Value), words.Duration(in.Hours))
		}
	}
	if len(in.Steps) == 0 {
		return "There is nothing to do for it."
	}
	return "Nothing that it needs was timed or judged yet."
}

// aUnitSaved is what a saving comes to for a unit that is sold, "" where that is a head.
func aUnitSaved(s answer.Saving, in answer.Improvement) string {
	if in.Gives.ByHead || !in.Gives.Sold.Known || !(in.Gives.Sold.Value > 0) || !s.Saved.Known || s.Saved.Value <= 0 {
		return ""
	}
	return fmt.Sprintf(" That is %s for %s that is sold.", words.Duration(s.Saved.Value/in.Gives.Sold.Value), aUnit(in.Gives.Unit))
}

// inUnits is so many heads in what they are sold as, "" where that is a head.
func inUnits(heads float64, in answer.Improvement) string {
	if in.Gives.ByHead || !in.Gives.Sold.Known {
		return ""
	}
	return fmt.Sprintf(" (%s)", unitsOf(words.Rounded(heads*in.Gives.Sold.Value/float64(in.Heads), 2), in.Gives.Unit))
}

func reworkSentence(in answer.Improvement) string {
	var names []string
	var hours float64
	for _, s := range in.Steps {
		if s.Rework && s.Hours.Known {
			names = append(names, s.Step)
			hours += s.Hours.Value
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("%s of it only undoes earlier work: %s.", words.Capital(words.Duration(hours)), words.Names(names))
}

func savingSentence(s answer.Saving, in answer.Improvement) string {
	name := words.Quoted(s.Name)
	switch {
	case s.Hygiene:
		return fmt.Sprintf("%s touches a hygiene step: that is never suggested as a saving.", name)
	case !s.Saved.Known:
		return fmt.Sprintf("%s: what it would save cannot be told, since %s.", name, neverTimed(s.Steps))
	case s.Saved.Value == 0 && s.Low.Known && s.Low.Value < s.High.Value:
		return openSaving(name, s.Low.Value, s.High.Value, "a grow", s.Open)
	case s.Saved.Value == 0:
		if !slices.ContainsFunc(in.Steps, func(step answer.StepShare) bool { return slices.Contains(s.Steps, step.Step) }) {
			return fmt.Sprintf("%s saves nothing here: %s %s no part of this way.", name, words.Names(s.Steps), words.Agree(len(s.Steps), "is", "are"))
		}
		return fmt.Sprintf("%s saves nothing here: what %s %s in this way stays as it is.", name, words.Names(s.Steps), words.Agree(len(s.Steps), "takes", "take"))
	case s.Saved.Value < 0:
		return fmt.Sprintf("%s would take %s more a grow.", name, words.Duration(-s.Saved.Value))
	case !s.Low.Known:
		return fmt.Sprintf("%s would save %s a grow, as far as is known.%s%s", name, words.Duration(s.Saved.Value), aUnitSaved(s, in), paybackSentence(s, in))
	case s.Low.Value <= 0 && s.Low.Value < s.High.Value:
		return fmt.Sprintf("%s may save %s a grow, but it may be nothing: no clear saving (up to %s).%s",
			name, words.Duration(s.Saved.Value), words.Duration(s.High.Value), paybackSentence(s, in))
	}
	return fmt.Sprintf("%s would save %s.%s%s", name, durationWithin(s.Saved.Value, s.Low, s.High, "a grow"), aUnitSaved(s, in), paybackSentence(s, in))
}

// openSaving says what a change may save, in hours, that is reckoned to save nothing only since
// setup and unit time of its steps cannot be told apart.
func openSaving(name string, low, high float64, of string, open []answer.TimeAdvice) string {
	var ends []string
	if high > 0 {
		ends = append(ends, fmt.Sprintf("save up to %s %s", words.Duration(high), of))
	}
	if low < 0 {
		ends = append(ends, fmt.Sprintf("take up to %s more %s", words.Duration(-low), of))
	}
	text := fmt.Sprintf("%s may %s, or change nothing", name, words.Or(ends))
	if len(open) == 0 {
		return text + "."
	}
	var advice []string
	for _, a := range open {
		advice = append(advice, words.Show(a.Step)+": "+a.How)
	}
	return text + ": setup and unit time cannot be told apart yet (" + strings.Join(advice, "; ") + ")."
}

func paybackSentence(s answer.Saving, in answer.Improvement) string {
	switch {
	case !s.Outlay.Known || s.Outlay.Value == 0:
		return ""
	case !in.PaidFor:
		return " When its outlay comes back cannot be told without a wage."
	case !s.Payback.Known:
		return ""
	case s.Payback.Value > farPayback:
		return " Its outlay does not come back within 10,000 heads."
	case !s.PaybackHigh.Known || s.PaybackHigh.Value > farPayback:
		return fmt.Sprintf(" Its outlay comes back after about %s%s, where the minutes are paid for; perhaps not within 10,000.", words.Heads(s.Payback.Value), inUnits(s.Payback.Value, in))
	}
	return fmt.Sprintf(" Its outlay comes back after about %s%s (somewhere between %s and %s), where the minutes are paid for.",
		words.Heads(s.Payback.Value), inUnits(s.Payback.Value, in), words.HeadsAlone(s.PaybackLow.Value), words.Heads(s.PaybackHigh.Value))
}

// tenthSentence says where a tenth quicker would be worth most: of the setup and
// unit times of all steps but those of hygiene. Where the two cannot be told apart it
// is of the step.
func tenthSentence(in answer.Improvement) string {
	var best float64
	var what string
	tenth := func(hours study.Maybe, part string) {
		if hours.Known && hours.Value/10 > best {
			best, what = hours.Value/10, part
		}
	}
	for _, s := range in.Steps {
		switch {
		case s.Hygiene:
		case s.Bracketed:
			tenth(s.Hours, words.Show(s.Step))
		default:
			tenth(s.SetupHours, "setup of "+words.Show(s.Step))
			tenth(s.UnitHours, "each unit of "+words.Show(s.Step))
		}
	}
	if best == 0 {
		return ""
	}
	return fmt.Sprintf("A tenth quicker is worth most in %s: %s a grow. See that no pace suffers for it: a better tool or place, not haste.", what, words.Duration(best))
}

func adviceBlock(in answer.Improvement) string {
	lines := []string{"What to time next, most useful first:"}
	if in.MostlyGrows && len(in.Gaps) == 0 {
		lines = append(lines, "another grow: how much grows differ is most of what is not known, and further readings of these grows tell little of it.")
	}
	for _, a := range in.Advice {
		lines = append(lines, fmt.Sprintf("%s: %s.", words.Show(a.Step), a.How))
	}
	return strings.Join(lines, "\n")
}

func sharesTable(in answer.Improvement) Table {
	t := Table{Title: "Steps, largest first, in minutes; doubt: their share of that about the whole", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "minutes", Key: "hours_h", Right: true},
		{Head: "share", Long: "share of the time", Key: "share", Right: true},
		{},
		{Head: "to here", Long: "share up to here", Key: "cumulative_share", Right: true},
		{Head: "setup", Long: "setup, min", Key: "setup_h", Right: true},
		{Head: "units", Long: "units, min", Key: "unit_h", Right: true},
		{Head: "10 %", Long: "10 % of it, min", Key: "tenth_h", Right: true},
		{Head: "class", Key: "class", Full: true},
		{Head: "rework", Key: "rework", Full: true},
		{Head: "doubt", Long: "share of the doubt", Key: "variance_share", Right: true},
	}}
	longest := 0.0
	for _, s := range in.Steps {
		longest = max(longest, s.Share.Value)
	}
	for _, s := range in.Steps {
		minutes := func(m study.Maybe) Cell { return Cell{maybe(m.Times(60), 1).Text, m} }
		part := func(m study.Maybe) Cell {
			if !m.Known {
				return Cell{"", m}
			}
			return Cell{words.Share(m.Value), m}
		}
		class := string(s.Class)
		if s.Rework {
			class += ", rework"
		}
		setup, units := minutes(s.SetupHours), minutes(s.UnitHours)
		if s.Bracketed {
			setup, units = Cell{"-", study.Maybe{}}, Cell{"-", study.Maybe{}}
		}
		tenth := minutes(s.Hours.Times(0.1))
		if s.Hygiene {
			tenth.Text = "-"
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(s.Step), s.Step}, minutes(s.Hours), part(s.Share), {Text: bar(s.Share.Value, longest)}, part(s.Cumulative),
			setup, units, tenth,
			{class, string(s.Class)}, {yes(s.Rework), s.Rework}, part(s.VarianceShare),
		})
	}
	return t
}

func savingsTable(in answer.Improvement) Table {
	t := Table{Title: "What-ifs, for each grow", Columns: []Column{
		{Head: "change", Key: "name"},
		{Head: "minutes saved", Key: "saved_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "outlay", Key: "outlay", Right: true},
		{Head: "back after heads", Key: "payback_heads", Right: true},
	}}
	for _, s := range allSavings(in) {
		minutes := func(m study.Maybe) Cell { return Cell{maybe(m.Times(60), 1).Text, m} }
		back := Cell{"-", s.Payback}
		if s.Payback.Known {
			back.Text = words.HeadsAlone(s.Payback.Value)
		}
		outlay := Cell{"-", s.Outlay}
		if s.Outlay.Known {
			outlay.Text = words.Fixed(s.Outlay.Value, 2)
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(s.Name), s.Name}, minutes(s.Saved), minutes(s.Low), minutes(s.High), outlay, back,
		})
	}
	return t
}
