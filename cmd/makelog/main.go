// Makelog writes a large invented task log, for measuring how fast one is read:
//
//	go run ./cmd/makelog --readings 10000000 -o big.csv
//
// or, with --shape, one of other columns. The same seed gives the same bytes. The figures are nobody's.
package main

import (
	"bufio"
	"fmt"
	"io"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"

	"github.com/spf13/pflag"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	set := pflag.NewFlagSet("makelog", pflag.ContinueOnError)
	set.SetOutput(stderr)
	readings := set.Int("readings", 1000, "`N` readings")
	seed := set.Uint64("seed", 1, "`SEED` of the invented figures")
	layout := set.String("shape", "usual", "lay the log out by this `NAME`: "+strings.Join(slices.Sorted(maps.Keys(shapes)), ", "))
	output := set.StringP("output", "o", "", "write to `FILE` instead of standard output")
	if err := set.Parse(args); err != nil {
		return 2
	}
	s, err := shapeNamed(*layout)
	if err != nil {
		fmt.Fprintf(stderr, "makelog: %s\n", err)
		return 2
	}
	if err := write(*output, stdout, s, *readings, *seed); err != nil {
		fmt.Fprintf(stderr, "makelog: %s\n", err)
		return 1
	}
	return 0
}

func write(name string, stdout io.Writer, s shape, readings int, seed uint64) (err error) {
	if name == "" {
		return log(stdout, s, readings, seed)
	}
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	if err := log(f, s, readings, seed); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// steps are invented: a setup time and a time per unit in seconds, and the
// least and most counts.
var steps = []struct {
	name        string
	setup, unit float64
	least, most int
}{
	{"soak and fill trays", 150, 25, 1, 12},
	{"sow", 45, 4.3, 24, 600},
	{"thin", 45, 3.2, 10, 300},
	{"transplant", 290, 8.3, 12, 400},
	{"mix feed", 150, 0.9, 20, 900},
	{"top up", 50, 2.7, 4, 200},
	{"harvest", 130, 24, 6, 400},
	{"rinse and cool", 40, 38, 1, 40},
	{"weigh and label", 30, 5.5, 6, 400},
}

// log writes readings with counts spread evenly and times that scatter by a
// tenth, lognormally.
func log(w io.Writer, layout shape, readings int, seed uint64) error {
	out := bufio.NewWriterSize(w, 1<<20)
	columns := strings.Split(layout.columns, ",")
	if _, err := out.WriteString(layout.mark + strings.Join(columns, string(layout.separator)) + layout.end); err != nil {
		return err
	}
	random := rand.New(rand.NewPCG(seed, 0))
	var row []byte
	for i := range readings {
		s := steps[random.IntN(len(steps))]
		r := reading{row: i, step: s.name, count: s.least + random.IntN(s.most-s.least+1)}
		r.seconds = (s.setup + s.unit*float64(r.count)) * math.Exp(0.1*random.NormFloat64())
		r.worker = random.IntN(12)
		row = row[:0]
		for k, column := range columns {
			if k > 0 {
				row = append(row, layout.separator)
			}
			row = layout.cell(row, column, &r)
		}
		if _, err := out.Write(append(row, layout.end...)); err != nil {
			return err
		}
	}
	return out.Flush()
}
