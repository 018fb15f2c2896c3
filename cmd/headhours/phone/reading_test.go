package phone

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
)

// A press is answered, and on the disk by then, while the logs are still being read and
// eight phones open the page.
func TestPressWhileReading(t *testing.T) {
	d := newDesk(t)
	require.NoError(t, os.Mkdir(filepath.Join(d.dir, "timings"), 0o755))
	writeRows(t, filepath.Join(d.dir, "timings", "a.csv"), 300_000)
	h := newHandler(d)
	const name = "2026-03-02T0810-w1-a3f9"
	events := session(name, slices.Concat([]stopwatch.Event{begin("w1")}, slices.Repeat([]stopwatch.Event{start("sow"), count(3)}, 100))...)
	require.False(t, d.usual.Latest(0).Ready)
	var phones sync.WaitGroup
	for range 8 {
		phones.Go(func() {
			for _, path := range []string{"/", "/study", "/days/2026-03-02"} {
				assert.Equal(t, http.StatusOK, serve(h, request("GET", path, "")).Code)
			}
		})
	}
	meanwhile := 0
	for i := range events {
		w := serve(h, request("POST", "/sessions/"+name, lines(t, events[i:i+1])))
		require.Equal(t, http.StatusOK, w.Code, w.Body.String())
		if !d.usual.Latest(0).Ready {
			meanwhile++
		} else if meanwhile == 0 && i%20 == 0 { // they were read before this press could begin: once more
			writeRows(t, filepath.Join(d.dir, "timings", fmt.Sprintf("again%d.csv", i)), 300_000)
		}
		written, err := os.ReadFile(filepath.Join(d.dir, "journal", name+".jsonl"))
		require.NoError(t, err)
		require.Equal(t, i+1, strings.Count(string(written), "\n"), fmt.Sprint(events[i].Kind))
	}
	phones.Wait()
	assert.Positive(t, meanwhile, "presses that were answered before the logs were read")
}
