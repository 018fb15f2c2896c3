package notation

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWrongDates(t *testing.T) {
	const pattern = "is not a date: YYYY-MM-DD, a day of the calendar"
	for text, want := range map[string]string{
		// a day above 12
		"13.04.2026":  "2026-04-13",
		"13. 4. 2026": "2026-04-13",
		"13/4/2026":   "2026-04-13",
		"4/13/2026":   "2026-04-13",
		"4/13/26":     "2026-04-13", // no month 13, no day 26 of a month 13
		"31-12-2026":  "2026-12-31",
		"5.5.2026":    "2026-05-05", // the same day in either order
		// the year in front
		"2026/04/03": "2026-04-03",
		"2026.4.3":   "2026-04-03",
		"2026-4-3":   "2026-04-03",
		// a month's name
		"3 Apr 2026":      "2026-04-03",
		"03-Apr-26":       "2026-04-03",
		"3. April 2026":   "2026-04-03",
		"Apr 3, 2026":     "2026-04-03",
		"april 3rd, 2026": "2026-04-03",
		"Sept 30 2026":    "2026-09-30",
		// with a time of day
		"2026-03-02T09:05":       "2026-03-02",
		"2026-03-02 00:00:00":    "2026-03-02",
		"13.04.2026 9:05":        "2026-04-13",
		"2026-03-02T09:05:00.5Z": "2026-03-02",
		// two days, or none
		"03.04.2026":             "2026-04-03", // with points, day first
		"3.4.26":                 "2026-04-03",
		"4.13.26":                "2026-04-13", // no month 13
		"4/3/26":                 "2026-03-04 or 2026-04-03",
		"4/3/2026":               "2026-03-04 or 2026-04-03",
		"13.04.26":               "2026-04-13",
		"26/04/13":               "2013-04-26 or 2026-04-13",
		"2026-13-04":             "",
		"2026-02-30":             "",
		"2027-02-29":             "",
		"31.02.2026":             "",
		"31 Jun 2026":            "",
		"0001-01-01":             "",
		"0.0.0":                  "",
		"13.04":                  "",
		"13/04-2026":             "",
		"3 A 2026":               "",
		"3 Aprils 2026":          "",
		"3 Apr 202":              "",
		"Apr 2026":               "",
		"46083":                  "",
		"20260403":               "",
		"yesterday":              "",
		"":                       "",
		strings.Repeat("1", 500): "",
	} {
		if want == "" {
			assert.Equal(t, pattern, WrongDate(text), text)
			continue
		}
		assert.Equal(t, "is not a date of the form YYYY-MM-DD: write "+want, WrongDate(text), text)
	}
}
