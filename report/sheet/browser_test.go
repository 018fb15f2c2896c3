package sheet

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
	"headhours/timing/study"
)

// papers are what a grower's printer holds.
var papers = map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter}

// printed prints a sheet as PDF.
func printed(ctx context.Context, t *testing.T, html []byte, paper chromedp.PaperSize) []byte {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet.html")
	require.NoError(t, os.WriteFile(file, html, 0o644))
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.ToSlash(file))))
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper)))
	require.NoError(t, err)
	return pdf
}

var pageCount = regexp.MustCompile(`/Type /Pages\s*/Count (\d+)`)

// pages is how many pages a PDF says it has.
func pages(t *testing.T, pdf []byte) int {
	t.Helper()
	found := pageCount.FindSubmatch(pdf)
	require.NotNil(t, found, "no page tree in the PDF")
	n, err := strconv.Atoi(string(found[1]))
	require.NoError(t, err)
	return n
}

func TestPrintedPages(t *testing.T) {
	ctx := browsertest.Start(t)
	require.NoError(t, browsertest.Lean(ctx))
	for _, c := range []struct {
		name     string
		workflow study.Workflow
		pages    int
	}{
		{"seven tasks", tasks(7, "step %d"), 1},
		{"seventeen tasks, as many as fit", tasks(17, "wash trays and rafts %d"), 1},
		{"names of two lines", tasks(17, "carry the trays down to the pond %d"), 1},
		{"forty tasks", tasks(40, "step %d"), 2},
	} {
		for name, paper := range papers {
			t.Run(c.name+" on "+name, func(t *testing.T) {
				var html bytes.Buffer
				require.NoError(t, Write(&html, study.Study{Name: "a study", Steps: []study.Step{{Name: "step 1", Per: "plant"}}}, c.workflow))
				pdf := printed(ctx, t, html.Bytes(), paper)
				assert.Equal(t, c.pages, pages(t, pdf))
				if dir := os.Getenv("SHEET_PDF"); dir != "" {
					file := fmt.Sprintf("%s/%s-%s.pdf", dir, strings.ReplaceAll(c.name, " ", "_"), name)
					require.NoError(t, os.WriteFile(file, pdf, 0o644))
				}
			})
		}
	}
}

// tasks is a workflow of so many tasks.
func tasks(n int, name string) study.Workflow {
	w := study.Workflow{Name: "tray, three seeds"}
	for i := range n {
		w.Tasks = append(w.Tasks, study.Task{Step: fmt.Sprintf(name, i+1), Days: []int{0, 7, i + 10}})
	}
	return w
}
