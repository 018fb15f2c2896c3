package folder

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"headhours/timing"
	"headhours/timing/stopwatch"
)

func isJournal(path string) bool { return filepath.Ext(path) == stopwatch.Extension }

// journals reads the stopwatch's journals, when all logs have been.
func (o *opener) journals(paths []string) {
	o.opened.logged = len(o.opened.Readings)
	held := o.held()
	for _, path := range paths {
		o.journal(path, held)
	}
}

// held is where logs hold readings of journals. One that two rows hold counts
// twice, which is hardly meant.
func (o *opener) held() map[string]timing.Place {
	held := map[string]timing.Place{}
	for _, r := range o.opened.Readings {
		if !strings.Contains(r.Journal, stopwatch.Extension+":") {
			continue // another use of the column, or none
		}
		if first, again := held[r.Journal]; again {
			text := fmt.Sprintf("journal: %q stands at %s too and counts twice: void or delete one of the two", r.Journal, first)
			o.opened.Warnings = append(o.opened.Warnings, timing.Problem{Place: r.Place, Text: text})
			continue
		}
		held[r.Journal] = r.Place
	}
	return held
}

// journal reads one journal.
func (o *opener) journal(path string, held map[string]timing.Place) {
	data, err := os.ReadFile(path)
	if err != nil {
		o.unreadable(path, err)
		return
	}
	contents, err := stopwatch.Read(bytes.NewReader(data), path)
	o.opened.Warnings = append(o.opened.Warnings, contents.Warnings...)
	if problems, ok := errors.AsType[timing.Problems](err); ok {
		o.problems = append(o.problems, problems...)
		return
	}
	state := stopwatch.Fold(path, contents.Events)
	o.opened.Warnings = append(o.opened.Warnings, state.Warnings...)
	o.opened.Warnings = append(o.opened.Warnings, state.Open()...)
	for _, r := range state.Readings {
		o.known(r.Place, "step", r.Step, o.names.Steps)
		o.known(r.Place, "workflow", r.Workflow, o.names.Workflows)
	}
	before := len(o.opened.Readings)
	for _, r := range state.Complete() {
		if _, logged := held[r.Journal]; !logged {
			o.opened.Readings = append(o.opened.Readings, r)
		}
	}
	sum := sha256.Sum256(data)
	o.opened.Journals = append(o.opened.Journals, state)
	o.opened.Files = append(o.opened.Files, File{
		Name:     o.relative(path),
		SHA256:   hex.EncodeToString(sum[:]),
		Readings: len(o.opened.Readings) - before,
	})
}

// known holds a journal to the study's names, of which nil lets any pass.
func (o *opener) known(at timing.Place, kind, name string, names []string) {
	if name != "" && names != nil && !slices.Contains(names, name) {
		o.problems = append(o.problems, timing.Problem{Place: at, Text: noneNamed(kind, name, names)})
	}
}

// Unlogged gives the readings of the journals that no log holds, voided ones too,
// and how many more a log does. A log of the name target, which may be "", is
// passed over: it is about to be written anew. Where it holds readings that no
// journal has, which would be lost, that is an error.
func (o Opened) Unlogged(target string) (readings []timing.Reading, logged int, err error) {
	recorded, held := o.recorded(), map[string]bool{}
	for _, r := range o.Readings[:o.logged] {
		switch {
		case !sameFile(r.Place.File, target):
			held[r.Journal] = true
		case !recorded[r.Journal]:
			return nil, 0, fmt.Errorf("%s: this reading of %q is in no journal and would be lost: give another file to write to", r.Place, r.Step)
		}
	}
	for _, s := range o.Journals {
		for _, r := range s.Complete() {
			if held[r.Journal] {
				logged++
				continue
			}
			readings = append(readings, r)
		}
	}
	return readings, logged, nil
}

// recorded is what the column journal says of the readings of the journals.
func (o Opened) recorded() map[string]bool {
	recorded := map[string]bool{}
	for _, s := range o.Journals {
		for _, r := range s.Readings {
			recorded[r.Journal] = true
		}
	}
	return recorded
}

func sameFile(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// Named is what has a name of the days that logs and journals tell of, each
// reading once: a journal's by its session, even where a log holds it.
func (o Opened) Named() []timing.Named {
	var named []timing.Named
	for _, s := range o.Journals {
		named = append(named, s.Named()...)
	}
	recorded := o.recorded()
	for _, r := range o.Readings {
		if n, noted := r.Named(); noted && !recorded[r.Journal] {
			named = append(named, n)
		}
	}
	return named
}
