package phone

import (
	"context"
	"slices"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
)

// shelf holds the phones that no test has in hand: tabs of one browser, each in a
// window of its own. To open one takes many times as long as to take one up that was
// put back: nothing of what was done with it is left but what pages of its names kept,
// and no two stations have a name in common.
type shelf struct {
	browser context.Context
	mu      sync.Mutex
	tabs    []context.Context
}

// newShelf starts a browser to which this computer is the grow room, a name that is not
// loopback: so the page is an insecure context, as on a phone.
func newShelf(t *testing.T) *shelf {
	t.Helper()
	browser := browsertest.Start(t, chromedp.Flag("host-resolver-rules", "MAP *."+growRoom+" 127.0.0.1, MAP "+evilSite+" 127.0.0.1"))
	require.NoError(t, untold(browser))
	return &shelf{browser: browser, tabs: []context.Context{browser}}
}

// untold has a tab not tell of every change in a page.
func untold(tab context.Context) error {
	return chromedp.Do(tab, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if _, err := cdp.Call(ctx, t, css.Disable, cdp.Empty{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, t, dom.Disable, cdp.Empty{})
		return err
	}))
}

// take takes up a phone; the test puts it back when it ends.
func (s *shelf) take(t *testing.T) *phone {
	t.Helper()
	s.mu.Lock()
	var tab context.Context
	if n := len(s.tabs); n > 0 {
		tab, s.tabs = s.tabs[n-1], slices.Delete(s.tabs, n-1, n)
	}
	s.mu.Unlock()
	if tab == nil {
		tab, _ = chromedp.NewContext(s.browser) // it is closed with the browser
		require.NoError(t, untold(tab))
	}
	ctx, letGo := context.WithCancel(tab)
	p := newPhoneOn(t, s, ctx)
	t.Cleanup(func() {
		fit := !t.Failed() && p.wipe() == nil
		letGo() // from here on it hears of nothing
		if fit {
			s.mu.Lock()
			s.tabs = append(s.tabs, tab)
			s.mu.Unlock()
		}
	})
	return p
}

// wipe leaves the page that is open, and takes back all that a test may have set.
func (p *phone) wipe() error {
	return chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, page.RemoveScriptToEvaluateOnNewDocument, page.RemoveScriptToEvaluateOnNewDocumentParams{Identifier: p.script})
		if err == nil {
			_, err = cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
		}
		return err
	}), chromedp.Navigate("about:blank"))
}
