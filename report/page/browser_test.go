package page

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
	"headhours/report/look"
)

// browser starts a browser that the test may use for a while.
func browser(t *testing.T) context.Context {
	t.Helper()
	tab := browsertest.Start(t, chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("enable-blink-features", "ComputedAccessibilityInfo")) // an element tells its role
	require.NoError(t, browsertest.Lean(tab))
	ctx, cancel := context.WithTimeout(tab, 5*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

// address writes a page to a file and says where a browser finds it.
func address(t *testing.T, html string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(name, []byte(html), 0o644))
	return "file://" + filepath.ToSlash(name)
}

// prefer makes pages believe that a colour scheme is preferred and that they are
// shown on a medium, screen or print.
func prefer(ctx context.Context, t *testing.T, scheme, medium string) {
	t.Helper()
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: medium, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	require.NoError(t, err)
}

// evaluate is what an expression gives within the page.
func evaluate[T any](ctx context.Context, t *testing.T, expression string) T {
	t.Helper()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	require.NoError(t, err)
	return value
}

func open(ctx context.Context, t *testing.T, file string) {
	t.Helper()
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(file)))
}

// size makes the window so wide and high.
func size(ctx context.Context, t *testing.T, width, height int64) {
	t.Helper()
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, height)))
}

const (
	unfold = `document.querySelectorAll("details:not([open])").forEach(d => d.open = true)`
	fold   = `document.querySelectorAll("details[open]").forEach(d => d.open = false)`
)

// asked gathers what a browser asks for.
type asked struct {
	sync.Mutex
	urls []string
}

func (a *asked) add(event any) {
	if request, ok := event.(*network.EventRequestWillBeSent); ok {
		a.Lock()
		defer a.Unlock()
		a.urls = append(a.urls, request.Request.URL)
	}
}

// take is what was asked for since it was last taken.
func (a *asked) take() []string {
	a.Lock()
	defer a.Unlock()
	urls := a.urls
	a.urls = nil
	return urls
}

// Every study's page is loaded once, by one browser, and looked at in windows of all
// sizes, by day and by night, on the screen and on paper: nothing of that asks for
// anything but the file.
func TestPages(t *testing.T) {
	ctx := browser(t)
	var requests asked
	require.NoError(t, chromedp.Listen(ctx, requests.add))
	for name, html := range pages(t) {
		file := address(t, html)
		t.Run(name, func(t *testing.T) {
			prefer(ctx, t, "light", "screen")
			open(ctx, t, file)
			for _, check := range []struct {
				name string
				look func(context.Context, *testing.T)
			}{ // in this order: a page of another size or folds is laid out anew
				{"outline", checkOutline}, {"overflow", checkOverflow}, {"tables", checkTables}, {"contrast", checkContrast}, {"print", checkPrint},
			} {
				t.Run(check.name, func(t *testing.T) { check.look(ctx, t) })
			}
			assert.Zero(t, evaluate[int](ctx, t, "document.scripts.length"))
			got := requests.take()
			assert.NotEmpty(t, got, "the page itself")
			for _, url := range got {
				if !strings.HasPrefix(url, "data:") {
					assert.Equal(t, file, url)
				}
			}
		})
	}
	t.Run("sheets", func(t *testing.T) { checkSheets(ctx, t) })
	file := address(t, pages(t)["demo"])
	prefer(ctx, t, "light", "screen")
	open(ctx, t, file)
	t.Run("colours", func(t *testing.T) { checkColours(ctx, t) })
	t.Run("narrow", func(t *testing.T) { checkNarrowFolds(ctx, t) })
	t.Run("wide", func(t *testing.T) { checkWide(ctx, t) })
	t.Run("found", func(t *testing.T) { checkFolded(ctx, t, file) })
}

// overflow names what reaches beyond the right edge of the window.
const overflow = `(() => {
  const wide = document.documentElement.scrollWidth > window.innerWidth;
  if (!wide) return [];
  return [...document.querySelectorAll("body *")].filter(e => {
    if (e.closest("svg") !== null && e.tagName !== "svg") return false;
    return e.getBoundingClientRect().right > window.innerWidth + 0.5 && !e.parentElement.closest(".grid");
  }).map(e => e.tagName + "." + e.className + " " + e.textContent.slice(0, 40)).concat(["page " + document.documentElement.scrollWidth]);
})()`

