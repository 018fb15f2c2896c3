package cues

import (
	"cmp"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// group is the cues of one reading. The first holds what all of them say.
type group struct {
	cue
	parts  []cue
	strung map[string]*strings.Builder // by key: what several parts say, strung together
}

// group puts the parts of a reading together, by their label.
func (r *reader) group(found []cue) []group {
	var groups []group
	labels := map[string]int{} // where in groups
	for _, c := range found {
		r.nameAsOurs(&c)
		label := c.values["reading"]
		at, ok := labels[label.text]
		if ok {
			r.join(&groups[at], c)
			continue
		}
		if label.text != "" {
			labels[label.text] = len(groups)
		}
		groups = append(groups, group{c, []cue{c}, map[string]*strings.Builder{}})
	}
	return groups
}

// nameAsOurs gives a cue the names that there are for those of its text, which match in any
// case and with runs of blanks as one.
func (r *reader) nameAsOurs(c *cue) {
	if same, ok := study.SameName(c.step.text, r.opts.Steps); ok {
		c.step.text = same
	}
	workflow := c.values["workflow"]
	if same, ok := study.SameName(workflow.text, r.opts.Workflows); ok {
		c.values["workflow"] = lineText{workflow.line, same}
	}
}

// join adds a part to a reading. Notes and reasons to void it are strung
// together; what else two parts say must be the same.
func (r *reader) join(g *group, c cue) {
	g.parts = append(g.parts, c)
	label := c.values["reading"].text
	if c.step.text != g.step.text {
		r.problem(c.step.line, "step %s is not that of line %d, %s: the parts of reading %s are of one step", words.Quote(c.step.text), g.step.line, words.Quote(g.step.text), words.Quote(label))
	}
	for _, key := range keys {
		v, ok := c.values[key]
		first, saidBefore := g.values[key]
		switch {
		case !ok || v.text == first.text:
		case !saidBefore:
			g.values[key] = v
		case key == "note" || key == "void":
			g.values[key] = lineText{first.line, g.string(key, first.text, v.text)}
		default:
			r.problem(v.line, "%s %s is not that of line %d, %s: say it once for all parts of reading %s", key, words.Quote(v.text), first.line, words.Quote(first.text), words.Quote(label))
		}
	}
}

// string puts what one more part says behind what the parts before it said.
func (g *group) string(key, before, more string) string {
	if g.strung[key] == nil {
		g.strung[key] = &strings.Builder{}
		g.strung[key].WriteString(before)
	}
	g.strung[key].WriteString("; " + more)
	return g.strung[key].String()
}

// checkOverlaps refuses cues of one worker that overlap: they would count the
// same time twice. Cues that name no worker are one worker's.
func (r *reader) checkOverlaps(groups []group) {
	type part struct {
		cue
		worker string
	}
	var parts []part
	for _, g := range groups {
		for _, c := range g.parts {
			if c.end <= c.start {
				continue // a problem already
			}
			parts = append(parts, part{c, orElse(g.values["worker"], r.opts.Worker)})
		}
	}
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(a.start, b.start) })
	latest := map[string]cue{} // of each worker, the one that ends last
	for _, p := range parts {
		before, ok := latest[p.worker]
		if ok && p.start < before.end {
			r.problem(p.line, "begins before the cue on line %d ends: one worker does one thing at a time, name the workers if there are two", before.line)
		}
		if !ok || p.end > before.end {
			latest[p.worker] = p.cue
		}
	}
}
