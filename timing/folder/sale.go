package folder

import "headhours/timing/study"

// saleKeys reads how a harvest is sold: a price of a head alone, or a unit with its
// price and the share that is sold. The sale stays nil where none of these is said.
func (d *decoder) saleKeys(f field, what string, to **study.Sale, perHead *study.Maybe) {
	sale := study.Sale{Unit: "head", Heads: 1, Share: 1}
	d.oneTable(f, what, keys{
		{"price_per_head", optional, maybe(perHead, atLeast(0))},
		{"unit", optional, unit(&sale.Unit)},
		{"heads", optional, divides(number(&sale.Heads, above(0)))},
		{"kg", optional, divides(number(&sale.Kg, above(0)))},
		{"price", optional, maybe(&sale.Price, atLeast(0))},
		{"sold_share", optional, number(&sale.Share, atLeast(0), atMost(1))},
	})
	var first field
	for _, key := range []string{"unit", "heads", "kg", "price", "sold_share"} {
		if k, found := f.value.get(key); found {
			first = k
		}
	}
	old, hasOld := f.value.get("price_per_head")
	kg, hasKg := f.value.get("kg")
	heads, hasHeads := f.value.get("heads")
	_, hasUnit := f.value.get("unit")
	if first.value == nil {
		return
	}
	if hasOld {
		d.problem(old.at, "%s has price_per_head beside %s, want price, the price of one unit", what, first.name)
	}
	if hasKg && hasHeads {
		d.problem(max(kg.at, heads.at), "%s has both kg and heads, want one of them: a unit is so many heads or so many kilograms", what)
	}
	if hasKg && !hasUnit {
		d.lack(kg.at, `%s has kg without unit, want the word for what is sold, such as unit = "bag"`, what)
	}
	if hasKg {
		sale.Heads = 0
	}
	*to = &sale
}

// unit reads the word for what is sold.
func unit(to *string) keyReader {
	return func(d *decoder, f field) {
		if name, ok := d.name(f); ok {
			*to = name
		}
	}
}

// ownSale reads the sale of a workflow.
func ownSale(to **study.Sale) keyReader {
	return func(d *decoder, f field) {
		var perHead study.Maybe
		d.saleKeys(f, "a workflow's sale", to, &perHead)
		if *to == nil {
			*to = &study.Sale{Unit: "head", Heads: 1, Share: 1, Price: perHead}
		}
	}
}

// overhead reads an [[overhead]].
func (d *decoder) overhead(n *node) study.Overhead {
	var o study.Overhead
	d.table(n, "[[overhead]]", keys{
		{"name", needed, newName(&o.Name, &d.names.overheads)},
		{"per_year", needed, number(&o.PerYear, atLeast(0))},
	})
	return o
}
