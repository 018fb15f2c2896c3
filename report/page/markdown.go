package page

import (
	"bytes"
	"io"
	"strings"

	"headhours/report"
	"headhours/timing/words"
)

// WriteMarkdown writes the whole report as Markdown, without its figures. The
// error is w's.
func WriteMarkdown(out io.Writer, w report.Whole) error {
	m := markdown{}
	m.writeDoc(0, docOf(pagePart{Title: title(w), Answer: opening(w)}))
	m.writeDoc(1, docOf(pagePart{Title: "Minutes by step", Tables: firstPart(w).Tables}))
	for _, s := range sections(w) {
		m.writeDoc(1, report.Doc{Title: s.Title})
		m.writeParts(s.Parts, 2)
	}
	_, err := m.text.WriteTo(out)
	return err
}

// opening is what the first screen says, its numbers a line each.
func opening(w report.Whole) []string {
	lines := w.Lede()
	if lacks := w.NeverTimed(); lacks != "" {
		lines = append(lines, lacks)
	}
	lines = append(lines, w.Remarks()...)
	for _, c := range cardsOf(w) {
		var numbers []string
		if c.Workflow != "" {
			numbers = append(numbers, words.Show(c.Workflow)+":")
		}
		for _, h := range c.Headlines {
			line := h.Value + " " + h.Unit
			if h.Range != "" {
				line += " (" + h.Range + ")"
			}
			numbers = append(numbers, line)
		}
		lines = append(lines, strings.Join(numbers, "\n"))
	}
	if front := report.SeasonFront(w.Season); front != nil {
		lines = append(lines, strings.Join(front, " "))
	}
	return lines
}

// docOf is a part as a Doc.
func docOf(p pagePart) report.Doc {
	doc := report.Doc{Title: p.Title, Notes: p.Notes, Sections: []report.Section{{Answer: p.Answer}}}
	for _, t := range append(p.Tables[:len(p.Tables):len(p.Tables)], p.More...) {
		doc.Sections = append(doc.Sections, report.Section{Table: &t})
	}
	return doc
}

// markdown gathers documents below each other.
type markdown struct{ text bytes.Buffer }

// writeParts writes parts with headings of a level.
func (m *markdown) writeParts(parts []pagePart, level int) {
	for _, p := range parts {
		if p.Fold != "" {
			m.writeDoc(level, report.Doc{Title: p.Fold})
			m.writeParts(p.Parts, level+1)
			continue
		}
		var terms []string
		for _, t := range p.Terms {
			terms = append(terms, t.Word+": "+t.Meaning)
		}
		if len(terms) > 0 {
			p.Answer = append(p.Answer, strings.Join(terms, "\n"))
		}
		if p.Title == "" { // its tables stand right below what is above it
			m.writeDoc(level-1, docOf(p))
			continue
		}
		m.writeDoc(level, docOf(p))
	}
}

// writeDoc writes a document so many levels below the first; one without a title goes
// on with what is above it.
func (m *markdown) writeDoc(level int, doc report.Doc) {
	var b bytes.Buffer
	if err := report.Write(&b, "markdown", doc, nil, report.Style{}); err != nil {
		panic(err) // a buffer takes all that is written
	}
	text := b.String()
	if doc.Title == "" {
		_, text, _ = strings.Cut(text, "\n")
	} else if m.text.Len() > 0 {
		m.text.WriteByte('\n')
	}
	for _, line := range strings.SplitAfter(text, "\n") {
		if strings.HasPrefix(line, "#") { // text that begins so is escaped
			line = heading(strings.Repeat("#", level) + line)
		}
		m.text.WriteString(line)
	}
}

// maxHeading is the deepest heading that Markdown has.
const maxHeading = 6

// heading is a heading's line; one that is too deep for Markdown is a line in bold.
func heading(line string) string {
	text := strings.TrimLeft(line, "#")
	if len(line)-len(text) <= maxHeading {
		return line
	}
	return "**" + strings.TrimSpace(text) + "**\n"
}
