package tasklog

// decoder reads figures of one type, as they stand in rows side by side and one by one.
type decoder interface {
	// usual reads those of a form that nearly all have, up to one of another, or of which a doubt is to be told.
	usual(data []byte, c *abreast)
	// any reads a text in any form, not blank and without blanks about it. Errors say what is wrong,
	// to be written behind the text.
	any(text string) (x float64, doubtful bool, err error)
}

// abreast is a column's cells in rows side by side.
type abreast struct {
	at     []uint32 // where each begins, then what stands behind what ends it
	into   []float64
	doubts []uint8 // how many figures of each may have been meant otherwise; nil where all that may are told of
	n      int     // how many are read
	stop   uint64  // what ends them, see field
	beyond uint32
}

// left are those that are not read.
func (c *abreast) left() (at []uint32, into []float64) {
	at = c.at[c.n:]
	return at, c.into[c.n:][:len(at)]
}

// figures decode those of one type, and remember what was met in another than the usual forms.
type figures struct {
	decoder
	met map[string]figure
	one struct { // a text by itself, and what is read of it
		rows   abreast
		text   [maxMemo + padding]byte
		at     [1]uint32
		into   [1]float64
		doubts [1]uint8
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
	one := &f.one
	one.at[0], one.doubts[0] = uint32(from), 0
	one.rows = abreast{at: one.at[:], into: one.into[:], doubts: one.doubts[:], stop: lowest * uint64(data[to])}
	if f.usual(data, &one.rows); one.rows.n == 1 && int(one.at[0]) == to {
		return one.into[0], one.doubts[0] > 0, nil
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
	says    int     // which figure of a row
	further bool    // of counts, another column stands before it
	lacks   bool    // no reading is without, or has 0
	closing [2]byte // stood behind the last that was among blanks, and the last in quotes; 0 where none was lately
	many    int     // how many are tried to be read as these were
	rows    abreast
	inner   abreast // what is in these, in quotes or among blanks
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
	c.rows = abreast{at: s.at[:s.rows], into: s.figures[c.says][:s.rows], stop: c.stop, beyond: c.beyond}
	if c.further {
		c.rows.into = s.other[:s.rows]
	}
	if s.untold {
		c.rows.doubts = s.doubts[:s.rows]
	}
	for before := 0; c.rows.n < s.rows; before = c.rows.n {
		if c.blanks(s, data); c.rows.n == s.rows {
			break
		}
		if first := data[c.rows.at[c.rows.n]]; first == '"' || first == ' ' || first == '\t' {
			c.inside(s, data)
		} else if c.usual(data, &c.rows); c.rows.n == before {
			c.inside(s, data)
		}
		if c.rows.n == before && !c.readOne(s, data) {
			break
		}
	}
	if s.rows = c.rows.n; c.further {
		s.addCounts()
	}
}

// readOne reads the cell of a row; false where it is wrong, or a doubt of it is to be told.
func (c *figureColumn) readOne(s *stretch, data []byte) bool {
	n := c.rows.n
	at := int(c.rows.at[n])
	raw, behind := c.cell(data, at)
	if behind == 0 {
		return false
	}
	x, doubtful, err := blankFigure+0.0, false, error(nil)
	switch from, to := content(raw, at); {
	case from == to:
	case from == at && to == at+len(raw) && data[to] == byte(c.stop): // and not of the usual
		x, doubtful, err = c.unusual(data, from, to)
	default:
		x, doubtful, err = c.in(data, from, to)
		c.closing[inQuotes(data[at])], c.many = data[to], max(c.many, 1)
	}
	if err != nil || doubtful && !s.untold {
		return false
	}
	if doubtful {
		s.doubts[n]++
	}
	c.note(s, x)
	s.passed(n, data[at:behind])
	c.rows.into[n], c.rows.at[n] = x, uint32(behind)
	c.rows.n++
	return true
}

// note notes what a reading may not be without.
func (c *figureColumn) note(s *stretch, x float64) {
	s.lacks = s.lacks || c.lacks && x <= 0
	s.unclocked = s.unclocked || x == blankFigure && (c.says == ofStart || c.says == ofEnd)
}

// blanks reads cells that are blank.
func (c *figureColumn) blanks(s *stretch, data []byte) {
	at, into := c.rows.left()
	for i, from := range at {
		behind := c.past(data, int(from))
		if behind == 0 {
			return
		}
		c.note(s, blankFigure)
		into[i], at[i] = blankFigure, uint32(behind)
		c.rows.n++
	}
}

// inside reads cells of the usual forms in quotes or among blanks.
func (c *figureColumn) inside(s *stretch, data []byte) {
	at, into := c.rows.left()
	quoted := inQuotes(data[at[0]])
	closing := c.closing[quoted]
	if closing == 0 {
		return
	}
	n := 0
	for ; n < min(c.many, len(at)) && inQuotes(data[at[n]]) == quoted; n++ {
		s.inner[n] = uint32(c.behindBlanks(data, int(at[n])+quoted))
	}
	c.inner = abreast{at: s.inner[:n], into: into[:n], stop: lowest * uint64(closing)}
	if s.untold {
		c.inner.doubts = s.innerDoubts[:n]
		clear(c.inner.doubts)
	}
	c.usual(data, &c.inner)
	for n = 0; n < c.inner.n; n++ {
		to := c.behindBlanks(data, int(c.inner.at[n]))
		if quoted > 0 && data[to] != '"' {
			break
		}
		behind := c.past(data, to+quoted)
		if behind == 0 {
			break
		}
		if quoted > 0 {
			s.passed(c.rows.n+n, data[at[n]:behind])
		}
		if s.untold {
			s.doubts[c.rows.n+n] += c.inner.doubts[n]
		}
		at[n] = uint32(behind)
	}
	if n == len(c.inner.at) {
		c.many = min(2*c.many, maxStretch)
	} else {
		c.many = 1
	}
	if c.rows.n += n; n == 0 {
		c.closing[quoted] = 0
	}
}

// inQuotes is 1 of a cell that begins so, else 0.
func inQuotes(first byte) int {
	if first == '"' {
		return 1
	}
	return 0
}

// behindBlanks is the first byte from one on that is no blank, and no tab that parts cells; a row ends with none.
func (f *field) behindBlanks(data []byte, at int) int {
	for data[at] == ' ' || data[at] == '\t' && f.separator != '\t' {
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