// hidden names tables of which a part is out of sight without a word of it.
const hidden = `[...document.querySelectorAll(".grid")].flatMap(g => {
  const told = g.matches(".scrolls[tabindex='0'][role=region][aria-label]") && g.querySelector(".sideways").checkVisibility();
  const cut = g.scrollWidth > g.clientWidth || [...g.querySelectorAll("tbody :is(th, td)")].some(c => c.scrollWidth > c.clientWidth + 1);
  return cut && !told ? [g.scrollWidth + " in " + g.clientWidth + ": " + g.querySelector("caption").textContent] : [];
})`

func checkOverflow(ctx context.Context, t *testing.T) {
	schemes := []string{"light"} // the scheme moves nothing
	if os.Getenv("REPORT_PICTURES") != "" {
		schemes = append(schemes, "dark")
	}
	for _, scheme := range schemes {
		prefer(ctx, t, scheme, "screen")
		for _, width := range widths {
			size(ctx, t, width, 844)
			assert.Empty(t, evaluate[[]string](ctx, t, fold+";"+overflow), "%s at %d", scheme, width)
			picture(ctx, t, fmt.Sprintf("%d-%s", width, scheme))
		}
		for _, width := range slices.Backward(widths) {
			size(ctx, t, width, 844)
			assert.Empty(t, evaluate[[]string](ctx, t, unfold+";"+overflow), "%s at %d, unfolded", scheme, width)
			assert.Empty(t, evaluate[[]string](ctx, t, hidden), "%s at %d", scheme, width)
		}
	}
}

// widths are those of windows, in CSS pixels: phones, the usual one first, what divides
// them from tablets, and desks.
var widths = []int64{390, 320, 767, 768, 1024, 1280}

// picture keeps what the page looks like, from top to bottom, where
// REPORT_PICTURES names a folder, to be looked at.
func picture(ctx context.Context, t *testing.T, name string) {
	t.Helper()
	dir := os.Getenv("REPORT_PICTURES")
	if dir == "" {
		return
	}
	require.NoError(t, browsertest.Show(ctx, true))
	const slice = 3000 // a picture has only so much room
	width, height := evaluate[float64](ctx, t, "innerWidth"), evaluate[float64](ctx, t, "document.documentElement.scrollHeight")
	for top := 0.0; top < height; top += slice {
		shot, err := chromedp.Call(ctx, page.CaptureScreenshot, page.CaptureScreenshotParams{
			CaptureBeyondViewport: new(true), Clip: &page.Viewport{Y: top, Width: width, Height: min(slice, height-top), Scale: 1},
		})
		require.NoError(t, err)
		file := fmt.Sprintf("%s-%s-%02.0f.png", strings.Split(t.Name(), "/")[1], name, top/slice)
		require.NoError(t, os.WriteFile(filepath.Join(dir, file), shot.Data, 0o644))
	}
}

// faint names text whose contrast to what is behind it is too low for WCAG 2.2,
// level AA (success criterion 1.4.3), as the computed styles have it. Figures
// are pictures on white; their own tests look at them.
const faint = `(() => {
  const linear = x => (x /= 255) <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
  const colours = new Map(), behind = new Map([[null, 1]]);
  const light = colour => { // its luminance, or none of what is seen through
    if (!colours.has(colour)) {
      const c = colour.match(/[\d.]+/g).map(Number);
      colours.set(colour, c.length < 4 || c[3] > 0 ? 0.2126 * linear(c[0]) + 0.7152 * linear(c[1]) + 0.0722 * linear(c[2]) : null);
    }
    return colours.get(colour);
  };
  const under = e => {
    if (!behind.has(e)) behind.set(e, light(getComputedStyle(e).backgroundColor) ?? under(e.parentElement));
    return behind.get(e);
  };
  const found = [];
  let looked = 0;
  const elements = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT, e => e.localName === "svg" ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_ACCEPT);
  for (let e = document.body; e; e = elements.nextNode()) {
    let n = e.firstChild;
    while (n && (n.nodeType !== 3 || !n.data.trim())) n = n.nextSibling;
    if (!n) continue;
    const style = getComputedStyle(e), size = parseFloat(style.fontSize);
    const a = light(style.color), b = under(e);
    const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    looked++;
    if (contrast < (large ? 3 : 4.5)) found.push(e.tagName + "." + e.className + " " + contrast.toFixed(2) + " " + e.textContent.slice(0, 30));
  }
  return looked > 50 ? found : ["looked at " + looked + " texts only"];
})()`

