package tasklog

import (
	"bytes"
	"slices"

	"headhours/timing/condense"
)

// maxStretch is how many rows are read side by side: few enough that what is known of them
// stays near.
const maxStretch = 192

// stretch is rows that are read side by side, a column of all of them at a time.
type stretch struct {
	rows        int                     // how many
	several     bool                    // some of the chunk have several lines
	lacks       bool                    // one may have no count or time
	unclocked   bool                    // one may have a blank time of day
	inQuotes    bool                    // the chunk has cells that are
	quotes      [maxStretch]uint32      // then how many of them were passed in each
	doubts      [maxStretch]uint8       // how many of its figures may have been meant otherwise, and are not told of
	lines       [maxStretch + 1]uint32  // where so, how many line ends are within the rows above each
	starts      [maxStretch + 1]uint32  // where they begin; behind the last, where the next does
	at          [maxStretch]uint32      // where each goes on
	odd         uint64                  // of the cells of the chunk that were skipped, see odd
	untold      bool                    // no more doubts of the chunk are listed
	figures     [figuresOfRow][]float64 // what each says, blankFigure where it is blank; counts and times are those of the batch
	days        []condense.Day          // those of the batch
	inner       [maxStretch]uint32      // where what is in a cell begins, in quotes or behind blanks
	innerDoubts [maxStretch]uint8       // of these
	other       [maxStretch]float64     // counts of a further column
	ids         [2][maxStretch]uint32   // of cells that they have, see idsOf
}

// plainRows reads the rows from an offset up to an end, or up to one that is blank or is to
// be told of, and says how far that is.
func (p *parser) plainRows(data []byte, from, end int) (behind int) {
	s, b := &p.stretch, &p.parsed.batch
	for from < end {
		if slices.ContainsFunc(p.recurring, (*recurring).isFull) {
			p.forgetCells()
		}
		s.begin(data, from, end, min(p.pace, maxStretch))
		s.lacks, s.unclocked = p.lacks, false
		if s.inQuotes {
			clear(s.quotes[:s.rows])
		}
		clear(s.doubts[:s.rows])
		begun := s.rows
		if begun == 0 {
			break
		}
		above := b.Rows.Len()
		b.Rows.SetLen(above + begun)
		s.figures[ofCount], s.figures[ofTime], s.days = b.Rows.Count[above:], b.Rows.Seconds[above:], b.Rows.Day[above:]
		for _, c := range p.columns {
			c.read(s, data)
		}
		if !p.passedText(data[from:end]) {
			b.Rows.SetLen(above)
			break
		}
		p.takeRows(data, above)
		if s.rows == begun {
			p.pace = max(p.pace, 2*begun)
		} else {
			p.pace = s.rows + 1 // where few could be read, few are tried
		}
		if s.rows > 0 {
			from = int(s.at[s.rows-1])
		}
		if s.rows < begun && from == int(s.starts[s.rows]) { // no row of several lines ended it
			break
		}
	}
	return from
}

// passedText says whether the cells that were skipped are text. Where some may be none, all that follows of the
// chunk is looked through, once.
func (p *parser) passedText(rest []byte) bool {
	if p.stretch.odd&highest != 0 && !p.isText {
		p.isText = isText(rest)
		p.isNone = !p.isText
	}
	return !p.isNone
}

// begin finds where rows begin, from an offset on, at most so many and up to a blank one. The
// first row of several lines in a chunk passes for several rows until it was read.
func (s *stretch) begin(data []byte, from, end, most int) {
	rows, starts, n := data[:end], s.starts[:most+1], 0
	for ; n < len(starts)-1; n++ {
		starts[n] = uint32(from)
		size := bytes.IndexByte(rows[from:], '\n') + 1
		if size <= 2 && (size <= 1 || rows[from] == '\r') {
			break
		}
		if s.several {
			size = s.wholeRow(rows[from:], n, size)
		}
		from += size
	}
	starts[n] = uint32(from)
	copy(s.at[:], starts[:n])
	s.rows = n
}

// passed counts the quotes of a cell of a row.
func (s *stretch) passed(row int, cell []byte) {
	if s.inQuotes {
		s.quotes[row] += uint32(countQuotes(cell))
	}
}

