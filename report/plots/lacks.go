package plots

import (
	"fmt"

	"headhours/timing/answer"
)

// lackOf is a way and the steps that its total is without.
type lackOf struct {
	workflow string
	gaps     []string
}

// lackWords say which totals lack what, once where they all lack the same.
func lackWords(all []lackOf) []string {
	var order []string
	workflows := map[string][]string{}
	for _, l := range all {
		if gaps := list(l.gaps); gaps != "" {
			if workflows[gaps] == nil {
				order = append(order, gaps)
			}
			workflows[gaps] = append(workflows[gaps], quoted(l.workflow))
		}
	}
	for i, gaps := range order {
		who := "≥"
		if names := workflows[gaps]; len(names) < len(all) {
			who = list(names)
		}
		order[i] = fmt.Sprintf("%s: at least, without %s, not timed.", who, gaps)
	}
	return order
}

// hoursLack says what bars of hours lack, which have no numbers to mark.
func hoursLack(gaps []string) []string {
	if len(gaps) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Hours are at least as many, without %s, not timed.", list(gaps))}
}

func lacksOf(c answer.Comparison) []string {
	all := make([]lackOf, len(c.Workflows))
	for i, h := range c.Workflows {
		all[i] = lackOf{h.Workflow, h.Gaps}
	}
	return lackWords(all)
}
