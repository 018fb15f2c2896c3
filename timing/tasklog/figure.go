package tasklog

// decoder reads figures of one type, as they stand in rows side by side and one by one.
type decoder interface {
	// usual reads those of a form that nearly all have, up to one of another, or of which a doubt is to be told.
	usual(data []byte, c abreast) (rows int)
	// any reads a text in any form, not blank and without blanks about it. Errors say what is wrong,
	// to be written behind the text.
	any(text string) (x float64, doubtful bool, err error)
}

// abreast is a column's cells in rows side by side.
type abreast struct {
	at     []uint32 // where each begins, then what stands behind what ends it
	into   []float64
	doubts []uint8 // how many figures of each may have been meant otherwise; nil where all that may are told of
	stop   uint64  // what ends them, see field
	beyond uint32
}

// behind is those behind some.
func (c abreast) behind(rows int) abreast {
	c.at, c.into = c.at[rows:], c.into[rows:]
	if c.doubts != nil {
		c.doubts = c.doubts[rows:]
	}
	return c
}

// figures decode those of one type, and remember what was met in another than the usual forms.
type figures struct {
	decoder
	met map[string]figure
	one struct { // a text by itself, and what is read of it
		text  [maxMemo + padding]byte
		at    [1]uint32
		into  [1]float64
		doubt [1]uint8
	}
}

type figure struct {
	x        float64
	doubtful bool
}

// maxFigures is how many are remembered.
const maxFigures = 4096

// of is what a text says that is not blank and has no blanks about it. Where it is doubtful it may have been meant
// otherwise.
func (f *figures) of(text string) (x float64, doubtful bool, err error) {
	if len(text) > maxMemo {
		return f.any(text)
	}
	size := copy(f.one.text[:], text)
	clear(f.one.text[size:])
	return f.in(f.one.text[:], 0, size)
}

// in is of, of a text that stands within data, with eight bytes behind it or more.
func (f *figures) in(data []byte, from, to int) (x float64, doubtful bool, err error) {
	f.one.at[0], f.one.doubt[0] = uint32(from), 0
	alone := abreast{at: f.one.at[:], into: f.one.into[:], doubts: f.one.doubt[:], stop: lowest * uint64(data[to])}
	if f.usual(data, alone) == 1 && int(f.one.at[0]) == to {
		return f.one.into[0], f.one.doubt[0] > 0, nil
	}
	return f.unusual(data, from, to)
}

// unusual is in, of a text in another than the usual forms.
func (f *figures) unusual(data []byte, from, to int) (x float64, doubtful bool, err error) {
	if met, ok := f.met[string(data[from:to])]; ok {
		return met.x, met.doubtful, nil
	}
	text := string(data[from:to])
	if x, doubtful, err = f.any(text); err == nil {
		if f.met == nil || len(f.met) == maxFigures {
			f.met = map[string]figure{}
		}
		f.met[text] = figure{x, doubtful}
	}
	return x, doubtful, err
}

// blankFigure is what a blank cell says.
const blankFigure = -1

// figureColumn is a column of figures in rows.
type figureColumn struct {
	field
	*figures
	says    int  // which figure of a row
	further bool // of counts, another column stands before it
	lacks   bool // no reading is without, or has 0
	closing byte // stood behind the last that was in quotes or among blanks; 0 where none was lately
	quoted  bool // it was in quotes
	many    int  // how many are tried to be read as that was
}

// The figures of a row.
const (
	ofPause = iota
	ofStart
	ofEnd
	ofTime
	ofCount
	figuresOfRow
)

var figureOf = map[column]int{pausedColumn: ofPause, startColumn: ofStart, endColumn: ofEnd, timeColumn: ofTime, countColumn: ofCount}

