package tasklog

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"headhours/timing/condense"
)

// quoted is a log with every cell in quotes.
func quoted(text string) string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	for i, line := range lines {
		lines[i] = `"` + strings.ReplaceAll(line, ",", `","`) + `"`
	}
	return strings.Join(lines, "\n") + "\n"
}

// logOf is an invented log of rows that each put a time and a note their own way, as
// little regular as those of work are: a processor learns what comes again.
func logOf(readings int, time func(*rand.Rand) string, note string) string {
	r := rand.New(rand.NewPCG(1, 2))
	var text strings.Builder
	text.WriteString("date,grow,workflow,step,worker,people,time,count,source,note\n")
	for i := range readings {
		fmt.Fprintf(&text, "2026-03-%02d,g%d,by hand,%s,w%d,1,%s,%d,watch,%s\n", i/1000%31+1, i/40,
			[]string{"sow", "thin", "transplant"}[r.IntN(3)], r.IntN(12), time(r), 4+r.IntN(200), note)
	}
	return text.String()
}

// BenchmarkLog tells how fast logs are read, and how often memory is asked for: of rows
// that are read in place, of times that are not plain numbers, and of quoted cells.
func BenchmarkLog(b *testing.B) {
	const readings = 100_000
	seconds := func(r *rand.Rand) string { return fmt.Sprintf("%.1f", 20+2000*r.Float64()) }
	minutes := func(r *rand.Rand) string { return fmt.Sprintf("%d:%02d", 1+r.IntN(20), r.IntN(60)) }
	names := Dialect{Steps: []string{"thin", "transplant", "sow"}, Workflows: []string{"by hand"}}
	for _, kind := range []struct{ name, text string }{
		{"plain", logOf(readings, seconds, "")},
		{"minutes", logOf(readings, minutes, "")},
		{"quoted notes", logOf(readings, seconds, `"wet, cold"`)},
		{"quoted cells", quoted(logOf(readings, seconds, ""))},
	} {
		b.Run(kind.name, func(b *testing.B) {
			b.SetBytes(int64(len(kind.text)))
			b.ReportAllocs()
			for b.Loop() {
				found, err := Scan(strings.NewReader(kind.text), "monday.csv", names, nil, func(*condense.Batch) error { return nil })
				if err != nil || found.Readings != readings {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*readings), "ns/reading")
		})
	}
}
