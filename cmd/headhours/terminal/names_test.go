package terminal

import (
	"bytes"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/study"
)

// Names are taken in any case and spacing; of an unknown one all that are near are named,
// else all there are.
func TestNamesThatAreNear(t *testing.T) {
	dir, h := t.TempDir(), newHand()
	c := Config{Dir: dir, Study: aStudy(), Names: all, Now: h.now}
	c.Study.Steps = append(c.Study.Steps, study.Step{Name: "wash trays and rafts"}, study.Step{Name: "carry trays"})
	var out bytes.Buffer
	err := Lines(c, &script{h, []string{"start  Top  UP", "start trays", "start nothing of it", "amend 1 step SOW", "workflow In Place"}}, &out)
	assert.EqualError(t, err, "2 lines were refused: see the answers that begin with no")
	for _, want := range []string{
		" start top up\n", `no step is named "trays": did you mean "wash trays and rafts" or "carry trays"`,
		`no step is named "nothing of it": there is "wash", "sow", "thin", "transplant", "top up", "harvest", "check pH", "sweep", "wash trays and rafts", "carry trays"`,
		"\ngrow g1, workflow in place, worker w1\n",
	} {
		assert.Contains(t, out.String(), want)
	}
	sessions, _ := readSessions(filepath.Join(dir, "journal"))
	assert.Equal(t, "sow", sessions[0].Readings[0].Step)
}
