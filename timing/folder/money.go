package folder

import (
	"slices"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// supply reads a [[supply]].
func (d *decoder) supply(n *node) study.Supply {
	s := study.Supply{Uses: 1, Each: 1}
	d.table(n, "[[supply]]", keys{
		{"name", needed, newName(&s.Name, &d.names.supplies)},
		{"count", needed, count(&s.Count, `each = `)},
		{"day", optional, wholeOrNil(&s.Day, atLeast(0))},
		{"price", needed, number(&s.Price, atLeast(0))},
		{"uses", optional, divides(number(&s.Uses, above(0)))},
		{"each", optional, number(&s.Each, above(0))},
		{"workflows", optional, filled(listOf(&s.Workflows, d.workflowName))},
	})
	if s.Count == crop.Trays {
		d.needTrays(n, s)
	}
	return s
}

func (d *decoder) workflowName(to *string) keyReader {
	return knownName(to, &d.names.workflows, "workflow")
}

// needTrays refuses a supply for trays where a workflow it is for, any without
// a list of them, does not say how many cells one has.
func (d *decoder) needTrays(n *node, s study.Supply) {
	f, _ := n.get("count")
	_, some := n.get("workflows")
	for _, name := range d.noTrays {
		if !some || slices.Contains(s.Workflows, name) {
			d.lack(f.value.at, `count: "trays" needs cells_per_tray in the [[workflow]] %q`, name)
		}
	}
}

// labour reads [labour].
func (d *decoder) labour(f field) {
	d.study.Labour = &study.Labour{}
	d.oneTable(f, "[labour]", keys{
		{"wage", needed, number(&d.study.Labour.Wage, atLeast(0))},
		{"oncost", optional, number(&d.study.Labour.OnCost, atLeast(0))},
		{"own_hours_per_week", optional, maybe(&d.study.Labour.OwnHours, atLeast(0))},
	})
}

// sale reads [sale].
func (d *decoder) sale(f field) {
	d.saleKeys(f, "[sale]", &d.study.Sale, &d.study.PricePerHead)
}

// space reads [space].
func (d *decoder) space(f field) {
	d.oneTable(f, "[space]", keys{
		{"price_per_m2_day", optional, maybe(&d.study.SpacePrice, atLeast(0))},
		{"m2", optional, maybe(&d.study.SpaceM2, atLeast(0))},
	})
}
