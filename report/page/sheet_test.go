package page

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/sheet"
	"headhours/timing/study"
)

var pageCount = regexp.MustCompile(`/Type /Pages\s*/Count (\d+)`)

// pagesIn is how many pages a PDF says it has.
func pagesIn(t *testing.T, pdf []byte) int {
	t.Helper()
	found := pageCount.FindSubmatch(pdf)
	require.NotNil(t, found, "no page tree in the PDF")
	n, err := strconv.Atoi(string(found[1]))
	require.NoError(t, err)
	return n
}

// checkSheets sees that printed sheets have as many pages as they should, whatever paper a
// grower's printer holds. It is here for the browser, which takes longer to start.
func checkSheets(ctx context.Context, t *testing.T) {
	prefer(ctx, t, "light", "")
	size(ctx, t, 800, 600)
	for _, c := range []struct {
		name  string
		tasks int
		step  string
		pages int
	}{
		{"seven tasks", 7, "step %d", 1},
		{"seventeen tasks, as many as fit", 17, "wash trays and rafts %d", 1},
		{"names of two lines", 17, "carry the trays down to the pond %d", 1},
		{"forty tasks", 40, "step %d", 2},
	} {
		workflow := study.Workflow{Name: "tray, three seeds"}
		for i := range c.tasks {
			workflow.Tasks = append(workflow.Tasks, study.Task{Step: fmt.Sprintf(c.step, i+1), Days: []int{0, 7, i + 10}})
		}
		var html bytes.Buffer
		require.NoError(t, sheet.Write(&html, study.Study{Name: "a study", Steps: []study.Step{{Name: "step 1", Per: "plant"}}}, workflow))
		open(ctx, t, address(t, html.String()))
		for name, paper := range papers {
			pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper.PaperSize), untagged))
			require.NoError(t, err)
			assert.Equal(t, c.pages, pagesIn(t, pdf), "%s on %s", c.name, name)
			if dir := os.Getenv("SHEET_PDF"); dir != "" {
				file := fmt.Sprintf("%s/%s-%s.pdf", dir, strings.ReplaceAll(c.name, " ", "_"), name)
				require.NoError(t, os.WriteFile(file, pdf, 0o644))
			}
		}
	}
}
