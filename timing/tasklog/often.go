package tasklog

import (
	"cmp"
	"fmt"
	"slices"

	"headhours/timing/study"
	"headhours/timing/words"
)

// repeated is a problem that many rows may have, told once with how often.
type repeated struct {
	key      string // the same for the same problem
	at       study.Place
	what, do string // what is wrong, and what would be right
	rows     int
}

// maxRepeated bounds them: behind so many all are one.
const maxRepeated = 200

var others = repeated{key: "others", what: "more like these", do: "put the others right first"}

// often is what is wrong with a cell that many rows may have: what is wrong, and what would
// be right, put into words once.
type often struct {
	key   string // the same for the same problem of a column
	words func() (what, do string)
}

// Error has both.
func (o *often) Error() string {
	what, do := o.words()
	return what + ": " + do
}

// merged adds the problems of rows further down.
func merged(all, more []repeated) []repeated {
	for _, m := range more {
		at := slices.IndexFunc(all, func(r repeated) bool { return r.key == m.key })
		if at < 0 && len(all) >= maxRepeated {
			m.key, m.what, m.do = others.key, others.what, others.do
			at = slices.IndexFunc(all, func(r repeated) bool { return r.key == m.key })
		}
		if at < 0 {
			all = append(all, m)
		} else {
			all[at].rows += m.rows
		}
	}
	return all
}

// inWords are those problems in words, in the order of their places.
func inWords(all []repeated) study.Problems {
	var problems study.Problems
	slices.SortStableFunc(all, func(a, b repeated) int { return cmp.Compare(a.at.Line, b.at.Line) })
	for _, r := range all {
		what := r.what
		if r.rows > 1 {
			what += fmt.Sprintf(" (in %d rows)", r.rows)
		}
		problems = problems.And(study.Problem{Place: r.at, Text: what + ": " + r.do})
	}
	return problems
}

// unknownName is a name that the study lacks: what would be right, and what to write where
// it is another name for a step or way that is there.
func unknownName(c column, name string, known []string) (what, do string) {
	if alike := study.Alike(name, known); len(alike) > 1 {
		return c.String() + " " + words.Quote(name) + " may be " + words.Or(words.Quotes(alike)), "write it exactly as one of them"
	}
	what = c.String() + " " + words.Quote(name) + " is not known"
	near := study.Nearest(name, known)
	switch {
	case c == stepColumn && near == "" && IsTotal(name):
		return what, "it looks like a row of totals, which is to be taken out"
	case len(known) == 0:
		return what, firstOf(c, name)
	case near != "":
		do = study.IsMeant(name, known)
	default:
		do = "known are " + words.QuoteList(known, 8) + "."
	}
	if words.Short(name) == name {
		do += " Correct it, or " + Joins(c.String(), name, near)
	}
	return what, do
}

// firstOf says how a name gets into a study that has none of its kind yet.
func firstOf(c column, name string) string {
	if words.Short(name) != name {
		name = "…"
	}
	do := fmt.Sprintf("study.toml has no %s yet. Write there [[%s]], and below it name = %s", c, c, study.TOMLText(name))
	if c == stepColumn {
		do += "; or have headhours init --from, in an empty folder, write all of them"
	}
	return do
}

// Joins says what to write in a study file for a name of a step or workflow to stand for
// one of the study's, which may be "" where none is near.
func Joins(kind, name, ours string) string {
	if ours == "" {
		ours = "…"
	}
	return fmt.Sprintf("write in study.toml, under [log.%ss]: %s = %s", kind, study.TOMLText(name), study.TOMLText(ours))
}
