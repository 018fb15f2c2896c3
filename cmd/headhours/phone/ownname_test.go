package phone

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/folder"
)

// ownName is what this computer is called, which is not loopback.
func ownName(t *testing.T) string {
	t.Helper()
	name, err := os.Hostname()
	require.NoError(t, err)
	name, _, _ = strings.Cut(name, ".")
	return name
}

// The study that init starts, under the computer's own name, on a phone as it comes: its own
// clocks go on, and its touches are the browser's.
func underOwnName(t *testing.T, phones *shelf) {
	dir := t.TempDir()
	src, err := os.ReadFile(filepath.Join("..", "starter", "study.toml"))
	require.NoError(t, err)
	put(t, filepath.Join(dir, "study.toml"), string(src))
	serving := serveIn(t, Options{Dir: dir})
	tab, closeTab := chromedp.NewContext(phones.browser)
	t.Cleanup(closeTab)

	until := func(expression string) {
		t.Helper()
		require.Eventually(t, func() bool {
			ok, err := chromedp.Run(tab, chromedp.Evaluate[bool]("(() => { try { return Boolean("+expression+") } catch { return false } })()"))
			return err == nil && ok
		}, 20*time.Second, 10*time.Millisecond, expression)
	}
	tap := func(selector string) {
		t.Helper()
		require.NoError(t, chromedp.Do(tab, chromedp.Tap(chromedp.CSS(selector))))
	}
	address := strings.Replace(serving.url, "localhost", ownName(t), 1) + "#" + serving.code
	require.NoError(t, chromedp.Do(tab, chromedp.EmulateViewport(390, 844, chromedp.EmulateMobile, chromedp.EmulateTouch), chromedp.Navigate(address)))
	until(`document.getElementById('sheet').open`)
	tap("#sheet .main")
	until(`!document.getElementById('sheet').open && link === 'here'`)
	tap(".task")
	step, err := chromedp.Run(tab, chromedp.Text(chromedp.CSS(".task span")))
	require.NoError(t, err)
	until(`document.getElementById('clock').textContent === '0:01'`)
	tap("#more")
	until(`target().count === 1`)
	tap("#stop")
	until(`!running() && !waiting().length`)
	require.NoError(t, serving.end())

	opened, err := folder.Open(dir, nil, folder.How{})
	require.NoError(t, err)
	fits, err := answer.NewModels(opened.Readings, answer.Options{}).Fits(nil)
	require.NoError(t, err)
	for _, f := range fits.Steps {
		if f.Step == step {
			assert.Equal(t, 1, f.Readings)
			assert.Greater(t, f.Setup.Value+f.Unit.Value, 1.0)
			assert.Less(t, f.Setup.Value+f.Unit.Value, 60.0)
			return
		}
	}
	assert.Fail(t, "no such step", "%q in %v", step, fits.Steps)
}
