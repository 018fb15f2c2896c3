package terminal

import (
	"testing"

	tea "charm.land/bubbletea/v2"
	"github.com/stretchr/testify/assert"
)

// Keys come by one name whatever way a terminal sends them.
func TestKeyOf(t *testing.T) {
	for _, c := range []struct {
		key  tea.Key
		want Key
	}{
		{tea.Key{Code: tea.KeySpace, Text: " "}, Key{"space", " "}},
		{tea.Key{Code: tea.KeyEnter}, Key{"enter", ""}},
		{tea.Key{Code: tea.KeyKpEnter}, Key{"enter", ""}},
		{tea.Key{Code: tea.KeyUp}, Key{"up", ""}},
		{tea.Key{Code: tea.KeyBackspace}, Key{"backspace", ""}},
		{tea.Key{Code: tea.KeyEscape}, Key{"esc", ""}},
		{tea.Key{Code: 'c', Mod: tea.ModCtrl}, Key{"ctrl+c", ""}},
		{tea.Key{Code: 'z', Mod: tea.ModCtrl}, Key{"ctrl+z", ""}},
		{tea.Key{Code: 'p', Text: "P", ShiftedCode: 'P', Mod: tea.ModShift}, Key{"P", "P"}},
		{tea.Key{Code: '7', Text: "7"}, Key{"7", "7"}},
		{tea.Key{Code: tea.KeyKp7}, Key{"7", "7"}},
		{tea.Key{Code: tea.KeyKp0, Text: "0"}, Key{"0", "0"}},
		{tea.Key{Code: tea.KeyKpPlus}, Key{"+", "+"}},
		{tea.Key{Code: tea.KeyKpMinus}, Key{"-", "-"}},
		{tea.Key{Code: tea.KeyKpDecimal}, Key{"period", "."}},
	} {
		assert.Equal(t, c.want, keyOf(c.key))
	}
}

// Text that is pasted is a note's, and no keys; windows that are resized are
// followed.
func TestMessages(t *testing.T) {
	b := newBench(t, all)
	b.Update(tea.PasteMsg{Content: "q"})
	b.Update(tea.KeyPressMsg{Code: tea.KeySpace, Text: " "})
	b.Update(tea.KeyPressMsg{Code: 'n', Text: "n"})
	b.Update(tea.PasteMsg{Content: "wet\ntrays\x1b[2J"})
	_, cmd := b.Update(tea.KeyPressMsg{Code: tea.KeyEnter})
	assert.Nil(t, cmd)
	assert.Equal(t, []string{"wash runs of 1 note wet trays[2J"}, b.told())
	b.Update(tea.WindowSizeMsg{Width: 33, Height: 9})
	assert.Equal(t, [2]int{33, 9}, [2]int{b.width, b.height})
	view := b.View()
	assert.True(t, view.AltScreen)
	_, cmd = b.Update(tea.KeyPressMsg{Code: 'c', Mod: tea.ModCtrl})
	assert.Equal(t, tea.QuitMsg{}, cmd())
}
