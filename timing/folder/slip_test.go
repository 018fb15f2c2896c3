package folder

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is no TOML is told with what was probably meant.
func TestSlips(t *testing.T) {
	for line, hint := range map[string]string{
		"name = sow":         `: text stands in quotes, name = "sow"`,
		"days = 3, 6, 9":     ": a list stands in brackets, [3, 6, 9]",
		`name: "sow"`:        `: a key and its value are joined by =, name = "sow"`,
		"each = 0,85":        ": decimals take a point, 0.85",
		"name = “sow”":       `: text stands in straight quotes, "like this"`,
		"germination = 85 %": ": a share is written 0.85, without a percent sign",
		"name = ":            "",
		`name = "sow`:        "",
	} {
		_, err := ReadStudy([]byte("[[step]]\n"+line+"\n"), "study.toml")
		assert.ErrorContains(t, err, "study.toml:2:", line)
		assert.ErrorContains(t, err, "cannot be read: ", line)
		assert.Equal(t, hint, slipHint([]byte(line+"\n")), line)
		assert.ErrorContains(t, err, hint, line)
	}
}

// Two names that a hasty writer takes for one are warned of.
func TestNamesAlike(t *testing.T) {
	d := decode([]byte("[[step]]\nname = \"Sow\"\n[[step]]\nname = \"SOW \"\n[[step]]\nname = \"sow it\"\n"), "study.toml")
	assert.Empty(t, d.problems)
	require.Len(t, d.warnings, 1)
	assert.EqualError(t, d.warnings[0], `study.toml:4:8: name: "SOW" is "Sow" on line 2 but for case or blanks: logs and commands must then write each exactly so`)
}
