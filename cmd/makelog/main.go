// Makelog writes a large invented task log, for measuring how fast one is read:
//
//	go run ./cmd/makelog --readings 10000000 -o big.csv
//
// The same seed gives the same bytes. The figures are nobody's.
package main

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"time"

	"github.com/spf13/pflag"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	set := pflag.NewFlagSet("makelog", pflag.ContinueOnError)
	set.SetOutput(stderr)
	readings := set.Int("readings", 1000, "`N` readings")
	seed := set.Uint64("seed", 1, "`SEED` of the invented figures")
	output := set.StringP("output", "o", "", "write to `FILE` instead of standard output")
	if err := set.Parse(args); err != nil {
		return 2
	}
	if err := write(*output, stdout, *readings, *seed); err != nil {
		fmt.Fprintf(stderr, "makelog: %s\n", err)
		return 1
	}
	return 0
}

func write(name string, stdout io.Writer, readings int, seed uint64) (err error) {
	if name == "" {
		return log(stdout, readings, seed)
	}
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	if err := log(f, readings, seed); err != nil {
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
func log(w io.Writer, readings int, seed uint64) error {
	out := bufio.NewWriterSize(w, 1<<20)
	if _, err := out.WriteString("date,grow,workflow,step,worker,people,count,time,setups,source\n"); err != nil {
		return err
	}
	r := rand.New(rand.NewPCG(seed, 0))
	first := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	var row []byte
	for i := range readings {
		s := steps[r.IntN(len(steps))]
		count := s.least + r.IntN(s.most-s.least+1)
		seconds := (s.setup + s.unit*float64(count)) * math.Exp(0.1*r.NormFloat64())
		grow := i / 40 % 5000
		row = first.AddDate(0, 0, i/2000%300).AppendFormat(row[:0], "2006-01-02,g")
		row = strconv.AppendInt(row, int64(grow), 10)
		row = append(row, ",tray,"...)
		row = append(row, s.name...)
		row = append(row, ",w"...)
		row = strconv.AppendInt(row, int64(r.IntN(12)), 10)
		row = append(row, ",1,"...)
		row = strconv.AppendInt(row, int64(count), 10)
		row = append(row, ',')
		row = strconv.AppendFloat(row, seconds, 'f', 1, 64)
		row = append(row, ",1,watch\n"...)
		if _, err := out.Write(row); err != nil {
			return err
		}
	}
	return out.Flush()
}
