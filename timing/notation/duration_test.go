package notation

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Cases of ISO 8601 durations; the file says where each was read.
func TestISO8601(t *testing.T) {
	data, err := os.ReadFile("testdata/iso8601_durations.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			Text    string
			Seconds *float64 // nil: refused
		}
	}
	require.NoError(t, json.Unmarshal(data, &file))
	require.NotEmpty(t, file.Cases)
	for _, c := range file.Cases {
		seconds, doubtful, err := Duration(c.Text, false)
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

func TestDuration(t *testing.T) {
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
		// ISO 8601 durations, beside the cases of the file
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
			seconds, doubtful, err := Duration(c.text, comma)
			if want == refused {
				assert.EqualError(t, err, wrongTime(c.text, comma).Error())
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

func TestDurationTooLarge(t *testing.T) {
	digits := strings.Repeat("9", 400)
	for _, text := range []string{
		digits, digits + "." + digits, digits + ":00", digits + "h", "PT" + digits + "S",
		digits[:308] + ":00", digits[:308] + "h", // finite numbers of minutes and hours, not of seconds
	} {
		seconds, _, err := Duration(text, false)
		assert.ErrorIs(t, err, errLarge)
		assert.Zero(t, seconds)
		assert.Less(t, len(err.Error()), 200)
	}
	seconds, _, err := Duration(digits[:308], false)
	assert.NoError(t, err)
	assert.InEpsilon(t, 1e308, seconds, 1e-12)
}

func TestWrongTimes(t *testing.T) {
	const (
		blanks = "is not a time: write it without blanks: "
		other  = "is not a time: write "
	)
	all := ErrTime.Error()
	for _, c := range []struct{ text, point, comma string }{
		{"12 min", blanks + "12min", blanks + "12min"},
		{"12\u00a0min", blanks + "12min", blanks + "12min"}, // a blank that does not break
		{"5,5 min", blanks + "5.5min", blanks + "5,5min"},
		{"3 m 7 s", blanks + "3m7s", blanks + "3m7s"},
		{"1 h 3 min 7 sec.", blanks + "1h3min7s", blanks + "1h3min7s"},
		{"12 minutes", blanks + "12min", blanks + "12min"},
		{"2Hrs", other + "2h", other + "2h"},
		{"90secs", other + "90s", other + "90s"},
		{"1 hour 3 minutes", blanks + "1h3min", blanks + "1h3min"},
		{"3: 07", blanks + "3:07", blanks + "3:07"},
		// in doubt, or none at all
		{"3 07", all, all},
		{"1 234", all, all},
		{"3 min 7", all, all},
		{"7 s 3 m", all, all},
		{"1,234.5 s", all, all},
		{"1,234 s", all, blanks + "1,234s"},
		{"187,4s,", all, all},
		{"-3 min", all, all},
		{"about 3 min", all, all},
		{"minutes", all, all},
		{"3mn", all, all},
	} {
		assert.EqualError(t, wrongTime(c.text, false), c.point, c.text)
		assert.EqualError(t, wrongTime(c.text, true), c.comma, c.text)
	}
}
