package folder

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
