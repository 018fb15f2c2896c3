package page

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"headhours/report"
	"headhours/report/look"
	"headhours/report/plots"
	"headhours/timing"
)

//go:embed page.html
var source string

//go:embed page.css
var style string

func layout() *template.Template {
	return template.Must(template.New("page").Funcs(template.FuncMap{
		"show": report.Show, "paragraph": paragraphOf, "table": tableOf, "svg": svg,
	}).Parse(source))
}

// view is what the template shows.
type view struct {
	Title     string
	Style     template.CSS
	Lede      []string
	Workflow  string   // that the headlines are for; "" where there is but one
	Place     []string // the season, in short
	Headlines []report.Headline
	First     part
	Sections  []section
	Readings  string
	Files     string
}

// WriteHTML writes the whole report as one HTML file. The error is w's.
func WriteHTML(out io.Writer, w report.Whole) error {
	v := view{
		Title: title(w), Style: template.CSS(look.CSS() + style), Headlines: w.Headlines(w.Front()),
		First: first(w), Sections: sections(w), Place: report.PlaceFront(w.Season),
		Readings: many(w.Readings, "reading"), Files: many(len(w.Files), "file"),
	}
	if v.Lede = lede(w); len(w.Ways) > 1 {
		v.Workflow = w.Front()
	}
	// rendered whole before a byte goes out
	var page bytes.Buffer
	if err := layout().Execute(&page, v); err != nil {
		return err
	}
	_, err := page.WriteTo(out)
	return err
}

func title(w report.Whole) string {
	if w.Study == "" {
		return "Hours and cost per head"
	}
	return w.Study
}

// lede is the answer in a sentence or two, and what it lacks.
func lede(w report.Whole) []string {
	doc := report.Compare(w.Compare)
	lines := slices.Clone(w.Cautions)
	if len(w.Ways) == 1 {
		return append(lines, doc.Only("hours", "shared").Words()...)
	}
	for _, r := range w.Cost.Ranks {
		if len(w.Cost.Ranks) == 1 && r.By.ByHead && r.Cheapest != w.Quickest && len(timing.ByCrop(w.Compare)) == 1 {
			lines = append(lines, fmt.Sprintf("Quickest: %s; cheapest: %s.", quoted(w.Quickest), quoted(r.Cheapest)))
		}
	}
	return append(lines, doc.Only("lead", "shared").Words()...)
}

// first is the figure of the first screen, with its table.
func first(w report.Whole) part {
	p := part{Figure: drawn(plots.PerHead(w.Compare), known(w)), Tucked: true}
	if t := report.Compare(w.Compare).Section("minutes").Table; t != nil {
		p.Tables = []report.Table{named(*t, w)}
	}
	return p
}

// named is the table of minutes with the ways' names in place of their letters.
func named(t report.Table, w report.Whole) report.Table {
	if len(w.Ways) > 1 {
		t.Columns = append([]report.Column{}, t.Columns...)
		for i, way := range w.Ways {
			t.Columns[i+1].Head = report.Show(way.Workflow)
		}
	}
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
