package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

const reading = `Coverage of %g %% intervals, %d invented growers a row, seed %d. A cell is the share in
percent of intervals that held the truth, ± the simulation's own standard error, and
w, their mean width in percent of the truth; of break-evens the median width of the
sets that are an interval; of differences in percent of the first way's hours. A figure
in brackets is the share of answers that had an interval at all, where some had none. A
setup or unit time that the model lacks is a miss unless there truly is none.
`

// writeTable writes the results in Markdown, a table for each group of scenarios.
func writeTable(w io.Writer, results []result, confidence float64, replicates int, seed uint64) error {
	var b strings.Builder
	fmt.Fprintf(&b, reading, 100*confidence, replicates, seed)
	for len(results) > 0 {
		n := 1
		for n < len(results) && results[n].group == results[0].group {
			n++
		}
		fmt.Fprintf(&b, "\n### %s\n\n", results[0].group)
		b.WriteString(markdown(rows(results[:n])))
		results = results[n:]
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// rows are the cells of a table, its heads first. What every row would repeat, the
// only rule or a scenario's name, is left out.
func rows(results []result) [][]string {
	heads := []string{"readings", "rule"}
	for a := range answers {
		heads = append(heads, a.String())
	}
	table := [][]string{heads}
	before := ""
	for _, r := range results {
		row := []string{r.scenario, r.rule}
		if r.scenario == before {
			row[0] = ""
		}
		before = r.scenario
		for _, c := range r.answers {
			row = append(row, c.String())
		}
		table = append(table, row)
	}
	return table
}

// String is the cell of a coverage.
func (c coverage) String() string {
	if c.withRange == 0 {
		return "-"
	}
	text := fmt.Sprintf("%.1f±%.1f", 100*c.share, 100*c.err)
	if c.bounded {
		text += fmt.Sprintf(" w%.0f", 100*c.width)
	}
	if c.withRange < 0.995 {
		text += fmt.Sprintf(" [%.2g]", 100*c.withRange)
	}
	return text
}

// markdown lays rows out with their columns aligned, the first two to the left.
func markdown(table [][]string) string {
	widths := make([]int, len(table[0]))
	for _, row := range table {
		for j, cell := range row {
			widths[j] = max(widths[j], ansi.StringWidth(cell))
		}
	}
	var b strings.Builder
	line := func(cells []string, fill string) {
		for j, cell := range cells {
			blanks := strings.Repeat(fill, widths[j]-ansi.StringWidth(cell))
			if j < 2 {
				cell += blanks
			} else {
				cell = blanks + cell
			}
			b.WriteString("| " + cell + " ")
		}
		b.WriteString("|\n")
	}
	line(table[0], " ")
	rule := make([]string, len(widths))
	for j := range rule {
		if j >= 2 {
			rule[j] = ":"
		}
	}
	line(rule, "-")
	for _, row := range table[1:] {
		line(row, " ")
	}
	return b.String()
}
