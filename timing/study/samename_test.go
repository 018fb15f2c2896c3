package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Names finds what SameName does.
func TestNames(t *testing.T) {
	known := []string{"G 3", "Bed 1", "bed 1", "BED 1", "x", "x", "Ä  1"}
	names := NamesOf(known)
	for name, want := range map[string]string{"G 3": "G 3", "g   3": "G 3", "bed 1": "bed 1", "bed  1": "", "Bed 1": "Bed 1", "x": "x", "X": "x", "ä 1": "Ä  1", "y": "", "": ""} {
		same, ok := names.Same(name)
		assert.Equal(t, want, same, name)
		assert.Equal(t, want != "", ok, name)
		plain, ok := SameName(name, []string{"G 3", "Bed 1", "bed 1", "BED 1", "x", "Ä  1"})
		assert.Equal(t, same, plain)
		assert.Equal(t, want != "", ok, name)
	}
	same, ok := (*Names)(nil).Same("g")
	assert.Equal(t, "g", same)
	assert.False(t, ok)
	assert.Equal(t, []string{"Bed 1", "bed 1", "BED 1"}, Alike("BED  1", known))
	assert.Equal(t, `no grow is named "BeD 1": it may be "Bed 1" or "bed 1", which differ in case or blanks alone`,
		UnknownName{Kind: "grow", Name: "BeD 1", Known: []string{"Bed 1", "bed 1"}}.Error())
}
