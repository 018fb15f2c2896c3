package folder

import (
	"slices"
	"strings"

	"golang.org/x/text/currency"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// head reads [study].
func (d *decoder) head(f field) {
	s := &d.study
	d.oneTable(f, "[study]", keys{
		{"name", optional, oneLine(&s.Name)},
		{"currency", optional, isoCurrency(&s.Currency)},
		{"heads", optional, whole(&s.Heads, above(0))},
		{"allowance", optional, number(&s.Allowance, atLeast(0), atMost(1))},
		{"confidence", optional, number(&s.Confidence, above(0), below(1))},
		{"sow_every_days", optional, whole(&s.SowEveryDays, above(0))},
	})
}

// newCurrencies are in ISO 4217 but not yet in x/text's tables, which come from
// an older CLDR; from memory.
var newCurrencies = []string{"MRU", "SLE", "UYW", "VED", "VES", "XCG", "ZWG"}

// isoCurrency reads a currency code of ISO 4217.
func isoCurrency(to *string) keyReader {
	return func(d *decoder, f field) {
		code := f.value.text
		_, err := currency.ParseISO(code)
		ok := err == nil || slices.Contains(newCurrencies, code)
		if f.value.kind != aText || !ok || code != strings.ToUpper(code) {
			d.want(f, `a currency code of three capital letters (ISO 4217), such as "EUR"`)
			return
		}
		*to = code
	}
}

// crop reads [crop].
func (d *decoder) crop(f field) {
	d.oneTable(f, "[crop]", keys{{"germination", optional, germination(&d.study.Germination)}})
}

// believed is the least share of seeds that is believed to come up, one in a
// million: a smaller one would ask for more cells than there are numbers for.
const believed = 1e-6

// germination reads a share of seeds that come up, or the test that gave it.
func germination(to *crop.Germination) keyReader {
	return func(d *decoder, f field) {
		switch x, isNumber := f.value.decimal(); {
		case f.value.kind == aTable:
			d.germinationTest(f.value, to)
		case isNumber && x > 0 && x < believed:
			d.want(f, "a share of 0.000001 or more")
		case isNumber:
			number(&to.Share, above(0), atMost(1))(d, f)
		default:
			d.want(f, "a share above 0 and up to 1, or { came_up = …, of = … }")
		}
	}
}

func (d *decoder) germinationTest(n *node, to *crop.Germination) {
	var cameUp, of *int
	d.table(n, "germination", keys{
		{"came_up", needed, wholeOrNil(&cameUp, above(0))},
		{"of", needed, wholeOrNil(&of, above(0))},
	})
	if cameUp == nil || of == nil {
		return
	}
	d.atMostOf(n, "came_up", study.Known(float64(*cameUp)), "of", study.Known(float64(*of)))
	*to = crop.Germination{Share: float64(*cameUp) / float64(*of), CameUp: *cameUp, Of: *of}
}
