package folder

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/words"
)

// voidCells is what the cells say that void readings of a log.
type voidCells struct {
	readings int         // that are void
	denied   int         // of them, those whose cell reads as if they were not
	first    study.Place // of those
	text     string      // of that
}

// take takes in a batch of the log.
func (v *voidCells) take(b *condense.Batch) {
	v.readings += len(b.Voids)
	if !slices.ContainsFunc(b.Voids, deniesVoid) {
		return
	}
	for r, reason := range b.Voided() {
		if !deniesVoid(reason) {
			continue
		}
		if v.denied == 0 {
			v.first, v.text = b.Place(r), reason
		}
		v.denied++
	}
}

// deniesVoid says whether a reason reads as if there were none: spreadsheets fill a column
// with such.
func deniesVoid(reason string) bool {
	switch strings.ToLower(reason) {
	case "false", "f", "no", "n", "nein", "non", "nee", "nej", "none", "not", "n/a", "0", "-", "–", "—":
		return true
	}
	return false
}

// lookAtVoids warns of readings that are void by a cell that was hardly meant so.
func (o *opener) lookAtVoids(v *voidCells) {
	if v.denied == 0 {
		return
	}
	text := fmt.Sprintf("void %s voids its reading, as any text there does: leave the cell blank where the reading counts", words.Quote(v.text))
	if v.denied > 1 {
		text += fmt.Sprintf(" (%d rows have the like)", v.denied)
	}
	o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: v.first, Text: text})
}
