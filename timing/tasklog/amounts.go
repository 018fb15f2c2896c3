package tasklog

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/words"
)

// orElse is what a cell holds that must be above 0; blank is its value where the cell is
// blank.
func (r *reader) orElse(c column, blank float64) float64 {
	if r.cell(c) == "" {
		return blank
	}
	x, err := r.above0(c, r.cell(c))
	if err != nil {
		r.bad(c, err)
	}
	return x
}

// timeIn is a cell's time in seconds, unknown where it is blank or a problem. A
// time that may have been meant otherwise is a warning.
func (r *reader) timeIn(c column) study.Maybe {
	x, doubtful := r.figure(c)
	if doubtful {
		r.warn(r.place(r.at[c]), "%s", r.doubt(c, r.cell(c)))
	}
	return x
}

// doubt says how a time with two decimals is read, and how to write what else
// may have been meant.
func (r *reader) doubt(c column, text string) string {
	number, _, _ := notation.Duration(text, r.form.comma)
	whole, hundredths := int(number), text[len(text)-2:]
	u, isTime := r.units[c], hundredths < "60"
	of, otherwise := cmp.Or(u.name, "seconds"), plainNumber(number)+"min if minutes were meant"
	switch {
	case u.seconds == 3600 && isTime:
		rest, _ := strconv.Atoi(hundredths)
		otherwise = fmt.Sprintf("%dh%sm or %dmin if that was meant", whole, hundredths, 60*whole+rest)
	case u.seconds == 60 && isTime:
		otherwise = fmt.Sprintf("%d:%s if that was meant", whole, hundredths)
	case u.seconds == 60:
		otherwise = plainNumber(number) + "s if seconds were meant"
	case u.seconds <= 1 && isTime:
		otherwise = fmt.Sprintf("%d:%s or %s", whole, hundredths, otherwise)
	}
	return fmt.Sprintf("%s is read as %d.%s %s: write %s", words.Quote(text), whole, hundredths, of, otherwise)
}

// count may be 0 only where the row was set up by its own word: getting ready
// alone.
func (r *reader) count(setups study.Maybe) float64 {
	count, doubtful := r.figure(countColumn)
	if text := r.cell(countColumn); doubtful {
		r.warn(r.place(r.at[countColumn]), "%s is read as %s: write %s if that was meant", words.Quote(text), plainNumber(count.Value), strings.Replace(text, ".", "", 1))
	}
	switch {
	case r.cell(countColumn) == "" && r.isByVisit():
		return 1
	case r.cell(countColumn) == "":
		r.bad(countColumn, r.noCount())
	case count.Known && count.Value == 0 && setups.Value == 0:
		r.bad(countColumn, errZeroCount)
	}
	return count.Value
}

// noCount says that a count is blank, and which column of no other use has a number there.
func (r *reader) noCount() error {
	for at, heading := range r.headings {
		if heading == "" || slices.Contains(r.at[:], at) || slices.Contains(r.counts, at) {
			continue
		}
		if _, err := r.above0(countColumn, strings.TrimSpace(r.record[at])); err == nil {
			return fmt.Errorf("%w. Is it in %s? Then write in study.toml, under [log.columns]: count = [%s, %s]",
				errNoCount, words.Quote(heading), study.TOMLText(r.headings[r.at[countColumn]]), study.TOMLText(heading))
		}
	}
	return errNoCount
}

// isByVisit says that the step of the row is counted by the visit.
func (r *reader) isByVisit() bool {
	step, _ := r.dialect.OurStep(r.cell(stepColumn))
	return r.dialect.Per[step] == "visit"
}

// chooseCount finds the count of the row in hand, where several columns may hold it: the
// one that is filled; of several that are, the one named like what the step counts.
func (r *reader) chooseCount() {
	if len(r.counts) < 2 {
		return
	}
	var filled, named []int
	step, _ := r.dialect.OurStep(r.cell(stepColumn))
	for _, at := range r.counts {
		if strings.TrimSpace(r.record[at]) == "" {
			continue
		}
		filled = append(filled, at)
		if isNamedLike(foldHeading(r.headings[at]).name, r.dialect.Per[step]) {
			named = append(named, at)
		}
	}
	switch {
	case len(filled) == 0:
		r.at[countColumn] = r.counts[0]
	case len(filled) == 1:
		r.at[countColumn] = filled[0]
	case len(named) == 1:
		r.at[countColumn] = named[0]
	default:
		r.at[countColumn] = filled[1]
		r.bad(countColumn, fmt.Errorf("stands beside another in %s: leave one of the two blank, or head one like what step %s counts",
			words.Quote(r.headings[filled[0]]), words.Quote(step)))
	}
}

// isNamedLike says whether a heading, in small letters, is a word for what is counted, or
// its plural.
func isNamedLike(heading, per string) bool {
	per = strings.ToLower(per)
	stem, isY := strings.CutSuffix(per, "y")
	return per != "" && (heading == per || heading == per+"s" || heading == per+"es" || isY && heading == stem+"ies")
}

// basic is the net time of the row: the time where it is given, else from
// start to end less the pause.
func (r *reader) basic(start, end, paused study.Maybe) float64 {
	if r.cell(timeColumn) != "" {
		t := r.timeIn(timeColumn)
		if t.Known && t.Value == 0 {
			r.bad(timeColumn, errNotAbove0)
		}
		return t.Value
	}
	if r.cell(startColumn) == "" || r.cell(endColumn) == "" {
		r.noTime()
		return 0
	}
	pauseIsBad := r.cell(pausedColumn) != "" && !paused.Known
	if !start.Known || !end.Known || pauseIsBad {
		return 0 // a problem already
	}
	net := netTime(start.Value, end.Value, paused.Value)
	if net <= 0 {
		r.bad(endColumn, fmt.Errorf("leaves no time: later than start %s by more than the pause", words.Quote(r.cell(startColumn))))
	}
	return net
}

// netTime is the time from a clock time to another, which may lie past midnight, less a
// pause. Clock times with decimals are good to a nanosecond; what their difference has
// beyond that is rounding, which must not make a time out of nothing.
func netTime(start, end, paused float64) float64 {
	span := end - start
	if span < 0 {
		span += 24 * 3600
	}
	net := span - paused
	if whole := float64(int64(net)); whole == net {
		return net
	}
	return math.Round(net*1e9) / 1e9
}

// noTime blames the time, or the one of start and end that is blank.
func (r *reader) noTime() {
	switch {
	case r.at[timeColumn] >= 0:
		r.bad(timeColumn, errNoTime)
	case r.cell(startColumn) == "":
		r.bad(startColumn, errNoClock)
	default:
		r.bad(endColumn, errNoClock)
	}
}
