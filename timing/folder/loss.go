package folder

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/study"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

// maxLost is of how many rows it is said what would be lost.
const maxLost = 5

// lossOf is the error of a log that is to be written anew from readings of journals: what
// its rows say otherwise, or beyond that, would be lost.
func lossOf(l *logFile, rows, anew []study.Reading) error {
	byJournal := make(map[string]study.Reading, len(anew))
	for _, r := range anew {
		byJournal[r.Journal] = r
	}
	var lost []string
	for _, r := range rows {
		same, ok := byJournal[r.Journal]
		if !ok {
			return fmt.Errorf("%s: this reading of %s is in no journal and would be lost: give another file to write to", r.Place, words.Quote(r.Step))
		}
		if differ := tasklog.Differences(r, same); len(differ) > 0 {
			lost = append(lost, fmt.Sprintf("line %d has %s", r.Place.Line, strings.Join(differ, ", ")))
		}
	}
	if len(l.unused) > 0 {
		lost = append(lost, "it has columns that no journal has: "+words.QuoteList(l.unused, 8))
	}
	if len(lost) == 0 {
		return nil
	}
	if more := len(lost) - maxLost; more > 0 {
		lost = append(lost[:maxLost], words.More(more))
	}
	return errors.New(l.path + " is not as its journals say, and what differs would be lost: give another file to write to, or take this one away first\n  " +
		strings.Join(lost, "\n  "))
}
