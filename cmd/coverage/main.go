// Command coverage asks whether the intervals keep their promise: it invents growers
// whose true setup and unit times it knows, draws their readings, and counts how
// often the intervals that headhours gives hold the truth.
//
//	go run ./cmd/coverage
//
// Scenarios differ in how many readings there are, at which counts, how they scatter
// and what the grower tells of a step; see scenarios. Every answer comes from
// answer.Fit and Compare themselves. The same seed gives the same table, however many
// cores work at it.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"headhours/timing/study"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// Exit statuses.
const (
	done     = 0
	failed   = 1
	badUsage = 2
)

func run(args []string, stdout, stderr io.Writer) int {
	set := pflag.NewFlagSet("coverage", pflag.ContinueOnError)
	set.SetOutput(stderr)
	replicates := set.Int("replicates", 1500, "invent `N` growers in each scenario")
	seed := set.Uint64("seed", 1, "start random numbers from `SEED`")
	wanted := set.StringArray("scenario", nil, "only scenarios with `TEXT` in their name (repeatable)")
	plans := set.Int("plans", 0, "also try the plans of `N` growers: are they met?")
	switch err := set.Parse(args); {
	case errors.Is(err, pflag.ErrHelp):
		return done
	case err != nil:
		fmt.Fprintf(stderr, "coverage: %s\n", err)
		return badUsage
	case set.NArg() > 0:
		fmt.Fprintf(stderr, "coverage: %q: no arguments are taken\n", set.Args())
		return badUsage
	case *replicates < 1:
		fmt.Fprintf(stderr, "coverage: --replicates %d: a whole number above 0 is needed\n", *replicates)
		return badUsage
	case *plans < 0:
		fmt.Fprintf(stderr, "coverage: --plans %d: a whole number of 0 or more is needed\n", *plans)
		return badUsage
	}
	chosen := choose(scenarios(), *wanted)
	if len(chosen) == 0 {
		fmt.Fprintf(stderr, "coverage: no scenario has %q in its name\n", *wanted)
		return badUsage
	}
	bar := &progress{total: *replicates * len(chosen)}
	if file, ok := stderr.(*os.File); ok && term.IsTerminal(int(file.Fd())) {
		bar.to = stderr
	}
	results := simulate(chosen, *replicates, *seed, bar.step)
	bar.end()
	if err := writeTable(stdout, results, study.DefaultConfidence, *replicates, *seed); err != nil {
		fmt.Fprintf(stderr, "coverage: %s\n", err)
		return failed
	}
	if *plans > 0 {
		if err := writePlans(stdout, *plans, *seed); err != nil {
			fmt.Fprintf(stderr, "coverage: %s\n", err)
			return failed
		}
	}
	return done
}

// choose takes the scenarios with one of the texts in their name; no texts, all.
func choose(all []scenario, texts []string) []scenario {
	var chosen []scenario
	for _, s := range all {
		take := len(texts) == 0
		for _, text := range texts {
			take = take || strings.Contains(s.name, text)
		}
		if take {
			chosen = append(chosen, s)
		}
	}
	return chosen
}
