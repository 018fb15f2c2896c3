package terminal

import (
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/stretchr/testify/assert"
)

// Keys come by one name whatever way a terminal sends them.
func TestKeyOf(t *testing.T) {
	for _, c := range []struct {
		key  tea.Key
		want keystroke
	}{
		{tea.Key{Code: tea.KeySpace, Text: " "}, keystroke{"space", " "}},
		{tea.Key{Code: tea.KeyEnter}, keystroke{"enter", ""}},
		{tea.Key{Code: tea.KeyKpEnter}, keystroke{"enter", ""}},
		{tea.Key{Code: tea.KeyUp}, keystroke{"up", ""}},
		{tea.Key{Code: tea.KeyBackspace}, keystroke{"backspace", ""}},
		{tea.Key{Code: tea.KeyEscape}, keystroke{"esc", ""}},
		{tea.Key{Code: 'c', Mod: tea.ModCtrl}, keystroke{"ctrl+c", ""}},
		{tea.Key{Code: 'z', Mod: tea.ModCtrl}, keystroke{"ctrl+z", ""}},
		{tea.Key{Code: 'p', Text: "P", ShiftedCode: 'P', Mod: tea.ModShift}, keystroke{"P", "P"}},
		{tea.Key{Code: '7', Text: "7"}, keystroke{"7", "7"}},
		{tea.Key{Code: tea.KeyKp7}, keystroke{"7", "7"}},
		{tea.Key{Code: tea.KeyKp0, Text: "0"}, keystroke{"0", "0"}},
		{tea.Key{Code: tea.KeyKpPlus}, keystroke{"+", "+"}},
		{tea.Key{Code: tea.KeyKpMinus}, keystroke{"-", "-"}},
		{tea.Key{Code: tea.KeyKpDecimal}, keystroke{"period", "."}},
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

// A key has the time at which it came, however long the one before it takes; those that
// came are all done before the program ends.
func TestKeysAreStampedAsTheyCome(t *testing.T) {
	b := newBench(t, all)
	redrawn := 0
	b.redraw = func() { redrawn++ }
	end := b.work()
	b.mu.Lock() // as while the disk is slow
	_, first := b.Update(tea.KeyPressMsg{Code: tea.KeySpace, Text: " "})
	b.hand.run(5 * time.Second)
	b.Update(tea.KeyPressMsg{Code: tea.KeyEnter})
	b.hand.run(7 * time.Second)
	b.Update(tea.KeyPressMsg{Code: 'e', Text: "e"})
	b.hand.run(time.Minute)
	b.View() // does not wait
	assert.NotNil(t, b.nextTick())
	b.mu.Unlock()
	assert.Equal(t, doneMessage{}, first())
	end()
	assert.Equal(t, []string{"wash 5s of 1", "sow 7s"}, b.told())
	assert.Equal(t, 1, redrawn, "of wash there is a verdict")
	b.sees("sow (0:07): how many cells?")
}

// While the logs are read the screen works; what they say comes with a tick of the clock.
func TestScreenWhileLogsAreRead(t *testing.T) {
	h := newHand()
	p := newProgram(Config{Dir: t.TempDir(), Study: aStudy(), Logs: &late{logsOf(timed()), 9}, Names: all, Now: h.now})
	b := &bench{program: p, t: t, hand: h}
	b.keys("down", "space", "20", "e")
	b.hides("last: sow")
	b.sees("STOPPED")
	for range 4 {
		b.Update(tickMessage{})
	}
	b.sees("last: sow 0:03 for 20 cells; usually 2:10 (between 2:04 and 2:17)")
	assert.NoError(t, b.close())
}
