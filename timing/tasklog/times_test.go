package tasklog

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/words"
)

// formats are cases of RFC 4180, section 2, and of ISO 8601 durations; the file
// says where each was read.
type formats struct {
	RFC4180 struct {
		Cases []struct {
			Rule, Text string
			Records    [][]string // nil: refused
		}
	}
	Durations struct {
		Cases []struct {
			Text    string
			Seconds *float64 // nil: refused
		}
	} `json:"iso8601_duration"`
}

func readFormats(t *testing.T) formats {
	t.Helper()
	data, err := os.ReadFile("testdata/formats.json")
	require.NoError(t, err)
	var f formats
	require.NoError(t, json.Unmarshal(data, &f))
	require.NotEmpty(t, f.RFC4180.Cases)
	require.NotEmpty(t, f.Durations.Cases)
	return f
}

func TestDurations(t *testing.T) {
	for _, c := range readFormats(t).Durations.Cases {
		seconds, doubtful, err := ParseTime(c.Text, false)
		switch {
		case c.Text == "3M7S": // refused as a duration, but a log's own form with letters
			assert.NoError(t, err)
			assert.Equal(t, 187.0, seconds)
		case c.Seconds == nil:
			assert.Error(t, err, c.Text)
		default:
			assert.NoError(t, err, c.Text)
			assert.Equal(t, *c.Seconds, seconds, c.Text)
		}
		assert.False(t, doubtful, c.Text)
	}
}

func TestParseTime(t *testing.T) {
	const refused = -1
	for _, c := range []struct {
		text         string
		point, comma float64 // where only a point is a decimal mark, and where a comma is one too
		doubtful     bool
	}{
		// seconds
		{"187", 187, 187, false},
		{"187.4", 187.4, 187.4, false},
		{"187,4", refused, 187.4, false},
		{"0", 0, 0, false},
		{"007", 7, 7, false},
		{".5", 0.5, 0.5, false},
		{"5.", 5, 5, false},
		{",5", refused, 0.5, false},
		// exactly two decimals and below ten
		{"1.30", 1.3, 1.3, true},
		{"1,30", refused, 1.3, true},
		{"9.99", 9.99, 9.99, true},
		{"0.00", 0, 0, true},
		{".45", 0.45, 0.45, true},
		{"01.30", 1.3, 1.3, true},
		{"10.00", 10, 10, false},
		{"1.3", 1.3, 1.3, false},
		{"1.300", 1.3, 1.3, false},
		{"05", 5, 5, false},
		{"0:07.25", 7.25, 7.25, false},
		{"1.30min", 78, 78, false},
		{"1.30s", 1.3, 1.3, false},
		{"PT1.30S", 1.3, 1.3, false},
		// m:ss and h:mm:ss
		{"3:07", 187, 187, false},
		{"0:00", 0, 0, false},
		{"03:07", 187, 187, false},
		{"187:07", 11227, 11227, false},
		{"1:03:07", 3787, 3787, false},
		{"100:00:00", 360000, 360000, false},
		{"3:07.25", 187.25, 187.25, false},
		{"1:03:07.5", 3787.5, 3787.5, false},
		{"3:07,25", refused, 187.25, false},
		{"0:59", 59, 59, false},
		{"0:60", refused, refused, false},
		{"1:60:00", refused, refused, false},
		{"1:00:60", refused, refused, false},
		{"3:7", refused, refused, false},
		{"3:007", refused, refused, false},
		{"1:3:07", refused, refused, false},
		{"1:03:7", refused, refused, false},
		{"1.5:07", refused, refused, false},
		{"1:03.5:07", refused, refused, false},
		{":07", refused, refused, false},
		{"3:", refused, refused, false},
		{":", refused, refused, false},
		{"1:02:03:04", refused, refused, false},
		{"-3:07", refused, refused, false},
		{"3:-7", refused, refused, false},
		{"3: 07", refused, refused, false},
		// letters
		{"3m7s", 187, 187, false},
		{"3min7s", 187, 187, false},
		{"3M7S", 187, 187, false},
		{"3Min", 180, 180, false},
		{"3.5min", 210, 210, false},
		{"3,5min", refused, 210, false},
		{"3.5m", 210, 210, false},
		{"1h", 3600, 3600, false},
		{"1h3m7s", 3787, 3787, false},
		{"1h7s", 3607, 3607, false},
		{"1.5H", 5400, 5400, false},
		{"187s", 187, 187, false},
		{"7.25s", 7.25, 7.25, false},
		{"90m90s", 5490, 5490, false},
		{"0s", 0, 0, false},
		{"1.5h3m", refused, refused, false},
		{"3.m7s", refused, refused, false},
		{"3m7", refused, refused, false},
		{"7s3m", refused, refused, false},
		{"3m3m", refused, refused, false},
		{"3m3min", refused, refused, false},
		{"3 m", refused, refused, false},
		{"3m 7s", refused, refused, false},
		{"m", refused, refused, false},
		{"min", refused, refused, false},
		{"3mn", refused, refused, false},
		{"3mins", refused, refused, false},
		{"3sec", refused, refused, false},
		{"3h2", refused, refused, false},
		{"1d", refused, refused, false},
		{"7ſ", refused, refused, false}, // a long s, which folds to s
		{"1..5m", refused, refused, false},
		{"3:07s", refused, refused, false},
		{"3:07min", refused, refused, false},
		// ISO 8601 durations, beside the cases of formats.json
		{"PT3,5M", refused, 210, false},
		{"PT1H7S", 3607, 3607, false},
		{"PT1.5H3M", refused, refused, false},
		{"pt3m7s", refused, refused, false},
		{"PT3MIN", refused, refused, false},
		{"PT3M7", refused, refused, false},
		{"P1DT3M", refused, refused, false},
		{"-PT3M", refused, refused, false},
		{"PT-3M", refused, refused, false},
		{"PT0S", 0, 0, false},
		// neither
		{"", refused, refused, false},
		{" 3", refused, refused, false},
		{".", refused, refused, false},
		{"-3", refused, refused, false},
		{"+3", refused, refused, false},
		{"1e2", refused, refused, false},
		{"0x10", refused, refused, false},
		{"1_000", refused, refused, false},
		{"1.234,5", refused, refused, false},
		{"1,234.5", refused, refused, false},
		{"1 234", refused, refused, false},
		{"1'234", refused, refused, false},
		{"NaN", refused, refused, false},
		{"Inf", refused, refused, false},
		{"infinity", refused, refused, false},
		{"three", refused, refused, false},
		{"٣", refused, refused, false}, // a digit, but none of ours
		{"½", refused, refused, false},
	} {
		for comma, want := range map[bool]float64{false: c.point, true: c.comma} {
			seconds, doubtful, err := ParseTime(c.text, comma)
			if want == refused {
				assert.EqualError(t, err, words.Quote(c.text)+" "+wrongTime(c.text, comma).Error())
				assert.Zero(t, seconds, c.text)
				assert.False(t, doubtful, c.text)
				continue
			}
			assert.NoError(t, err)
			assert.InDelta(t, want, seconds, 1e-12, c.text)
			assert.Equal(t, c.doubtful, doubtful, c.text)
		}
	}
}