func (c *figureColumn) read(s *stretch, data []byte) {
	rows := abreast{at: s.at[:s.rows], into: s.figures[c.says][:s.rows], stop: c.stop, beyond: c.beyond}
	if c.further {
		rows.into = s.other[:s.rows]
	}
	if s.untold {
		rows.doubts = s.doubts[:s.rows]
	}
	s.rows = c.readAll(s, data, rows)
	if c.further {
		s.addCounts()
	}
}

// readAll reads the cells of rows, up to one that is wrong, or of which a doubt is to be told.
func (c *figureColumn) readAll(s *stretch, data []byte, rows abreast) (n int) {
	for more := rows; n < len(rows.at); more = rows.behind(n) {
		before := n
		n += c.blanks(s, data, more)
		n += c.usual(data, rows.behind(n))
		n += c.inside(s, data, rows.behind(n), n)
		if n > before {
			continue
		}
		at := int(rows.at[n])
		raw, behind := c.cell(data, at)
		if behind == 0 {
			return n
		}
		x, doubtful, err := blankFigure+0.0, false, error(nil)
		switch from, to := content(raw, at); {
		case from == to:
		case from == at && to == at+len(raw):
			x, doubtful, err = c.unusual(data, from, to)
		default:
			x, doubtful, err = c.in(data, from, to)
			c.quoted, c.closing, c.many = raw[0] == '"', data[to], 1
		}
		if err != nil || doubtful && !s.untold {
			return n
		}
		if doubtful {
			s.doubts[n]++
		}
		c.note(s, x)
		s.passed(n, data[at:behind])
		rows.into[n], rows.at[n] = x, uint32(behind)
		n++
	}
	return n
}

// note notes what a reading may not be without.
func (c *figureColumn) note(s *stretch, x float64) {
	s.lacks = s.lacks || c.lacks && x <= 0
	s.unclocked = s.unclocked || x == blankFigure && (c.says == ofStart || c.says == ofEnd)
}

// blanks reads cells that are blank.
func (c *figureColumn) blanks(s *stretch, data []byte, rows abreast) (n int) {
	for i, from := range rows.at {
		behind := c.past(data, int(from))
		if behind == 0 {
			return i
		}
		c.note(s, blankFigure)
		rows.into[i], rows.at[i] = blankFigure, uint32(behind)
	}
	return len(rows.at)
}

// inside reads cells of the usual forms in quotes or among blanks, from a row on, if the last that was read by
// itself was such.
func (c *figureColumn) inside(s *stretch, data []byte, rows abreast, first int) (n int) {
	if c.closing == 0 {
		return 0
	}
	inner := rows
	inner.at, inner.stop, inner.beyond = s.inner[:0], lowest*uint64(c.closing), 0
	for _, from := range rows.at[:min(c.many, len(rows.at))] {
		if c.quoted && data[from] == '"' {
			from++
		}
		inner.at = append(inner.at, uint32(behindBlanks(data, int(from))))
	}
	read := c.usual(data, inner)
	for n < read {
		from, at := int(rows.at[n]), behindBlanks(data, int(inner.at[n]))
		if c.quoted && data[from] == '"' && data[at] == '"' {
			at++
			s.passed(first+n, data[from:at])
		}
		behind := c.past(data, at)
		if behind == 0 {
			break
		}
		rows.at[n] = uint32(behind)
		n++
	}
	switch n {
	case len(inner.at):
		c.many = min(2*c.many, maxStretch)
	case 0:
		c.closing = 0
	default:
		c.many = 1
	}
	return n
}

// behindBlanks is the first byte from one on that is no blank; a row ends with none.
func behindBlanks(data []byte, at int) int {
	for data[at] == ' ' {
		at++
	}
	return at
}

// addCounts adds the counts of a further column, up to a row in which several are filled: of
// those one is chosen with care.
func (s *stretch) addCounts() {
	counts := s.figures[ofCount]
	for i, count := range s.other[:s.rows] {
		switch {
		case count == blankFigure:
		case counts[i] != blankFigure:
			s.rows = i
			return
		default:
			counts[i] = count
		}
	}
}
