package phone

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

func serverAway(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.saved()
	s.down()
	p.pass(minute)
	p.task("thin")
	p.pass(minute)
	p.tap("#stop")
	p.until(`document.getElementById('saved').textContent === 'Waiting: 2'`)
	assert.Contains(t, p.text("#trouble"), "keep this page open")
	assert.Contains(t, p.text("#readings"), "thin")
	assert.True(t, eval[bool](p, `(() => { const e = new Event('beforeunload', {cancelable: true}); return !dispatchEvent(e) })()`), "a warning before it is closed")
	p.picture("waiting")
	assert.Equal(t, []string{"sow 0s"}, s.readings())
	s.up()
	p.saved()
	assert.Equal(t, []string{"sow 60s", "thin 60s"}, s.readings())
	assert.True(t, eval[bool](p, `dispatchEvent(new Event('beforeunload', {cancelable: true}))`))
	assert.Equal(t, "none", eval[string](p, `getComputedStyle(document.getElementById('trouble')).display`))
}

// offlineParams are network.EmulateNetworkConditionsByRuleParams with what browsers before those wanted
// beside the rules, and others pass over.
type offlineParams struct {
	Offline                  bool                  `json:"offline"`
	MatchedNetworkConditions []*network.Conditions `json:"matchedNetworkConditions"`
}

var offlineByRule = cdp.Command[offlineParams, network.EmulateNetworkConditionsByRuleResult]{Method: network.CommandEmulateNetworkConditionsByRule}

func networkAway(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.listen()
	p.open(s, "w1")
	cut := func(off bool) {
		conditions := &network.Conditions{Offline: off, DownloadThroughput: -1, UploadThroughput: -1}
		call(p, offlineByRule, offlineParams{Offline: off, MatchedNetworkConditions: []*network.Conditions{conditions}})
	}
	cut(true)
	for range 5 {
		p.task("sow")
		p.pass(10 * second)
		p.task("thin")
		p.pass(10 * second)
	}
	p.until(`document.getElementById('saved').textContent === 'Waiting: 11'`)
	assert.Empty(t, s.journals())
	cut(false)
	p.saved()
	assert.Len(t, s.readings(), 10)
}

func pressedMeanwhile(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.run(`
		const own = fetch, hold = new Promise(go => { self.letGo = go; });
		self.fetch = async (url, options) => { if (url.startsWith('/days')) await hold; return own(url, options); };
		delay = 10; send();`)
	p.task("sow")
	assert.Equal(t, "Saving 2", p.text("#saved"))
	p.run("letGo()")
	p.until(`!waiting().length`) // at once, not when it is time to look again
	assert.Equal(t, []string{"sow 0s"}, s.readings())
}

func reloaded(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.tap("#more")
	p.saved()
	p.reload()
	p.pass(30 * second)
	p.until(`study && link === 'here' && document.getElementById('clock').textContent === '1:30'`)
	assert.Equal(t, "sow", p.text("#step"))
	p.tap("#more")
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 90s of 2"}, s.readings())
	_, state := held(t, s.desk, s.journals()[0])
	assert.Empty(t, state.Warnings)
}

func reloadedWaiting(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	s.down()
	p.task("sow")
	p.pass(minute)
	p.tap("#stop")
	p.until(`link === 'away'`)
	s.up() // the page itself comes from there
	p.run("delay = 60000; clearTimeout(timer)")
	p.reload()
	p.until(`study && link === 'here'`)
	assert.Positive(t, p.warned)
	p.saved()
	assert.Equal(t, []string{"sow 60s"}, s.readings())
	assert.Contains(t, p.text("#before"), "sow, 1:00")
}

// While a phone sleeps its monotonic clock may stand still; the wall clock counts.
func asleep(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(10 * second)
	p.run("lock(true)")
	p.skew(10*minute, 0)
	p.run("lock(false)")
	p.until(`document.getElementById('clock').textContent === '10:10'`)
	p.tap("#stop")
	p.run("lock(true)")
	p.pass(minute) // hidden, but awake
	p.run("lock(false)")
	p.task("thin")
	p.pass(second)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 610s", "thin 1s"}, s.readings())
	contents, state := held(t, s.desk, s.journals()[0])
	assert.Empty(t, state.Warnings)
	boots := map[string]bool{}
	for _, e := range contents.Events {
		boots[e.Boot] = true
	}
	assert.Len(t, boots, 2)
}

func clockChanged(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.skew(-hour, 0)
	p.until(`document.getElementById('clock').textContent === '1:00'`)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 60s"}, s.readings())
	assert.Contains(t, p.text("#odd"), "the wall clock has moved 3600 s behind the stopwatch")
}

func cannotWrite(t *testing.T, phones *shelf) {
	s := newStation(t)
	put(t, s.desk.recorders.dir, "a file where the folder belongs")
	p := newPhone(t, phones, tall)
	p.do(chromedp.Navigate(s.invite(p)))
	p.until(`document.getElementById('sheet').open`)
	p.press("Done")
	p.task("sow")
	p.until(`document.getElementById('trouble').textContent.includes('not a directory')`)
	p.until(`document.getElementById('saved').textContent === 'See below: 2'`)
	removeAll(t, s.desk.recorders.dir)
	p.saved()
	assert.Equal(t, []string{"sow 0s"}, s.readings())
}

func journalPutBack(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.task("thin")
	p.saved()
	s.down()
	removeAll(t, s.desk.recorders.dir)
	s.up()
	p.pass(minute)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 60s", "thin 60s"}, s.readings())
}

func brokenStudy(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	put(t, s.dir+"/study.toml", aStudy+"[[step]]\nnam = 1\n")
	p.reload()
	p.until(`document.getElementById('trouble').textContent.includes('unknown key "nam"')`)
	p.task("sow") // as it was known before
	p.saved()
	assert.Equal(t, []string{"sow 0s"}, s.readings())
	assert.Equal(t, "tray, two seeds · g5 · w1", p.text("#who"))

	put(t, s.dir+"/study.toml", strings.ReplaceAll(aStudy, `"tray, two seeds"`, `"tray"`))
	p.reload()
	p.until(`document.getElementById('who').textContent === 'g5 · w1'`) // no reading under a name that is gone
}

func keepsNothing(t *testing.T, phones *shelf) {
	for name, script := range map[string]string{
		"no storage":   "Object.defineProperty(self, 'indexedDB', {value: undefined});",
		"storage full": "IDBObjectStore.prototype.put = function () { throw new DOMException('no room', 'QuotaExceededError') };",
	} {
		t.Run(name, func(t *testing.T) {
			s := newStation(t)
			p := newPhone(t, phones, tall)
			p.before(script)
			p.open(s, "w1")
			p.task("sow")
			p.pass(minute)
			p.tap("#stop")
			assert.Contains(t, p.text("#trouble"), "keeps nothing for this page")
			p.saved()
			assert.Equal(t, []string{"sow 60s"}, s.readings())
		})
	}
}