func TestParseTimeTooLarge(t *testing.T) {
	digits := strings.Repeat("9", 400)
	for _, text := range []string{
		digits, digits + "." + digits, digits + ":00", digits + "h", "PT" + digits + "S",
		digits[:308] + ":00", digits[:308] + "h", // finite numbers of minutes and hours, not of seconds
	} {
		seconds, _, err := ParseTime(text, false)
		assert.ErrorIs(t, err, errLarge)
		assert.Zero(t, seconds)
		assert.Less(t, len(err.Error()), 200)
	}
	seconds, _, err := ParseTime(digits[:308], false)
	assert.NoError(t, err)
	assert.InEpsilon(t, 1e308, seconds, 1e-12)
}

func TestParseClock(t *testing.T) {
	const refused = -1
	for _, c := range []struct {
		text         string
		point, comma float64
	}{
		{"0:00", 0, 0},
		{"9:05", 32700, 32700},
		{"09:05", 32700, 32700},
		{"9:05:07", 32707, 32707},
		{"9:05:07.25", 32707.25, 32707.25},
		{"9:05:07,25", refused, 32707.25},
		{"23:59:59", 86399, 86399},
		{"23:59:59.999", 86399.999, 86399.999},
		{"23:59:59.99999999999999", refused, refused}, // is 24:00 to a float64
		{"24:00", refused, refused},
		{"25:00", refused, refused},
		{"009:05", refused, refused},
		{"9:5", refused, refused},
		{"9:60", refused, refused},
		{"9:05:60", refused, refused},
		{"9:05.5", refused, refused},
		{"9.05", refused, refused},
		{"905", refused, refused},
		{"9h05", refused, refused},
		{"9:05 am", refused, refused},
		{"9:05pm", refused, refused},
		{"-9:05", refused, refused},
		{"9", refused, refused},
		{"", refused, refused},
		{":", refused, refused},
		{"1:02:03:04", refused, refused},
		{"T09:05", refused, refused},
		{"09:05Z", refused, refused},
	} {
		for comma, want := range map[bool]float64{false: c.point, true: c.comma} {
			seconds, err := parseClock(c.text, comma)
			if want == refused {
				assert.ErrorIs(t, err, errClock, c.text)
				continue
			}
			assert.NoError(t, err, c.text)
			assert.Equal(t, want, seconds, c.text)
		}
	}
}

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"40": 40, "12.5": 12.5, "0": 0, "00012": 12, ".5": 0.5, "5.": 5,
		"0." + strings.Repeat("0", 400) + "1": 0, // too small for a float64
		"1" + strings.Repeat("0", 308):        1e308,
	} {
		got, err := parseNumber(text, false)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", ".", "..", "1.2.3", "1o", "-3", "+3", "1e3", "1E400", "NaN", "Inf", "0x1p4", "1_000", "1 000", "1,5", "1,000", "%", "95%", "二",
	} {
		_, err := parseNumber(text, false)
		assert.ErrorIs(t, err, errNumber, text)
	}
	got, err := parseNumber("12,5", true)
	assert.NoError(t, err)
	assert.Equal(t, 12.5, got)
	for _, text := range []string{"1.234,5", "1,234.5", "1,2,3", ","} {
		_, err := parseNumber(text, true)
		assert.ErrorIs(t, err, errNumberComma, text)
	}
	_, err = parseNumber(strings.Repeat("9", 400), false)
	assert.ErrorIs(t, err, errLarge)
}
