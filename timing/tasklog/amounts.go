package tasklog

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"headhours/timing/study"
)

// number is a cell's number, unknown where it is blank or a problem.
func (r *reader) number(c column) study.Maybe {
	return r.parsed(c, parseNumber)
}

// clock is a cell's time of day, unknown where it is blank or a problem.
func (r *reader) clock(c column) study.Maybe {
	return r.parsed(c, parseClock)
}

func (r *reader) parsed(c column, parse func(string, bool) (float64, error)) study.Maybe {
	text := r.cell(c)
	if text == "" {
		return study.Maybe{}
	}
	x, err := parse(text, r.comma)
	switch {
	case err != nil:
		r.bad(c, err.Error())
	case x > study.MaxNumber:
		r.bad(c, "is more than any farm has: at most 1000000000000")
	case 0 < x && x < study.LeastDivisor:
		r.bad(c, "is as good as 0: at least 0.000000001")
	default:
		return study.Known(x)
	}
	return study.Maybe{}
}

// sane says of a number what parsed wants of it.
func sane(x float64) bool {
	return x == 0 || study.LeastDivisor <= x && x <= study.MaxNumber
}

// time is a cell's time in seconds, unknown where it is blank or a problem. A
// time that may have been meant otherwise is a warning.
func (r *reader) time(c column) study.Maybe {
	return r.parsed(c, func(text string, comma bool) (float64, error) {
		x, doubtful, err := parseTime(text, comma)
		u := r.units[c]
		if u.seconds <= 1 {
			if doubtful {
				r.warn(r.place(r.at[c]), "%s", doubt(text, x))
			}
			return x, err
		}
		if err == nil && u.seconds == 3600 && strings.Count(text, ":") == 1 {
			return 0, errHours
		}
		if doubtful {
			r.warn(r.place(r.at[c]), "%s is read as %s %s: write %s if that was meant", study.Quote(text), text, u.name, strings.NewReplacer(".", ":", ",", ":").Replace(text))
		}
		if !strings.ContainsAny(text, ":hHmMsS") {
			x *= u.seconds
		}
		return x, err
	})
}

// doubt says how a time with two decimals is read, and how to write what else
// may have been meant.
func doubt(text string, seconds float64) string {
	minutes, hundredths := strconv.Itoa(int(seconds)), text[len(text)-2:]
	otherwise := number(seconds) + "min"
	if hundredths < "60" {
		otherwise = minutes + ":" + hundredths + " or " + otherwise
	}
	return fmt.Sprintf("%s is read as %s.%s seconds: write %s if minutes were meant", study.Quote(text), minutes, hundredths, otherwise)
}

// above0 is a number that must be above 0; blank is its value where the cell is
// blank.
func (r *reader) above0(c column, blank float64) float64 {
	if r.cell(c) == "" {
		return blank
	}
	x := r.number(c)
	if x.Known && x.Value == 0 {
		r.bad(c, "is not above 0")
	}
	return x.Value
}

// count may be 0 only where the row was set up by its own word: getting ready
// alone.
func (r *reader) count(setups study.Maybe) float64 {
	count := r.number(countColumn)
	switch {
	case r.cell(countColumn) == "" && r.isByVisit():
		return 1
	case r.cell(countColumn) == "":
		r.bad(countColumn, "is blank: how many units the time covered")
	case count.Known && count.Value == 0 && setups.Value == 0:
		r.bad(countColumn, "is not above 0: only a row whose setups are above 0 may do without")
	}
	return count.Value
}

// isByVisit says that the step of the row is counted by the visit.
func (r *reader) isByVisit() bool {
	step, _ := r.form.Step(r.cell(stepColumn))
	return r.form.Per[step] == "visit"
}

// chooseCount finds the count of the row in hand, where several columns may hold it: the
// one that is filled; of several that are, the one named like what the step counts.
func (r *reader) chooseCount() {
	if len(r.counts) < 2 {
		return
	}
	var filled, named []int
	step, _ := r.form.Step(r.cell(stepColumn))
	for _, at := range r.counts {
		if strings.TrimSpace(r.record[at]) == "" {
			continue
		}
		filled = append(filled, at)
		if isNamedLike(foldHeading(r.headings[at]).name, r.form.Per[step]) {
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
		r.bad(countColumn, fmt.Sprintf("stands beside another in %s: leave one of the two blank, or head one like what step %s counts",
			study.Quote(r.headings[filled[0]]), study.Quote(step)))
	}
}

// isNamedLike says whether a heading, in small letters, is a word for what is counted, or
// its plural.
func isNamedLike(heading, per string) bool {
	per = strings.ToLower(per)
	stem, isY := strings.CutSuffix(per, "y")
	return per != "" && (heading == per || heading == per+"s" || heading == per+"es" || isY && heading == stem+"ies")
}

// seconds is the net time of the row: the time where it is given, else from
// start to end, which may lie past midnight, less the pause.
func (r *reader) seconds(start, end, paused study.Maybe) float64 {
	if r.cell(timeColumn) != "" {
		t := r.time(timeColumn)
		if t.Known && t.Value == 0 {
			r.bad(timeColumn, "is not above 0")
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
	span := end.Value - start.Value
	if span < 0 {
		span += 24 * 3600
	}
	// Clock times with decimals are good to a nanosecond; what their difference
	// has beyond that is rounding, which must not make a time out of nothing.
	net := math.Round((span-paused.Value)*1e9) / 1e9
	if net <= 0 {
		r.bad(endColumn, "leaves no time: later than start "+study.Quote(r.cell(startColumn))+" by more than the pause")
	}
	return net
}

// noTime blames the time, or the one of start and end that is blank.
func (r *reader) noTime() {
	switch {
	case r.at[timeColumn] >= 0:
		r.bad(timeColumn, "is blank: give it, or both start and end")
	case r.cell(startColumn) == "":
		r.bad(startColumn, "is blank: without a time, both start and end are needed")
	default:
		r.bad(endColumn, "is blank: without a time, both start and end are needed")
	}
}
