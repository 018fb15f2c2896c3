package phone

import (
	"context"
	"errors"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
)

// shelf holds the phones that no test has in hand: tabs of one browser, each in a
// window of its own. To open one takes many times as long as to take one up that was
// put back: nothing of what was done with it is left but what pages of its names kept,
// and no two stations have a name in common. The page stays open, at a stand; to go to
// another takes as long as to open one.
type shelf struct {
	browser context.Context
	mu      sync.Mutex
	tabs    []*tab
}

// tab is what there is of a phone while no test has it in hand.
type tab struct {
	ctx    context.Context
	size   size
	script page.ScriptIdentifier // one that a test has put before the page's own
	media  bool                  // a test has said what the owner prefers
	heard  bool                  // it tells of what pages ask for, and of what goes wrong in them
	shown  bool                  // its window is, and drawn whenever anything changes
}

// show has the window shown, or not.
func (t *tab) show(ctx context.Context, on bool) error {
	if t.shown == on {
		return nil
	}
	t.shown = on
	return browsertest.Show(ctx, on)
}

// newShelf starts a browser to which this computer is the grow room, a name that is not
// loopback: so the page is an insecure context, as on a phone.
func newShelf(t *testing.T) *shelf {
	t.Helper()
	started := browsertest.Start(t, chromedp.Flag("host-resolver-rules", "MAP *."+growRoom+" 127.0.0.1, MAP "+evilSite+" 127.0.0.1, MAP "+ownName(t)+" 127.0.0.1"))
	s := &shelf{browser: started}
	s.tabs = []*tab{s.prepare(t, started)}
	return s
}

// prepare makes a tab that of a phone.
func (s *shelf) prepare(t *testing.T, ctx context.Context) *tab {
	t.Helper()
	require.NoError(t, chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		return errors.Join(
			tell(ctx, t, network.Disable, cdp.Empty{}), tell(ctx, t, cdplog.Disable, cdp.Empty{}),
			tell(ctx, t, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true}),
			tell(ctx, t, emulation.SetTimezoneOverride, emulation.SetTimezoneOverrideParams{TimezoneID: "Europe/Berlin"}),
			tell(ctx, t, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: clocks + hands}))
	})))
	require.NoError(t, browsertest.Lean(ctx))
	of := &tab{ctx: ctx}
	require.NoError(t, of.show(ctx, pictures != ""))
	return of
}

// tell sends a command of the browser's protocol, whatever comes back.
func tell[P, R any](ctx context.Context, t *chromedp.Target, command cdp.Command[P, R], params P) error {
	_, err := cdp.Call(ctx, t, command, params)
	return err
}

// take takes up a phone; the test puts it back when it ends.
func (s *shelf) take(t *testing.T) *phone {
	t.Helper()
	s.mu.Lock()
	var of *tab
	if n := len(s.tabs); n > 0 {
		of = s.tabs[n-1]
		s.tabs = s.tabs[:n-1]
	}
	s.mu.Unlock()
	if of == nil {
		ctx, _ := chromedp.NewContext(s.browser) // it is closed with the browser
		of = s.prepare(t, ctx)
	}
	ctx, letGo := context.WithCancel(of.ctx)
	p := &phone{t: t, ctx: ctx, shelf: s, tab: of, owner: new(owner)}
	require.NoError(t, chromedp.Listen(ctx, p.hear))
	t.Cleanup(func() {
		fit := !t.Failed() && p.wipe() == nil
		letGo() // from here on it hears of nothing
		if fit {
			s.mu.Lock()
			s.tabs = append(s.tabs, of)
			s.mu.Unlock()
		}
	})
	return p
}

// wipe leaves the page that is open, and takes back all that a test may have set.
func (p *phone) wipe() error {
	if err := p.tab.show(p.ctx, pictures != ""); err != nil {
		return err
	}
	return chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) (err error) {
		if p.tab.script != "" {
			err = tell(ctx, t, page.RemoveScriptToEvaluateOnNewDocument, page.RemoveScriptToEvaluateOnNewDocumentParams{Identifier: p.tab.script})
			p.tab.script = ""
		}
		if err == nil && p.tab.media {
			err = tell(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
			p.tab.media = false
		}
		if err == nil && p.tab.heard {
			err = errors.Join(tell(ctx, t, network.Disable, cdp.Empty{}), tell(ctx, t, cdplog.Disable, cdp.Empty{}))
			p.tab.heard = false
		}
		return err
	}), chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := chromedp.Evaluate[bool](standStill)(ctx, t)
		return err
	}))
}

// standStill has a page do nothing any more, and hold nobody up who leaves it. What it
// sends at that moment would go on with what is sent next, which the next test would hear.
const standStill = `(() => {
  fetch = () => new Promise(() => {});
  try { events = []; sending = true; } catch {} // it may be another page
  for (let i = setTimeout(() => {}); i > 0; i--) clearTimeout(i);
  return true;
})()`

// A phone that is put back while a press is on its way sends nothing more.
func putBack(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.run("press([{kind: 'start', step: 'sow'}]); await turn")
	require.NoError(t, p.wipe())
	p.listen()
	p.run("await new Promise(ok => setTimeout(ok, 100))")
	p.mu.Lock()
	defer p.mu.Unlock()
	assert.Empty(t, p.requests)
}
