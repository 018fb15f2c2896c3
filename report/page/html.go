package page

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"

	"headhours/report"
	"headhours/report/look"
	"headhours/report/plots"
	"headhours/timing/words"
)

//go:embed page.html
var source string

//go:embed page.css
var style string

func layout() *template.Template {
	return template.Must(template.New("page").Funcs(template.FuncMap{
		"show": words.Show, "many": words.Many, "paragraph": paragraphOf, "table": tableOf, "svg": svg,
	}).Parse(source))
}

// view is what the template shows.
type view struct {
	Title    string
	Style    template.CSS
	Lede     []string
	Banner   string // what was never timed
	Remarks  []string
	Season   []string // the season, in short
	Cards    []cards
	First    pagePart
	Sections []section
	Readings string
	Files    string
}

// cards are the numbers of a way; Workflow is "" where there is but one.
type cards struct {
	Workflow  string
	Headlines []report.Headline
}

// WriteHTML writes the whole report as one HTML file. The error is w's.
func WriteHTML(out io.Writer, w report.Whole) error {
	v := view{
		Title: title(w), Style: template.CSS(look.CSS() + style + printHead(w)),
		Lede: w.Lede(), Banner: w.NeverTimed(), Remarks: w.Remarks(), Season: report.SeasonFront(w.Season), Cards: cardsOf(w),
		First: firstPart(w), Sections: sections(w),
		Readings: words.Many(w.Readings, "reading"), Files: words.Many(len(w.Files), "file"),
	}
	// rendered whole before a byte goes out
	var page bytes.Buffer
	if err := layout().Execute(&page, v); err != nil {
		return err
	}
	_, err := page.WriteTo(out)
	return err
}

// cardsOf are the numbers of the quickest way, or of those between which it cannot be
// told.
func cardsOf(w report.Whole) []cards {
	var all []cards
	for _, workflow := range w.Tied() {
		c := cards{Headlines: w.Headlines(workflow)}
		if len(w.Workflows) > 1 {
			c.Workflow = workflow
		}
		all = append(all, c)
	}
	return all
}

// firstPart is the figure of the first screen, with its table: why ways differ, or what a
// head takes where there is but one.
func firstPart(w report.Whole) pagePart {
	figure := plots.Why(w.Compare, huesOf(w))
	if len(w.Workflows) < 2 {
		figure = plots.PerHead(w.Compare, huesOf(w))
	}
	p := pagePart{Figure: shownFigure(figure, hasAnswers(w)), Tucked: true}
	if t := report.Compare(w.Compare).Section("minutes").Table; t != nil {
		p.Tables = []report.Table{namedTable(*t, w)}
	}
	return p
}

// namedTable is the table of minutes with the ways' names in place of their letters.
func namedTable(t report.Table, w report.Whole) report.Table {
	if len(w.Workflows) > 1 {
		t.Columns = append([]report.Column{}, t.Columns...)
		for i, workflow := range w.Workflows {
			t.Columns[i+1].Head = words.Show(workflow.Workflow)
		}
	}
	t.Title = "Minutes of each step in one grow"
	return t
}

// paragraph is a paragraph, or a list with a line above it.
type paragraph struct {
	Text string
	List []string
}

func paragraphOf(text string) paragraph {
	lines := strings.Split(text, "\n")
	switch {
	case len(lines) == 1:
		return paragraph{Text: text}
	case strings.HasSuffix(lines[0], ":"):
		return paragraph{Text: lines[0], List: lines[1:]}
	}
	return paragraph{List: lines}
}

// svg is a figure as a picture within the page, its words as its text
// alternative.
func svg(f *plots.Figure) (template.HTML, error) {
	var b bytes.Buffer
	if err := f.Write(&b, "svg"); err != nil {
		return "", err
	}
	_, drawing, found := strings.Cut(b.String(), "<svg ")
	if !found {
		return "", fmt.Errorf("a figure without an svg element")
	}
	alt := template.HTMLEscapeString(f.Alt())
	return template.HTML(`<svg role="img" aria-label="` + alt + `" ` + drawing), nil
}
