package tasklog

import (
	"bytes"
	"io"
	"slices"

	"headhours/timing/study"
)

const (
	// chunkSize is how long a chunk is at least, as a rule. It goes by the log alone, so that readings
	// are the same for any number of cores.
	chunkSize = 384 << 10
	// chunkRows is how many rows it has, likewise, unless it were longer than maxChunk: each part
	// of a batch is to have several, and all is to have room in the cache that a core has for itself.
	chunkRows = 8192
	maxChunk  = 640 << 10
	// headSize is how much is read to find the header, as a rule. Many a log is no longer.
	headSize = 16 << 10
	// maxRow is the longest row that is read: a quote that is never closed must not
	// take a whole file into memory.
	maxRow = 4 << 20
	// padding is how many bytes behind a chunk may be read: they are 0.
	padding = 2 * maxMemo
	// spare is what a buffer has to spare: a line end may be added too.
	spare = padding + 1
	// maxWorkbook is how many MiB of a workbook are read.
	maxWorkbook = 256
)

// chunk is whole rows of a log.
type chunk struct {
	data   []byte // with padding to spare in its capacity
	quotes int    // how many it has
	unread bool   // it is a row too long to read, cut off
	last   bool
	added  bool // the line end of the last row
}

// behind is a chunk from an offset on, where a row begins.
func (c chunk) behind(at int) chunk {
	c.quotes -= countQuotes(c.data[:at])
	c.data = c.data[at:]
	return c
}

func countQuotes(data []byte) int { return bytes.Count(data, []byte{'"'}) }

// chunker cuts a log into chunks: a block of so many bytes, with what was left of those before it and
// without what is left of it.
type chunker struct {
	r         io.Reader
	dialect   *Dialect
	size      int // of a block, as a rule
	rows      int // how many it has at least, likewise
	separator byte
	careful   bool   // quotes may stand where CSV has none
	wide      bool   // it holds UTF-16
	rest      []byte // read already, of the next chunk
	first     []byte // the memory of the first chunk, which serves again
	offset    int64  // of what was read
}

func newChunker(r io.Reader, dialect *Dialect) *chunker {
	return &chunker{r: r, dialect: dialect, size: chunkSize, rows: chunkRows}
}

// block is bytes of a log that follow each other, wherever rows begin.
type block struct {
	buffer []byte // where they stand, behind room for what was left of those before them
	size   int
	quotes int
	last   bool
	err    error
}

// room is how much is left of a block, as a rule, at most.
const room = 16 << 10

func (c *chunker) buffer() []byte { return make([]byte, room+c.size+spare) }

// read reads a block into a buffer.
func (b *block) read(buffer []byte, readFull func([]byte) (int, error)) {
	b.buffer = buffer
	b.size, b.err = readFull(buffer[room : len(buffer)-spare])
	if b.last = b.err == io.EOF || b.err == io.ErrUnexpectedEOF; b.last {
		b.err = nil
	}
	b.quotes = countQuotes(buffer[room : room+b.size])
}

// readFull reads what follows.
func (c *chunker) readFull(into []byte) (n int, err error) {
	n, err = io.ReadFull(c.r, into)
	c.offset += int64(n)
	return n, err
}

// next reads a chunk into a buffer, see join.
func (c *chunker) next(buffer []byte) (next chunk, err error) {
	for err == nil && len(next.data) == 0 && !next.last {
		var b block
		b.read(buffer, c.readFull)
		next, err = c.join(&b)
	}
	return next, err
}

// join has what is left of the blocks before and a block be a chunk, which may be empty where a row is
// long. It stands in the block's buffer, or in a larger one. The error is that of the reader.
func (c *chunker) join(b *block) (chunk, error) {
	if b.err != nil {
		return chunk{}, b.err
	}
	data, quotes := b.behind(c.rest), b.quotes+countQuotes(c.rest)
	c.rest = c.rest[:0]
	if !b.last {
		end, within := c.lastRowEnd(data, quotes)
		if !c.beginsTooLong(data) {
			c.rest = append(c.rest, data[end:]...)
			return chunk{data: data[:end], quotes: within}, nil
		}
	}
	return c.lastChunk(data, quotes), nil
}

// behind is a block behind what was left of those before it.
func (b *block) behind(rest []byte) []byte {
	if len(rest) > room {
		all := append(make([]byte, 0, len(rest)+b.size+spare), rest...)
		return append(all, b.buffer[room:room+b.size]...)
	}
	from := room - len(rest)
	copy(b.buffer[from:], rest)
	return b.buffer[from : room+b.size]
}

