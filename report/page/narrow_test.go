package page

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
)

// roles counts what assistive technology is told of the parts of tables. Their roles
// alone are asked for: the whole tree takes ten times as long.
const roles = `(() => {
  const counts = {};
  for (const e of document.querySelectorAll("table, table *")) counts[e.computedRole] = (counts[e.computedRole] || 0) + 1;
  return {table: 0, row: 0, columnheader: 0, rowheader: 0, cell: 0, caption: 0, ...counts};
})()`

// unlabelled names cells that do not bear their column's head where rows are
// stacked, by the computed styles.
const unlabelled = `[...document.querySelectorAll(".stacks")].flatMap(g => {
  const heads = [...g.querySelectorAll("thead tr > *")].map(h => h.textContent);
  return [...g.querySelectorAll("tbody tr")].flatMap(row => [...row.cells].filter((c, i) => {
    const says = getComputedStyle(c, "::before").content;
    return c.textContent && heads[i] && !says.startsWith(JSON.stringify(heads[i]));
  }).map(c => c.textContent));
})`

// checkTables sees that on a phone the rows of a wide table are blocks, whose cells bear
// their heads; a table it is all the same.
func checkTables(ctx context.Context, t *testing.T) {
	_, err := chromedp.Call(ctx, accessibility.Enable, cdp.Empty{})
	require.NoError(t, err)
	defer chromedp.Call(ctx, accessibility.Disable, cdp.Empty{})
	_, err = chromedp.Call(ctx, accessibility.GetRootAXNode, accessibility.GetRootAXNodeParams{}) // else the tree is made anew for each element
	require.NoError(t, err)
	size(ctx, t, 390, 844)
	evaluate[int](ctx, t, unfold+"; 1")
	stacked := evaluate[map[string]int](ctx, t, roles)
	for role, elements := range map[string]string{"table": "table", "row": "tr", "caption": "caption", "columnheader": "thead th", "rowheader": "tbody th", "cell": "td"} {
		assert.Equal(t, evaluate[int](ctx, t, fmt.Sprintf(`document.querySelectorAll(%q).length`, elements)), stacked[role], role)
	}
	assert.Zero(t, evaluate[int](ctx, t, `document.querySelectorAll(".stacks :is(table, caption, thead, tbody, tr, th, td):not([role])").length`),
		"not every browser takes a table for one whatever the style sheet does to it")
	assert.Empty(t, evaluate[[]string](ctx, t, unlabelled))
	for _, g := range evaluate[[]string](ctx, t, `[...document.querySelectorAll(".stacks tbody tr")].map(r => getComputedStyle(r).display)`) {
		assert.Equal(t, "grid", g)
	}
	size(ctx, t, 1280, 844)
	assert.Equal(t, evaluate[map[string]int](ctx, t, roles), stacked)
}

// unseen counts cells that are not in sight.
const unseen = `[...document.querySelectorAll(".narrow tbody th")].filter(c => !c.checkVisibility({contentVisibilityAuto: true}) || !c.getBoundingClientRect().height).length`

// checkNarrowFolds sees that what is folded only for want of room stands open on wider
// screens and in print, without a tap.
func checkNarrowFolds(ctx context.Context, t *testing.T) {
	prefer(ctx, t, "light", "screen")
	size(ctx, t, 390, 844)
	evaluate[int](ctx, t, fold+"; 1")
	all := evaluate[int](ctx, t, `document.querySelectorAll(".narrow tbody th").length`)
	assert.Greater(t, all, 20)
	assert.Equal(t, all, evaluate[int](ctx, t, unseen))
	for _, c := range []struct {
		medium string
		width  int64
	}{{"screen", 768}, {"screen", 1280}, {"print", 390}, {"print", 700}} {
		prefer(ctx, t, "light", c.medium)
		size(ctx, t, c.width, 844)
		// those within another fold, which is closed, stay there on the screen
		rest := `document.querySelectorAll("details:not(.data):not([open]) .narrow tbody th").length`
		if c.medium == "print" {
			rest = "0"
		}
		assert.Equal(t, evaluate[int](ctx, t, rest), evaluate[int](ctx, t, unseen), "%s at %d", c.medium, c.width)
	}
}

// lone is the text of a folded cell that stands nowhere else on the page.
const lone = `[...document.querySelectorAll(".narrow tbody td")].map(c => c.textContent)
  .find(text => /^[-\w.]{4,}$/.test(text) && document.body.textContent.split(text).length === 2)`

// checkFolded sees that what is folded away is found by the browser's search, which opens
// it. A link to a text is looked for in the same way.
func checkFolded(ctx context.Context, t *testing.T, file string) {
	prefer(ctx, t, "light", "screen")
	size(ctx, t, 390, 844)
	text := evaluate[string](ctx, t, lone)
	require.NoError(t, browsertest.Show(ctx, true)) // what is not drawn is not searched
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("about:blank"), chromedp.Navigate(file+"#:~:text="+strings.ReplaceAll(text, "-", "%2D"))))
	opened := fmt.Sprintf(`[...document.querySelectorAll("details[open] td")].some(c => c.textContent === %q)`, text)
	for until := time.Now().Add(20 * time.Second); !evaluate[bool](ctx, t, opened); time.Sleep(50 * time.Millisecond) {
		require.True(t, time.Now().Before(until), "%s: not opened", text) // the page is there before it is searched
	}
	assert.Less(t, evaluate[int](ctx, t, `document.querySelectorAll("details[open]").length`), 4, "no other")
}
