package folder

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// place is a sound study of a place, which each mistake below spoils.
const place = `
[[step]]
name = "sow"
[[step]]
name = "water"
together = true
[[workflow]]
name = "mizuna"
tasks = [ { step = "sow", day = 0, count = "cells" }, { step = "water", day = 7, count = "once" } ]
`

// Every mistake names its line, what was found and what would be right.
func TestPlaceMistakes(t *testing.T) {
	_, err := ReadStudy([]byte(place), "study.toml")
	require.NoError(t, err)
	for name, c := range map[string]struct{ text, want string }{
		"unknown way":      {"[[sowing]]\nworkflow = \"mizun\"\nheads = 9", `study.toml:11:12: workflow: no [[workflow]] is named "mizun": is "mizuna" meant?`},
		"heads and cells":  {"[[sowing]]\nworkflow = \"mizuna\"\nheads = 9\ncells = 9", `study.toml:13:1: a sowing has both heads and cells, want one of them`},
		"neither":          {"[[sowing]]\nworkflow = \"mizuna\"", `study.toml:10:3: a sowing lacks the key "heads" or "cells"`},
		"date, no start":   {"[[sowing]]\nworkflow = \"mizuna\"\nheads = 9\nfrom = \"2027-05-01\"", `study.toml:13:8: from: a date needs the season's first day: say start = "2027-05-01" or earlier in [season], or give from as a number of days`},
		"every day 0":      {"[[sowing]]\nworkflow = \"mizuna\"\nheads = 9\nevery_days = 0", `study.toml:13:14: every_days: found 0, want a whole number of 1 or more`},
		"sale of a way":    {"sale = { unit = \"bag\", kg = 1, price = -2 }", `study.toml:10:40: price: found -2, want a number of 0 or more`},
		"own hours":        {"[labour]\nwage = 9\nown_hours_per_week = -1", `study.toml:12:22: own_hours_per_week: found -1, want a number of 0 or more`},
		"no date":          {"[season]\nstart = \"1 March\"", `study.toml:11:9: start: found "1 March", want a date such as "2027-03-01"`},
		"until first":      {"[[sowing]]\nworkflow = \"mizuna\"\nheads = 9\nfrom = 20\nuntil = 10", `study.toml:14:9: until: found 10, want no day before from, 20`},
		"never":            {"[season]\ndays = 70\n[[sowing]]\nworkflow = \"mizuna\"\nheads = 9\nfrom = 70", `study.toml:15:8: from: found 70, want a day in the season, 0 to 69: it is never sown`},
		"before the start": {"[season]\nstart = \"2027-03-01\"\ndays = 7\n[[sowing]]\nworkflow = \"mizuna\"\nheads = 9\nfrom = \"2027-02-01\"", `study.toml:16:8: from: found "2027-02-01", want a day in the season, 0 to 6, 2027-03-01 to 2027-03-07: it is never sown`},
		"part of a week":   {"[season]\ndays = 50", `study.toml:11:8: days: found 50, want whole weeks, a multiple of 7`},
		"price":            {"[sale]\nprice = -1", `study.toml:11:9: price: found -1, want a number of 0 or more`},
		"sold share":       {"[sale]\nsold_share = 1.1", `study.toml:11:14: sold_share: found 1.1, want a number of 0 or more and up to 1`},
		"kg and heads":     {"[sale]\nunit = \"bag\"\nkg = 1\nheads = 2", `study.toml:13:1: [sale] has both kg and heads, want one of them: a unit is so many heads or so many kilograms`},
		"kg, no unit":      {"[sale]\nkg = 1", `study.toml:11:1: [sale] has kg without unit, want the word for what is sold, such as unit = "bag"`},
		"two prices":       {"[sale]\nprice_per_head = 1\nsold_share = 1", `study.toml:11:1: [sale] has price_per_head beside sold_share, want price, the price of one unit`},
		"overhead":         {"[[overhead]]\nname = \"rent\"\nper_year = -2", `study.toml:12:12: per_year: found -2, want a number of 0 or more`},
		"cut's day":        {"cuts = [ { day = 8, kg = 0.1 } ]", `study.toml:10:18: day: no task of the workflow is on day 8, want the day of the task that cuts, or a task on that day`},
		"cuts and head_kg": {"cuts = [ { day = 7, kg = 0.1 } ]\nhead_kg = 0.2", `study.toml:11:1: a workflow has both cuts and head_kg, want one of them: cuts tell the weight`},
		"bought, sown":     {"bought = true\ngermination = 0.9", `study.toml:11:1: germination beside bought = true, want one of them: plants that are bought are not sown`},
		"bought, seeds":    {"bought = true\nseeds_per_cell = 2", `study.toml:11:1: seeds_per_cell beside bought = true, want one of them: plants that are bought are not sown`},
		"shared joint":     {"[[workflow]]\nname = \"b\"\ntasks = [ { step = \"water\", day = 1, count = \"once\", shared_by = 2 } ]", `study.toml:12:54: shared_by on a task of a step with together = true, want it left out: what falls on one day is shared already`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ReadStudy([]byte(place+c.text+"\n"), "study.toml")
			require.Error(t, err)
			assert.Equal(t, c.want, err.Error())
		})
	}
}