func checkContrast(ctx context.Context, t *testing.T) {
	backgrounds := map[string]bool{}
	for _, medium := range []string{"screen", "print"} { // which is laid out anew, a scheme is not
		for _, scheme := range []string{"light", "dark"} {
			prefer(ctx, t, scheme, medium)
			assert.Empty(t, evaluate[[]string](ctx, t, unfold+";"+faint), "%s on %s", scheme, medium)
			backgrounds[evaluate[string](ctx, t, "getComputedStyle(document.body).backgroundColor")] = true
		}
	}
	assert.Len(t, backgrounds, 3, "light, dark, and white paper whatever the scheme")
}

// checkColours holds the page to the colours that all pages have, and no others.
func checkColours(ctx context.Context, t *testing.T) {
	assert.NotRegexp(t, browsertest.OwnColour, style)
	schemes := browsertest.Schemes(look.CSS())
	require.Len(t, schemes, 3)
	for i, c := range []struct{ scheme, medium string }{{"light", "screen"}, {"dark", "screen"}, {"dark", "print"}} {
		prefer(ctx, t, c.scheme, c.medium)
		require.Len(t, schemes[i], 14)
		for _, p := range schemes[i] {
			assert.Equal(t, p.Value, evaluate[string](ctx, t, fmt.Sprintf("getComputedStyle(document.documentElement).getPropertyValue(%q)", p.Name)), "%s on %s", p.Name, c.medium)
		}
		assert.Equal(t, browsertest.Computed(schemes[i][0].Value), evaluate[string](ctx, t, "getComputedStyle(document.body).backgroundColor"))
	}
	letters := strings.ToUpper(schemes[0][2].Value)
	assert.True(t, strings.Contains(pages(t)["demo"], "fill:"+letters), "a figure's letters have the ink of light")
}

// outline is the level of each heading in order, and what is amiss with names.
const outline = `(() => {
  const amiss = [];
  let last = 0;
  const headings = [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")];
  if (headings.filter(h => h.tagName === "H1").length !== 1) amiss.push("not one h1");
  for (const h of headings) {
    const level = Number(h.tagName[1]);
    if (level > last + 1) amiss.push("skipped before " + h.textContent);
    if (!h.textContent.trim()) amiss.push("empty heading");
    last = level;
  }
  for (const e of document.querySelectorAll("img, svg")) {
    const alt = e.getAttribute("alt") || e.getAttribute("aria-label") || "";
    if (e.getAttribute("role") !== "img" || alt.trim().length < 20) amiss.push("picture without words: " + alt);
  }
  for (const f of document.querySelectorAll("figure")) {
    let next = f.nextElementSibling;
    if (!next || !next.querySelector(":scope > :is(.grid, details.data)")) amiss.push("no table beneath " + f.textContent.slice(0, 60));
  }
  for (const t of document.querySelectorAll("table")) {
    if (!t.caption || !t.caption.textContent.trim()) amiss.push("table without a caption");
    for (const h of t.querySelectorAll("th")) if (!h.scope || !h.textContent.trim()) amiss.push("table head without scope or text in " + t.caption.textContent);
    const columns = t.rows[0].cells.length;
    for (const row of t.rows) if (row.cells.length !== columns) amiss.push("ragged table " + t.caption.textContent);
  }
  const ids = [...document.querySelectorAll("[id]")].map(e => e.id);
  if (new Set(ids).size !== ids.length) amiss.push("an id stands twice");
  for (const a of document.querySelectorAll("a")) {
    if (!document.querySelector(a.getAttribute("href"))) amiss.push("a link to nothing: " + a.textContent);
    const box = a.getBoundingClientRect();
    if (box.height < 24) amiss.push("a small target: " + a.textContent);
  }
  for (const s of document.querySelectorAll("summary")) if (s.getBoundingClientRect().height < 24 && s.getClientRects().length) amiss.push("a small target: " + s.textContent);
  if (!document.documentElement.lang || !document.title.trim()) amiss.push("no language or title");
  return amiss;
})()`

