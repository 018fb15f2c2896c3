package answer

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/words"
)

// GrowWays are the ways that the readings of a grow were logged under, in order of first
// appearance, and how many were under each.
type GrowWays struct {
	Grow     string
	Ways     []string
	Readings []int
}

// WaysOfGrows lists the grows whose readings name a way. There are none where readings are
// too many to be told apart by grow.
func (m *Models) WaysOfGrows() []GrowWays {
	const between = "\x00"
	var list []GrowWays
	at := map[string]int{}
	for i := range m.Steps {
		names, tallies := m.Steps[i].Kinds.Tallies(func(k condense.Kind) string { return k.Grow + between + k.Workflow })
		for j, name := range names {
			grow, way, _ := strings.Cut(name, between)
			if grow == "" || way == "" {
				continue
			}
			k, ok := at[grow]
			if !ok {
				k = len(list)
				at[grow], list = k, append(list, GrowWays{Grow: grow})
			}
			list[k].add(way, tallies[j].Readings)
		}
	}
	return list
}

func (g *GrowWays) add(way string, readings int) {
	at := slices.Index(g.Ways, way)
	if at < 0 {
		at = len(g.Ways)
		g.Ways, g.Readings = append(g.Ways, way), append(g.Readings, 0)
	}
	g.Readings[at] += readings
}

// WayOf is the way that a grow is of: that which the study gives it, else the one that all
// its readings name that name one; "" where that is not known.
func (m *Models) WayOf(grow string, ways []GrowWays) string {
	for _, g := range m.Study.Grows {
		if g.Name == grow {
			return g.Workflow
		}
	}
	for _, g := range ways {
		if g.Grow == grow && len(g.Ways) == 1 {
			return g.Ways[0]
		}
	}
	return ""
}

// TwoWaysNotes name grows that the study does not list and whose readings were logged under
// more ways than one: a grow is of one way, so one of them may be another grow.
func (m *Models) TwoWaysNotes() []string {
	listed := map[string]bool{}
	for _, g := range m.Study.Grows {
		listed[g.Name] = true
	}
	var notes []string
	for _, g := range m.WaysOfGrows() {
		if listed[g.Grow] || len(g.Ways) < 2 {
			continue
		}
		parts := make([]string, len(g.Ways))
		for i, way := range g.Ways {
			parts[i] = fmt.Sprintf("%s (%s)", words.Quote(way), words.Many(g.Readings[i], "reading"))
		}
		notes = append(notes, fmt.Sprintf("grow %s was logged under more ways than one: %s. Is one of them another grow, or noted under a wrong way?", words.Quote(g.Grow), words.And(parts)))
	}
	return notes
}
