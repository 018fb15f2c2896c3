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
	// of a batch is to have several.
	chunkRows = 8192
	maxChunk  = 1280 << 10
	// headSize is how much is read to find the header, as a rule. Many a log is no longer.
	headSize = 16 << 10
	// maxRow is the longest row that is read: a quote that is never closed must not
	// take a whole file into memory.
	maxRow = 4 << 20
	// padding is how many bytes behind a chunk may be read, whatever they hold.
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

// chunker cuts a log into chunks.
type chunker struct {
	r         io.Reader
	dialect   *Dialect
	size      int // of a chunk, as a rule
	rows      int // how many it has at least, likewise
	separator byte
	careful   bool   // quotes may stand where CSV has none
	wide      bool   // it holds UTF-16
	rest      []byte // read already, of the next chunk
	first     []byte // the memory of the first chunk, which serves again
}

// next reads a chunk into a buffer, or into a larger one where a row is too long for
// it. The error is that of the reader.
func (c *chunker) next(buffer []byte) (chunk, error) {
	if cap(buffer) <= len(c.rest)+spare {
		buffer = make([]byte, 0, min(2*len(c.rest), maxRow)+spare)
	}
	n := copy(buffer[:cap(buffer)], c.rest)
	for {
		buffer = buffer[:min(cap(buffer)-spare, maxRow)]
		more, err := io.ReadFull(c.r, buffer[n:])
		n += more
		data := buffer[:n]
		switch err {
		case nil:
		case io.EOF, io.ErrUnexpectedEOF:
			c.rest = nil
			return lastChunk(data), nil
		default:
			return chunk{}, err
		}
		end, quotes := c.lastRowEnd(data)
		if end == 0 && n >= maxRow && !c.careful {
			c.careful = true
			end, quotes = c.lastRowEnd(data)
		}
		switch {
		case end > 0:
			c.rest = append(c.rest[:0], data[end:]...)
			return chunk{data: data[:end], quotes: quotes}, nil
		case n >= maxRow:
			return chunk{data: data, unread: true, last: true}, nil
		}
		buffer = append(make([]byte, 0, min(2*cap(buffer), maxRow+spare)), data...)
	}
}

func newChunker(r io.Reader, dialect *Dialect) *chunker {
	return &chunker{r: r, dialect: dialect, size: chunkSize, rows: chunkRows}
}

// begin reads the first chunk, without a byte-order mark; by its header the separator
// is known.
func (c *chunker) begin() (chunk, error) {
	ended := false
	for known := false; !known; {
		from := len(c.rest)
		c.rest = append(c.rest, make([]byte, max(from, min(c.size, headSize)))...)
		n, err := io.ReadFull(c.r, c.rest[from:])
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
		return c.next(nil)
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

func (c *chunker) buffer() []byte { return make([]byte, 0, c.size+spare) }

// lastChunk is the last chunk, its last row ended.
func lastChunk(data []byte) chunk {
	last := chunk{data: data, quotes: countQuotes(data), last: true}
	if len(data) > 0 && data[len(data)-1] != '\n' {
		last.data, last.added = append(data, '\n'), true
	}
	return last
}

// lastRowEnd is the end of the last row that ends in the data, 0 where none does, and how many
// quotes stand before it. Where each stands as CSV has it those of rows are pairs, so that line
// ends behind an odd one are within a cell; else the rows are gone through from the first.
func (c *chunker) lastRowEnd(data []byte) (end, quotes int) {
	end = bytes.LastIndexByte(data, '\n') + 1
	quotes = countQuotes(data[:end])
	if c.careful && quotes > 0 {
		for end = 0; ; {
			n := rowEnd(data[end:], c.separator)
			if n == 0 {
				return end, countQuotes(data[:end])
			}
			end += n
		}
	}
	for quotes%2 == 1 {
		line := bytes.LastIndexByte(data[:end-1], '\n') + 1
		quotes -= countQuotes(data[line:end])
		end = line
	}
	return end, quotes
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
