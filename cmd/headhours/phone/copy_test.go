package phone

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/cues"
)

// What waits can be taken to the computer by hand, and comes to the same.
func copiedOut(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.tap("#copy")
	assert.Contains(t, p.text("#sheet"), "Nothing waits")
	p.press("Back")
	p.task("soak and fill trays")
	p.pass(minute)
	p.tap("#count")
	p.keys("3")
	p.task("sow")
	p.saved()
	s.down()
	p.pass(minute)
	p.tap("#pause")
	p.pass(minute)
	p.tap("#pause")
	p.pass(2 * second)
	p.tap("#count")
	p.keys("83")
	p.tap("#lot")
	p.pass(second)
	p.tap("#count")
	p.keys("2")
	p.run(`document.getElementById('others').open = true`)
	p.task("<i>check</i> pH")
	p.pass(1500 * time.Millisecond)
	p.tap("#count")
	p.keys("1")
	p.tap("#note")
	p.write("#sheet textarea", "5 < 6 --> & so on\nmore")
	p.press("Done")
	p.task("<i>check</i> pH")
	p.task("<i>check</i> pH")
	p.pass(second)
	p.tap("#count")
	p.keys("2")
	assert.Contains(t, p.text("#sheet .wrong"), "One reading is of 1 visit at most")
	p.press("⌫")
	p.keys("1")
	p.task("thin")
	p.pass(5 * second)
	p.tap("#stop")
	p.tap("#copy")
	p.press("Copy")
	text := eval[string](p, `document.querySelector('#sheet textarea').value`)
	p.picture("copy")
	study, err := s.desk.study()
	require.NoError(t, err)
	readings, err := cues.Read(strings.NewReader(text), "waiting.vtt", cues.Options{Speed: 1, Steps: study.StepNames(), Workflows: study.WorkflowNames()})
	require.NoError(t, err, text)
	assert.Contains(t, text, "NOTE thin from 08:13:05, 0:05: needs a count")
	s.up()
	p.saved()
	_, state := held(t, s.desk, s.journals()[0])
	want := state.Complete()[1:] // the first was there before
	require.Len(t, readings, 4, text)
	for i, r := range readings {
		w := want[i]
		assert.Equal(t, []any{w.Step, w.Seconds, w.Count, w.Setups, w.People, w.Worker, w.Grow, w.Workflow, w.Date, w.Void},
			[]any{r.Step, r.Seconds, r.Count, r.Setups, r.People, r.Worker, r.Grow, r.Workflow, r.Date, r.Void})
	}
	assert.Equal(t, "5 < 6 --> & so on more", readings[2].Note)
}
