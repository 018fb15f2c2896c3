package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"headhours/timing/study"
	"headhours/timing/words"
)

// Formats lists the formats an answer can be written in.
var Formats = []string{"text", "json", "csv", Semicolons, "markdown"}

// Semicolons is the format of CSV with semicolons between cells and decimal commas, as spreadsheets
// write and read it where a comma is decimal.
const Semicolons = "semicolons"

// IsCSV says whether a format is CSV, which has one table a file.
func IsCSV(format string) bool { return format == "csv" || format == Semicolons }

// Write writes an answer in one of Formats: doc for people, value for JSON. The
// error is w's.
func Write(w io.Writer, format string, doc Doc, value any, style Style) error {
	switch format {
	case "json":
		return writeJSON(w, value)
	case "csv":
		return writeCSV(w, doc, ',', ".")
	case Semicolons:
		return writeCSV(w, doc, ';', ",")
	case "markdown":
		return writeMarkdown(w, doc)
	default:
		return writeText(w, doc, style)
	}
}

// writeJSON writes what a terminal would act on as \u escapes, which say the same.
func writeJSON(w io.Writer, value any) error {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		return err
	}
	text := b.Bytes()
	if slices.ContainsFunc(text, mayBeHidden) {
		var escaped []byte
		for _, r := range b.String() {
			switch {
			case !hiddenInJSON(r):
				escaped = utf8.AppendRune(escaped, r)
			case r > 0xffff:
				high, low := utf16.EncodeRune(r)
				escaped = fmt.Appendf(escaped, `\u%04x\u%04x`, high, low)
			default:
				escaped = fmt.Appendf(escaped, `\u%04x`, r)
			}
		}
		text = escaped
	}
	_, err := w.Write(text)
	return err
}

// mayBeHidden says whether a byte of JSON may be of a letter that is: below these it has ends of
// lines and what is seen alone.
func mayBeHidden(b byte) bool { return b > '~' }

// hiddenInJSON leaves out the ends of lines, which stand between strings.
func hiddenInJSON(r rune) bool { return r != '\n' && words.Hidden(r) }

// writeCSV writes the first table, since a spreadsheet reads one a file; see
// Doc.TableIDs for the others.
func writeCSV(w io.Writer, doc Doc, separator rune, mark string) error {
	ids := doc.TableIDs()
	if len(ids) == 0 {
		return nil
	}
	table := doc.Section(ids[0]).Table
	out := csv.NewWriter(w)
	out.UseCRLF, out.Comma = true, separator
	var keys []string
	for _, c := range table.Columns {
		if c.Key != "" {
			keys = append(keys, c.Key)
		}
	}
	out.Write(keys)
	for _, row := range table.Rows {
		var record []string
		for j, cell := range row {
			if table.Columns[j].Key != "" {
				record = append(record, plainWith(mark, cell.Value))
			}
		}
		out.Write(record)
	}
	out.Flush()
	return out.Error()
}

// knownDigits is a figure to six significant digits, which is more than any timing tells;
// JSON has all of them. Whole numbers stay whole.
func knownDigits(x float64) string {
	if x != math.Trunc(x) {
		x = words.Rounded(x, 6)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// plainWith is plain, with a decimal mark of its own in numbers.
func plainWith(mark string, value any) string {
	text := plain(value)
	switch value.(type) {
	case study.Maybe, float64:
		return strings.Replace(text, ".", mark, 1)
	}
	return text
}

// plain is a cell's value as a spreadsheet reads it. Text that one
// would run as a formula is led by an apostrophe; what a terminal would act on is
// written as escapes.
func plain(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case study.Maybe:
		if !v.Known {
			return ""
		}
		return knownDigits(v.Value)
	case float64:
		return knownDigits(v)
	case []string:
		return plain(strings.Join(v, "; "))
	case string:
		v = words.ShowCell(v)
		if words.MayBeFormula(v) {
			return "'" + v
		}
		return v
	default:
		return fmt.Sprint(v)
	}
}

func writeMarkdown(w io.Writer, doc Doc) error {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", markdown(doc.Title))
	for _, paragraph := range doc.Words() {
		b.WriteByte('\n')
		lines := strings.Split(paragraph, "\n")
		for _, line := range lines {
			if len(lines) > 1 {
				line = "- " + markdown(line)
			} else {
				line = markdown(line)
			}
			b.WriteString(line + "\n")
		}
	}
	for _, table := range doc.Tables() {
		if table.For == Programs {
			continue
		}
		fmt.Fprintf(&b, "\n## %s\n\n|", markdown(table.Title))
		for _, c := range table.Columns {
			fmt.Fprintf(&b, " %s |", markdown(c.name()))
		}
		b.WriteString("\n|")
		for _, c := range table.Columns {
			if c.Right {
				b.WriteString("---:|")
			} else {
				b.WriteString("---|")
			}
		}
		for _, row := range table.Rows {
			b.WriteString("\n|")
			for _, cell := range row {
				fmt.Fprintf(&b, " %s |", markdown(cell.Text))
			}
		}
		b.WriteByte('\n')
	}
	if len(doc.Notes) > 0 {
		b.WriteString("\n## Notes\n\n")
		for _, note := range doc.Notes {
			fmt.Fprintf(&b, "- %s\n", markdown(note))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// name is a column's heading, or of one whose figures have none in text, where others stand before
// them, the words of its key.
func (c Column) name() string {
	if c.Head != "" {
		return c.Head
	}
	return strings.ReplaceAll(c.Key, "_", " ")
}

// markdown is text with what Markdown or HTML would act on escaped.
func markdown(text string) string {
	return strings.NewReplacer(
		`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "~", `\~`, "|", `\|`, "&", "&amp;", "<", "&lt;", ">", "&gt;",
		"[", `\[`, "]", `\]`, "#", `\#`, "\n", " ",
	).Replace(text)
}
