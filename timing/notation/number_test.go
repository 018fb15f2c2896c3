package notation

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"40": 40, "12.5": 12.5, "0": 0, "00012": 12, ".5": 0.5, "5.": 5,
		"0." + strings.Repeat("0", 400) + "1": 0, // too small for a float64
		"1" + strings.Repeat("0", 308):        1e308,
	} {
		got, err := Number(text, false)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", ".", "..", "1.2.3", "1o", "--3", "-", "-x", "+3", "1e3", "1E400", "NaN", "Inf", "0x1p4", "1_000", "1 000", "1,5", "1,000", "%", "%95", "95%%", "x%", "二",
	} {
		_, err := Number(text, false)
		assert.ErrorIs(t, err, errNumber, text)
	}
	got, err := Number("12,5", true)
	assert.NoError(t, err)
	assert.Equal(t, 12.5, got)
	for _, text := range []string{"1.234,5", "1,234.5", "1,2,3", ","} {
		_, err := Number(text, true)
		assert.ErrorIs(t, err, errNumberComma, text)
	}
	for _, text := range []string{"-3", "-.5", "−3,5"} {
		_, err := Number(text, true)
		assert.ErrorIs(t, err, errNegative, text)
	}
	for text, want := range map[string]string{"90%": "90", "87.5 %": "87.5", "87,5%": "87,5"} {
		_, err := Number(text, true)
		assert.EqualError(t, err, "is not a number: write "+want+", without the sign", text)
	}
	_, err = Number(strings.Repeat("9", 400), false)
	assert.ErrorIs(t, err, errLarge)
}
