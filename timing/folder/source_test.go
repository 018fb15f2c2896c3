package folder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Columns count letters, as an editor does, in lines of any length.
func TestColumnsCountLetters(t *testing.T) {
	for _, before := range []string{"", "ü", "a€", strings.Repeat("ü", 511) + "a€", strings.Repeat("a", 1023) + "ü", strings.Repeat("öä€a", 2000), "\U0001f96c" + strings.Repeat("a", 3000)} {
		s := newSource([]byte("grüße\n"+before+"x"), "study.toml")
		at := s.place(len("grüße\n" + before))
		assert.Equal(t, 2, at.Line)
		assert.Equal(t, len([]rune(before))+1, at.Column)
		assert.Equal(t, len([]rune(before))+2, s.place(len("grüße\n"+before+"x")).Column)
	}
}