func checkOutline(ctx context.Context, t *testing.T) {
	size(ctx, t, widths[0], 844)
	assert.Empty(t, evaluate[[]string](ctx, t, fold+";"+outline))
}

// tall names figures that are higher than what a page has room for, with their
// sizes in CSS pixels, and those that are not printed at all.
const tall = `(room => [...document.querySelectorAll("figure")].flatMap(f => {
  const box = f.getBoundingClientRect();
  const cut = !f.checkVisibility() || getComputedStyle(f).breakInside !== "avoid" || box.height > room || box.width > %[2]d;
  return cut ? [f.textContent.slice(0, 40) + " " + box.width + " x " + box.height] : [];
}))(%[1]d)`

// papers with what the margins of the page leave, in CSS pixels (96 an inch).
var papers = map[string]struct {
	chromedp.PaperSize
	width, height int
	part          func(*page.PrintToPDFParams) // what of it is printed
}{
	"A4":     {chromedp.PaperA4, 793 - 2*53, 1122 - 2*61, func(*page.PrintToPDFParams) {}},
	"Letter": {chromedp.PaperLetter, 816 - 2*53, 1056 - 2*61, func(p *page.PrintToPDFParams) { p.PageRanges = "1-2" }},
}

// untagged leaves out of a PDF what nothing here looks at and what takes longest.
func untagged(p *page.PrintToPDFParams) { p.GenerateTaggedPDF = new(false) }

// checkPrint sees that no figure is cut in print: each is kept together and goes on one
// page, also those that are folded away on the screen.
func checkPrint(ctx context.Context, t *testing.T) {
	prefer(ctx, t, "dark", "print")
	evaluate[int](ctx, t, fold+"; 1")
	for name, paper := range papers {
		size(ctx, t, int64(paper.width), int64(paper.height))
		assert.Empty(t, evaluate[[]string](ctx, t, fmt.Sprintf(tall, paper.height, paper.width)), name)
		assert.Empty(t, evaluate[[]string](ctx, t, overflow), name)
		if !strings.Contains(t.Name(), "/demo/") {
			continue // printing takes long, and adds nothing for the others
		}
		pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper.PaperSize), untagged, paper.part))
		require.NoError(t, err, name)
		assert.True(t, strings.HasPrefix(string(pdf), "%PDF-"), name)
	}
}

// besides counts the tables that stand beside their figure and those that could.
const besides = `(() => {
  const pairs = [...document.querySelectorAll("main .beside")].filter(b => b.checkVisibility()).map(b => [b.querySelector("figure"), b.querySelector(":scope > .tables")]);
  const may = pairs.filter(p => p[1]);
  return [may.filter(([f, t]) => t.getBoundingClientRect().left >= f.getBoundingClientRect().right).length, may.length];
})()`

// checkWide sees that a wide screen is used: tables beside their figures, contents that
// stay in sight, and a folded page that is no longer than it needs to be.
func checkWide(ctx context.Context, t *testing.T) {
	prefer(ctx, t, "light", "screen")
	size(ctx, t, 1280, 844)
	evaluate[int](ctx, t, fold+"; 1")
	assert.Less(t, evaluate[float64](ctx, t, "document.documentElement.scrollHeight"), 8100.0)
	found := evaluate[[]int](ctx, t, besides)
	assert.Equal(t, found[1], found[0])
	assert.GreaterOrEqual(t, found[0], 4)
	in := evaluate[[]float64](ctx, t, `(() => { scrollTo(0, document.documentElement.scrollHeight / 2); const r = document.querySelector("nav").getBoundingClientRect(); scrollTo(0, 0); return [r.top, r.bottom]; })()`)
	assert.GreaterOrEqual(t, in[0], 0.0)
	assert.LessOrEqual(t, in[1], 844.0)

	// on a phone a way is one line
	size(ctx, t, 390, 844)
	tall := evaluate[[]float64](ctx, t, `[...document.querySelectorAll("#takes .grid")[0].querySelectorAll("tbody tr")].map(r => r.getBoundingClientRect().height)`)
	assert.Len(t, tall, 4)
	for _, height := range tall {
		assert.Less(t, height, 40.0)
	}
}