// wholeRow is the size of a row whose first line has so many bytes: its quotes are pairs.
func (s *stretch) wholeRow(rest []byte, row, size int) int {
	quote, within := []byte{'"'}, s.lines[row]
	for open := bytes.Count(rest[:size], quote)%2 == 1; open; within++ {
		line := bytes.IndexByte(rest[size:], '\n') + 1
		if line == 0 {
			break
		}
		open = bytes.Count(rest[size:size+line], quote)%2 == 0
		size += line
	}
	s.lines[row+1] = within
	return size
}

// takeRows takes in the rows that were read, behind those above in the batch, up to one that has
// not all that a reading needs or behind one of several lines.
func (p *parser) takeRows(data []byte, above int) {
	s, parsed := &p.stretch, p.parsed
	rows := &parsed.batch.Rows
	where, what, how, days := rows.Where[above:], rows.What[above:], rows.How[above:], rows.Day[above:]
	if p.clocked && (s.lacks || !p.timed) {
		s.timeByClocks(p.timed)
	}
	if s.lacks || s.inQuotes || p.columns[len(p.columns)-1].place().beyond > 1 {
		s.untilLacking(data)
	}
	s.rows = p.settle(&p.what, what[:s.rows], (*parser).whatOf)
	s.rows = p.settle(&p.where, where[:s.rows], (*parser).whereOf)
	s.rows = p.settle(&p.how, how[:s.rows], (*parser).howOf)
	if !p.dated {
		for i := range days[:s.rows] {
			days[i] = condense.NoDay
		}
	}
	rows.SetLen(above + s.rows)
	lines := rows.Row[above:]
	for i := range lines {
		lines[i] = uint32(parsed.lines + i)
	}
	if s.inQuotes {
		for _, quotes := range s.quotes[:s.rows] {
			p.quotes += int(quotes)
		}
	}
	if s.untold {
		for _, doubts := range s.doubts[:s.rows] {
			p.doubts += int(doubts)
		}
	}
	if p.clocked {
		parsed.found.Clocks += s.clocked(days[:s.rows])
	}
	if voids := p.recurs[voidColumn]; voids != nil {
		for row := range s.rows {
			if f := voids.in(row); f.void != "" {
				parsed.batch.Voids = append(parsed.batch.Voids, f.void)
			}
		}
	}
	if s.several {
		for i := range lines {
			lines[i] += s.lines[i]
		}
		parsed.lines += int(s.lines[s.rows])
	}
	if parsed.lines += s.rows; s.rows > 0 && s.at[s.rows-1] > s.starts[s.rows] {
		parsed.lines += bytes.Count(data[s.starts[s.rows]:s.at[s.rows-1]], []byte{'\n'})
		s.several = true
	}
	if p.journals != nil {
		p.hold(data, above)
	}
}

// untilLacking goes up to a row without a count or a time, or behind one of several lines.
func (s *stretch) untilLacking(data []byte) {
	if s.lacks {
		counts, times := s.figures[ofCount][:s.rows], s.figures[ofTime][:s.rows]
		for i := range counts {
			if !(counts[i] > 0 && times[i] > 0) {
				s.rows = i
				break
			}
		}
	}
	at, next := s.at[:s.rows], s.starts[1:s.rows+1]
	for i := range at {
		if at[i] != next[i] {
			if s.rows = i; data[at[i]-1] == '\n' { // of several lines
				s.rows = i + 1
			}
			return
		}
	}
}

// timeByClocks has the net time of rows with both clocks and no time.
func (s *stretch) timeByClocks(timed bool) {
	n := s.rows
	start, end, pause, times := s.figures[ofStart][:n], s.figures[ofEnd][:n], s.figures[ofPause][:n], s.figures[ofTime][:n]
	for i, from := range start {
		if timed && times[i] >= 0 {
			continue
		}
		times[i] = blankFigure
		if to, paused := end[i], pause[i]; from >= 0 && to >= 0 {
			if paused == blankFigure {
				paused = 0
			}
			times[i] = netTime(from, to, paused)
		}
	}
}

// clocked is how many rows note both clocks and their day.
func (s *stretch) clocked(days []condense.Day) (n int) {
	start, end := s.figures[ofStart][:len(days)], s.figures[ofEnd][:len(days)]
	for i, day := range days {
		if day != condense.NoDay && (!s.unclocked || start[i] >= 0 && end[i] >= 0) {
			n++
		}
	}
	return n
}
