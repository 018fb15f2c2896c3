package folder

import "headhours/timing/study"

// grow reads a [[grow]]. No more cells come up than were sown, and no more
// heads are cut than came up.
func (d *decoder) grow(n *node) study.Grow {
	var g study.Grow
	d.table(n, "[[grow]]", keys{
		{"name", needed, newName(&g.Name, &d.names.grows)},
		{"workflow", needed, knownName(&g.Workflow, &d.names.workflows, "workflow")},
		{"cells", optional, maybe(&g.Cells, atLeast(0))},
		{"came_up", optional, maybe(&g.CameUp, atLeast(0))},
		{"heads", optional, divides(maybe(&g.Heads, atLeast(0)))},
		{"weight_kg", optional, divides(maybe(&g.Weight, above(0)))},
		{"notes", optional, plainText(&g.Notes)},
	})
	d.atMostOf(n, "came_up", g.CameUp, "cells", g.Cells)
	d.atMostOf(n, "heads", g.Heads, "came_up", g.CameUp)
	if !g.CameUp.Known {
		d.atMostOf(n, "heads", g.Heads, "cells", g.Cells)
	}
	return g
}
