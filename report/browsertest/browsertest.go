// Package browsertest starts a Chromium or Chrome for tests of pages.
package browsertest

import (
	"context"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// path is a Chromium or Chrome of this computer, sooner one that cannot show a window: that
// takes a fifth less time. Without any the test is skipped, save where CI is set: there it
// has to be.
func path(t testing.TB) string {
	t.Helper()
	for _, name := range []string{"chromium-headless-shell", "chrome-headless-shell", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("CI") != "" {
		t.Fatal("no Chromium or Chrome, and CI is set: install one")
	}
	t.Skip("no Chromium or Chrome: install one to test pages")
	return ""
}

// needless are features of the browser that tests pay for and never look at: pages of
// its own behind the address line of every window, which take more than ours do; a
// process in reserve for the next page; pages kept for the way back; a new frame for each
// page. The first two are chromedp's.
var needless = []string{
	"Translate", "BlinkGenPropertyTrees",
	"WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIOmniboxFullPopup",
	"SpareRendererForSitePerProcess", "BackForwardCache", "RenderDocument",
}

// fewer has the browser make do with few processes, and one for all pages: to start one
// takes longer than most of what is tested in it. What one site may do to another's page
// is the same.
var fewer = []chromedp.ExecAllocatorOption{
	chromedp.Flag("enable-features", "NetworkServiceInProcess2"), chromedp.Flag("in-process-gpu", true),
	chromedp.Flag("disable-crash-reporter", true), chromedp.Flag("no-zygote", true),
	chromedp.Flag("disable-site-isolation-trials", true), chromedp.Flag("process-per-site", true), chromedp.Flag("renderer-process-limit", "1"),
}

// Start starts a browser, without a window, that reaches out for nothing of its
// own; flags come last. It has a fresh profile, which goes with it at the end of
// the test; an option may give it another. The context is that of its first tab:
// chromedp.NewContext makes others from it.
func Start(t testing.TB, flags ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	options := slices.Concat(chromedp.DefaultExecAllocatorOptions[:], []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(path(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-features", strings.Join(needless, ","))}, fewer, flags)
	started, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	tab, closeTab := chromedp.NewContext(started)
	t.Cleanup(closeTab)
	if err := chromedp.Do(tab); err != nil {
		t.Fatal("the browser does not start:", err)
	}
	return tab
}
