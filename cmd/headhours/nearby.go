package main

import (
	"fmt"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
)

// warnOfStrangers says of a --worker or --grow that no reading names it, and which
// name is near, where there is one: what follows is an answer without readings.
func (c *call) warnOfStrangers(m *answer.Models) (warned bool) {
	for _, kind := range []struct {
		what, name string
		known      []string
	}{{"worker", c.worker, m.Workers}, {"grow", c.grow, m.Grows}} {
		switch {
		case kind.name == "" || slices.Contains(kind.known, kind.name) || len(kind.known) == condense.MaxNames:
			continue
		case len(kind.known) == 0:
			fmt.Fprintf(c.stderr, "warning: no reading names a %s, so none is of %q\n", kind.what, kind.name)
		default:
			known := slices.Sorted(slices.Values(kind.known))
			fmt.Fprintf(c.stderr, "warning: in the readings %s\n", study.UnknownName{Kind: kind.what, Name: kind.name, Known: known})
		}
		warned = true
	}
	return warned
}

// noHeads is a note on a study that does not say for how many heads to answer.
func (c *call) noHeads(st study.Study) []string {
	if st.Heads > 0 || len(c.heads) > 0 || len(st.Workflows) == 0 {
		return nil
	}
	return []string{"the study does not say how many heads a grow is of, so compare, cost and others need --heads N each time: " +
		"write heads = 48, or how many yours are, under [study] in study.toml"}
}
