package browsertest

import (
	"context"
	"errors"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/chromedp"
)

// Lean has a tab not tell of every change in a page, and not draw it: what is in it is
// laid out all the same. Such a tab finds no nodes for chromedp and takes no touches.
func Lean(tab context.Context) error {
	_, noCSS := chromedp.Call(tab, css.Disable, cdp.Empty{})
	_, noDOM := chromedp.Call(tab, dom.Disable, cdp.Empty{})
	return errors.Join(noCSS, noDOM, Show(tab, false))
}

// Show has the window of a tab shown, or small and not drawn.
func Show(tab context.Context, on bool) error {
	window, err := chromedp.Call(tab, browser.GetWindowForTarget, browser.GetWindowForTargetParams{})
	if err != nil {
		return err
	}
	state := browser.WindowStateMinimized
	if on {
		state = browser.WindowStateNormal
	}
	_, err = chromedp.Call(tab, browser.SetWindowBounds, browser.SetWindowBoundsParams{WindowID: window.WindowID, Bounds: &browser.Bounds{WindowState: state}})
	return err
}
