package sheets

import (
	"strings"

	"headhours/timing/late"
)

// format is what a number format says of the number behind it.
type format int

const (
	plain   format = iota
	cents          // shown with two decimals
	share          // shown in percent
	date           // a date, or a date and a time
	daytime        // a time of day
	elapsed        // a duration
)

// built are the formats that files name by number alone, those that matter here
// (ISO/IEC 29500-1, 18.8.30).
var built = map[string]kind{
	"2": {format: cents}, "4": {format: cents}, "39": {format: cents}, "40": {format: cents},
	"9": {format: share}, "10": {format: share},
	"14": {format: date}, "15": {format: date}, "16": {format: date}, "17": {format: date}, "22": {format: date},
	"18": {daytime, true}, "20": {daytime, true},
	"19": {format: daytime}, "21": {format: daytime}, "45": {format: daytime}, "47": {format: daytime},
	"46": {format: elapsed},
}

var (
	literal  = late.Regexp(`"[^"]*"|\\.|[_*].`)
	lasting  = late.Regexp(`\[(h+|m+|s+)\]`)
	bracket  = late.Regexp(`\[[^\]]*\]`)
	decimals = late.Regexp(`\.00($|[^0#?])`)

	wholeMinutes = late.Regexp(`^\d+:\d\d:00$`)
)

// kind is what a cell with a number format holds.
type kind struct {
	format  format
	minutes bool // hours and minutes are shown, seconds are not
}

// kindOf reads the first section of a number format, that of numbers above 0
// (ISO/IEC 29500-1, 18.8.31).
func kindOf(code string) kind {
	code = literal().ReplaceAllString(code, "")
	code, _, _ = strings.Cut(strings.ToLower(code), ";")
	lasts := lasting().FindString(code)
	code = lasts + bracket().ReplaceAllString(code, "")
	hours, seconds := strings.Contains(code, "h"), strings.Contains(code, "s")
	switch {
	case code == "general":
		return kind{}
	case lasts != "":
		return kind{elapsed, hours && !seconds}
	case strings.ContainsAny(code, "yd"):
		return kind{format: date}
	case hours || seconds:
		return kind{daytime, hours && !seconds}
	case strings.Contains(code, "m"): // months, where nothing tells of a time
		return kind{format: date}
	case strings.Contains(code, "%"):
		return kind{format: share}
	case decimals().MatchString(code):
		return kind{format: cents}
	}
	return kind{}
}

// cell is the number x as its format says.
func (k kind) cell(x float64, from1904 bool) Cell {
	switch k.format {
	case cents:
		return Cell{Text: twoDecimals(x)}
	case share:
		return Cell{Text: percent(x)}
	case date:
		return Cell{Text: dateText(x, from1904)}
	case daytime, elapsed:
		text := timeText(x, k.format == elapsed, from1904)
		return Cell{Text: text, Minutes: k.minutes && wholeMinutes().MatchString(text)}
	}
	return Cell{Text: digits(x)}
}
