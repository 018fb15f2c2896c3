package sheets

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Serial numbers of ISO/IEC 29500-1, 18.17.4.1: in the system of 1900 the day 1 is
// 1 January 1900, 60 the 29 February that it never had, 2958465 the last of 9999;
// in that of 1904 the day 0 is 1 January 1904.
func TestDateText(t *testing.T) {
	for _, c := range []struct {
		days     float64
		from1904 bool
		want     string
	}{
		{1, false, "1900-01-01"},
		{59, false, "1900-02-28"},
		{60, false, "1900-02-29"},
		{61, false, "1900-03-01"},
		{2958465, false, "9999-12-31"},
		{46083, false, "2026-03-02"},
		{46083 - 1462, true, "2026-03-02"},
		{0, true, "1904-01-01"},
		{46083 + 545.0/1440, false, "2026-03-02T09:05:00"},
		{46083.5 + 0.5e-6/86400, false, "2026-03-02T12:00:00.000001"},
		{46083 - 1e-12, false, "2026-03-02"},
		{-1, false, "-1"},
		{2958466, false, "2958466"},
		{1e300, true, digits(1e300)},
	} {
		assert.Equal(t, c.want, dateText(c.days, c.from1904), c)
	}
	// Every day of two centuries, by the calendar of package time.
	day := time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)
	for n := 61; n < 73050; n++ {
		require.Equal(t, day.Format(time.DateOnly), dateText(float64(n), false))
		if n >= 1462 {
			require.Equal(t, day.Format(time.DateOnly), dateText(float64(n-1462), true))
		}
		day = day.AddDate(0, 0, 1)
	}
}

func TestTimeText(t *testing.T) {
	for _, c := range []struct {
		days    float64
		elapsed bool
		want    string
	}{
		{187.0 / 86400, true, "0:03:07"},
		{187.4 / 86400, false, "0:03:07.4"},
		{0.000001 / 86400, true, "0:00:00.000001"},
		{0, false, "0:00:00"},
		{25.5 / 24, true, "25:30:00"},
		{25.5 / 24, false, "1900-01-01T01:30:00"}, // only its time of day is shown
		{-187.0 / 86400, true, "-0:03:07"},
		{46083.5, true, "2026-03-02T12:00:00"}, // a date that is shown without its day
		{365, true, "8760:00:00"},
		{-1e300, true, digits(-1e300)},
	} {
		assert.Equal(t, c.want, timeText(c.days, c.elapsed, false), c)
	}
	// Every second of a day, as the fraction of a day that a spreadsheet keeps.
	for s := range 86400 {
		require.Equal(t, clock(int64(s)*1e6), timeText(float64(s)/86400, true, false))
	}
}

func TestIsoDate(t *testing.T) {
	for text, want := range map[string]string{
		"2026-03-02":                    "2026-03-02",
		"2026-03-02T00:00:00":           "2026-03-02",
		"2026-03-02T00:00:00.000000000": "2026-03-02",
		"2026-03-02T00:00Z":             "2026-03-02",
		"2026-03-02T09:05:00":           "2026-03-02T09:05:00",
		"2026-03-02T00:00:00.5":         "2026-03-02T00:00:00.5",
		"yesterday":                     "yesterday",
	} {
		assert.Equal(t, want, isoDate(text))
	}
}

func TestKindOf(t *testing.T) {
	for code, want := range map[string]kind{
		"": {}, "General": {}, "@": {}, "0": {}, "#,##0": {}, "0.0": {}, "0.000": {}, "0.00E+00": {format: cents},
		`0 "seconds"`: {}, `0\s`: {}, `_-* #,##0_-`: {}, "[Red]0": {}, "[>100]0;[Blue]0": {},
		"0.00": {format: cents}, "#,##0.00": {format: cents}, `0.00" EUR"`: {format: cents}, "0.00;[Red]-0.00": {format: cents},
		"0.00 [$€-407]": {format: cents}, "0.00?": {}, "0.00#": {},
		"0%": {format: share}, "0.00%": {format: share},
		"yyyy-mm-dd": {format: date}, "dd/mm/yyyy hh:mm": {format: date}, `[$-409]d\-mmm\-yy;@`: {format: date}, "mmmm": {format: date},
		"DD.MM.YYYY": {format: date}, `d" of "mmm`: {format: date},
		"h:mm": {daytime, true}, "hh:mm AM/PM": {daytime, true}, `h "h" mm`: {daytime, true},
		"h:mm:ss": {format: daytime}, "mm:ss": {format: daytime}, "mm:ss.0": {format: daytime}, "[$-F400]h:mm:ss\\ AM/PM": {format: daytime},
		"[h]:mm:ss": {format: elapsed}, "[HH]:MM:SS": {format: elapsed}, "[h]:mm": {elapsed, true}, "[mm]:ss": {format: elapsed}, "[s]": {format: elapsed},
		"[Red][h]:mm:ss": {format: elapsed}, "[m]": {format: elapsed},
	} {
		assert.Equal(t, want, kindOf(code), code)
	}
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		code string
		x    float64
		want string
	}{
		{"General", 24, "24"}, {"General", 187.4, "187.4"}, {"General", -3, "-3"}, {"General", 1e21, "1000000000000000000000"},
		{"General", 1e-7, "0.0000001"}, {"0.00", 1.3, "1.30"}, {"0.00", 1.25, "1.25"}, {"0.00", 24, "24.00"}, {"0.00", 1.3456, "1.3456"},
		{"0%", 0.95, "95%"}, {"0%", 0.07, "7%"}, {"0.0%", 1.125, "112.5%"},
	} {
		assert.Equal(t, c.want, kindOf(c.code).cell(c.x, false).Text, c)
	}
}

func TestMinutes(t *testing.T) {
	const minute = 1.0 / 1440
	for _, c := range []struct {
		code string
		x    float64
		want bool
	}{
		{"h:mm", 187 * minute, true}, {"[h]:mm", 1530 * minute, true}, {"h:mm", 187.2 * minute, false},
		{"h:mm:ss", 187 * minute, false}, {"mm:ss", 3 * minute, false}, {"h:mm", 46083.5, false}, {"h:mm", -minute, false},
	} {
		assert.Equal(t, c.want, kindOf(c.code).cell(c.x, false).Minutes, c)
	}
}