// beginsTooLong says whether the first row of data is longer than any that is read.
func (c *chunker) beginsTooLong(data []byte) bool {
	if len(data) < maxRow {
		return false
	}
	end := rowEnd(data, c.separator)
	return end == 0 || end > maxRow
}

// begin reads the first chunk, without a byte-order mark; by its header the separator
// is known.
func (c *chunker) begin() (chunk, error) {
	ended := false
	for known := false; !known; {
		from := len(c.rest)
		c.rest = append(c.rest, make([]byte, max(from, min(c.size, headSize)))...)
		n, err := c.readFull(c.rest[from:])
		c.rest = c.rest[:from+n]
		if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
			return chunk{}, err
		}
		c.separator, known = separatorOf(bytes.TrimPrefix(c.rest, []byte("\ufeff")))
		ended = err != nil
		known = known && hasHeadings(c.rest, c.separator) || ended || len(c.rest) >= maxRow
	}
	c.rest = bytes.TrimPrefix(c.rest, []byte("\ufeff"))
	if separator, found := headingSeparator(c.rest, c.dialect); found {
		c.separator = separator
	}
	c.wide = isUTF16(c.rest)
	c.size = max(c.size, min(c.rows*len(c.rest)/max(1, bytes.Count(c.rest, []byte{'\n'})), maxChunk))
	if ended { // it takes no more room than it has to
		data := append(make([]byte, 0, len(c.rest)+spare), c.rest...)
		c.rest = nil
		return c.lastChunk(data, countQuotes(data)), nil
	}
	c.first = c.buffer()
	return c.next(c.first)
}

// hasHeadings says whether the first rows of a log are enough to find its headings: its
// first names them by our own names, or there are as many as they are looked for in.
func hasHeadings(data []byte, separator byte) bool {
	if len(data) >= headSize {
		return true
	}
	rows := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\ufeff")), " \r\n")
	first, _, _ := bytes.Cut(rows, []byte{'\n'})
	return isExact(cellsOf(first, separator)) || bytes.Count(rows, []byte{'\n'}) > maxTitle
}

// wholeFile is a whole file of which the first chunk is read.
func (c *chunker) wholeFile(first chunk) ([]byte, error) {
	data := first.data
	if first.added {
		data = data[:len(data)-1]
	}
	more, err := study.ReadAtMost(c.r, maxWorkbook)
	return slices.Concat(data, c.rest, more), err
}

// lastChunk is the last chunk, of so many quotes, its last row ended; or one that begins with a row too long.
func (c *chunker) lastChunk(data []byte, quotes int) chunk {
	last := chunk{data: data, quotes: quotes, last: true}
	switch {
	case c.beginsTooLong(data):
		last.unread = true
	case len(data) > 0 && data[len(data)-1] != '\n':
		last.data, last.added = append(data, '\n'), true
	}
	return last
}

// lastRowEnd is the end of the last row that ends in data of so many quotes, 0 where none does, and how many
// of these stand before it. Where each stands as CSV has it those of rows are pairs, so that line
// ends behind an odd one are within a cell. Where that leaves little of the data they may not stand so.
func (c *chunker) lastRowEnd(data []byte, all int) (end, quotes int) {
	if c.careful && all > 0 {
		return c.lastTidyEnd(data)
	}
	end = bytes.LastIndexByte(data, '\n') + 1
	quotes = all - countQuotes(data[end:])
	for quotes%2 == 1 {
		line := bytes.LastIndexByte(data[:end-1], '\n') + 1
		quotes -= countQuotes(data[line:end])
		end = line
	}
	if all > 0 && end < len(data)/2 {
		if tidy, within := c.lastTidyEnd(data); tidy > end {
			c.careful = true
			return tidy, within
		}
	}
	return end, quotes
}

// lastTidyEnd is lastRowEnd wherever quotes stand: the rows are gone through from the first.
func (c *chunker) lastTidyEnd(data []byte) (end, quotes int) {
	for {
		n := rowEnd(data[end:], c.separator)
		if n == 0 {
			return end, countQuotes(data[:end])
		}
		end += n
	}
}

// firstRow is the first row of the rest of a chunk.
func (c chunk) firstRow(rest []byte, separator byte) []byte {
	end := 0
	if c.quotes == 0 {
		end = bytes.IndexByte(rest, '\n') + 1
	} else {
		end = rowEnd(rest, separator)
	}
	if end == 0 {
		end = len(rest)
	}
	return rest[:end]
}

// ended is a row as it stands in the log: without the line end that was added.
func (c chunk) ended(row, rest []byte) []byte {
	if c.added && len(row) == len(rest) {
		return row[:len(row)-1]
	}
	return row
}
