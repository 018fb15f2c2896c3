package folder

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

// dialect is how the study's logs are to be read. Where the study has no ways of working
// yet, logs may name any.
func (d *decoder) dialect() tasklog.Dialect {
	dialect := d.log.dialect
	dialect.Steps = d.names.steps.list()
	if len(d.names.workflows.all) > 0 {
		dialect.Workflows = d.names.workflows.list()
	}
	if len(d.names.grows.all) > 0 {
		dialect.Grows = study.NamesOf(d.names.grows.all)
	}
	dialect.Per = map[string]string{}
	for _, step := range d.study.Steps {
		dialect.Per[step.Name] = step.Per
	}
	return dialect
}

// logs reads [log].
func (d *decoder) logs(f field) {
	dialect := &d.log.dialect
	var dates string
	d.oneTable(f, "[log]", keys{
		{"dates", optional, oneOf(&dates, slices.Sorted(maps.Keys(notation.Patterns)))},
		{"times", optional, oneOf(&dialect.Times, []string{"seconds", "minutes", "hours"})},
		{"columns", optional, (*decoder).logColumns},
		{"steps", optional, ourNames(&dialect.StepNames, "step", &d.names.steps)},
		{"workflows", optional, ourNames(&dialect.WorkflowNames, "workflow", &d.names.workflows)},
		{"workers", optional, ourNames(&dialect.WorkerNames, "worker", nil)},
	})
	dialect.Dates.Order = notation.Patterns[dates]
	d.study.LogTimes = dialect.Times
}

// logColumns reads [log.columns]: our columns and the headings that stand for them.
func (d *decoder) logColumns(f field) {
	if f.value.kind != aTable {
		d.want(f, `a table such as { step = "Task", count = ["Plants", "Trays"] }`)
		return
	}
	dialect := &d.log.dialect
	dialect.Columns = map[string][]string{}
	headings := map[string]string{} // what a heading stands for
	for _, f := range f.value.fields {
		if !slices.Contains(tasklog.ColumnNames(), f.name) {
			d.problem(f.at, "unknown column %s in [log.columns]: %s", words.Quote(f.name), meant(f.name, tasklog.ColumnNames()))
			continue
		}
		items, ok := d.headings(f)
		if !ok {
			continue
		}
		dialect.Columns[f.name] = []string{}
		for _, n := range items {
			name := strings.TrimSpace(n.text)
			if other, ok := headings[strings.ToLower(name)]; ok {
				d.problem(n.at, "%s: %s stands for %s already", f.name, words.Quote(name), other)
				continue
			}
			headings[strings.ToLower(name)] = f.name
			dialect.Columns[f.name] = append(dialect.Columns[f.name], name)
			d.log.headings = append(d.log.headings, heading{name, d.source.place(n.at)})
		}
	}
}

// headings are the texts of a key of [log.columns]; none for one that is to be read from no
// column. It is false where one is wrong.
func (d *decoder) headings(f field) (items []*node, ok bool) {
	items = []*node{f.value}
	if f.value.kind == aList && f.name == "count" && len(f.value.items) > 0 {
		items = f.value.items
	}
	for _, n := range items {
		blank := n.kind == aText && strings.TrimSpace(n.text) == ""
		if n.kind != aText || blank && f.value.kind == aList {
			want := `a heading in quotes, or "" to read no column as this`
			if f.name == "count" {
				want = `a heading in quotes, a list of several, or "" to read no column as this`
			}
			d.want(field{f.name, n.at, n}, want)
			return nil, false
		}
		if blank {
			return nil, true
		}
	}
	return items, true
}

// ourNames reads a table of the logs' names for something and ours, which must be known
// where known is given.
func ourNames(to *map[string]string, kind string, known *names) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind != aTable {
			d.want(f, fmt.Sprintf(`a table such as { "their name" = "our %s" }`, kind))
			return
		}
		*to = map[string]string{}
		for _, f := range f.value.fields {
			var ours string
			before := d.problems.Count()
			if known == nil {
				ours, _ = d.name(f)
			} else {
				knownName(&ours, known, kind)(d, f)
			}
			if d.problems.Count() == before {
				(*to)[strings.TrimSpace(f.name)] = ours
			}
		}
	}
}

// checkHeadings tells of headings that the study file names and no log has; where another
// log has it or may have it, of those that lack it, in a warning.
func (o *opener) checkHeadings() {
	if len(o.opened.logs) == 0 {
		return
	}
	for _, h := range o.headings {
		var lacking []string
		for _, l := range o.opened.logs {
			if !tasklog.Has(l.mapped, h.name) {
				lacking = append(lacking, o.relative(l.path))
			}
		}
		what := "[log.columns]: the heading " + words.Quote(h.name)
		switch n := len(lacking); {
		case n == 0:
		case n == len(o.opened.logs) && !o.named:
			o.problems = o.problems.And(study.Problem{Place: h.at, Text: what + " stands in no log: write it as it stands there, or take this out"})
		default: // another log may have it, of those that are not read
			o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: h.at, Text: what + " does not stand in " + words.QuoteList(lacking, 3)})
		}
	}
}

// findOrder looks for what shows the order of day and month in a log's dates. Whatever goes
// wrong is told of where the log is read.
func (o *opener) findOrder(l *logFile) {
	if l.data == nil && !l.info.Mode().IsRegular() {
		return
	}
	r, err := l.open()
	if err != nil {
		return
	}
	defer r.Close()
	order, err := tasklog.OrderOfDates(r, l.path, o.opened.dialectOf(l))
	if err != nil || order.Order == 0 {
		return
	}
	if o.orders == nil {
		o.orders = map[string]tasklog.DateOrder{}
	}
	o.orders[l.path] = order
}
