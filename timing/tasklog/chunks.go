package tasklog

import (
	"bytes"
	"io"
	"slices"

	"headhours/timing/study"
)

const (
	// chunkSize is always the same, so that readings are, for any number of cores.
	chunkSize = 256 << 10
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
	quoted bool   // there is a quote in it
	unread bool   // it is a row too long to read, cut off
	last   bool
	added  bool // the line end of the last row
}

// chunker cuts a log into chunks.
type chunker struct {
	r         io.Reader
	dialect   *Dialect
	size      int // of a chunk, as a rule
	separator byte
	wide      bool   // it holds UTF-16
	rest      []byte // read already, of the next chunk
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
		quoted := bytes.IndexByte(data, '"') >= 0
		end := c.lastRowEnd(data, quoted)
		switch {
		case end > 0:
			c.rest = append(c.rest[:0], data[end:]...)
			return chunk{data: data[:end], quoted: quoted}, nil
		case n >= maxRow:
			return chunk{data: data, quoted: quoted, unread: true, last: true}, nil
		}
		buffer = append(make([]byte, 0, min(2*cap(buffer), maxRow+spare)), data...)
	}
}

func newChunker(r io.Reader, dialect *Dialect) *chunker {
	return &chunker{r: r, dialect: dialect, size: chunkSize}
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
	if ended { // it takes no more room than it has to
		return c.next(nil)
	}
	return c.next(c.buffer())
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
	c := chunk{data: data, quoted: bytes.IndexByte(data, '"') >= 0, last: true}
	if len(data) > 0 && data[len(data)-1] != '\n' {
		c.data, c.added = append(data, '\n'), true
	}
	return c
}

// lastRowEnd is the end of the last row that ends in the data, 0 where none does.
func (c *chunker) lastRowEnd(data []byte, quoted bool) int {
	if !quoted {
		return bytes.LastIndexByte(data, '\n') + 1
	}
	if end, ok := tidyEnd(data, c.separator); ok {
		return end
	}
	end := 0
	for {
		n := rowEnd(data[end:], c.separator)
		if n == 0 {
			return end
		}
		end += n
	}
}

// tidyEnd is the end of the last row that ends in the data, 0 where none does, if every
// quote stands where CSV has them; false where one does not.
func tidyEnd(data []byte, separator byte) (end int, ok bool) {
	for at := 0; ; {
		quote := bytes.IndexByte(data[at:], '"')
		if quote < 0 {
			return lastEnd(data), true
		}
		at += quote
		if at > 0 && data[at-1] != separator && data[at-1] != '\n' {
			return 0, false
		}
		closing := closingQuote(data, at)
		if closing < 0 {
			return lastEnd(data[:at]), true // it goes on behind
		}
		if at = closing + 1; !endsCell(data[at:], separator) {
			return 0, false
		}
	}
}

// lastEnd is behind the last line end that is not in quotes, 0 where there is none, of
// data all of whose quotes are closed.
func lastEnd(data []byte) int {
	for quotes := 0; ; {
		at := bytes.LastIndexByte(data, '\n')
		if at < 0 {
			return 0
		}
		if quotes += bytes.Count(data[at:], []byte{'"'}); quotes%2 == 0 {
			return at + 1
		}
		data = data[:at]
	}
}

// firstRow is the first row of the rest of a chunk.
func (c chunk) firstRow(rest []byte, separator byte) []byte {
	end := 0
	if c.quoted {
		end = rowEnd(rest, separator)
	} else {
		end = bytes.IndexByte(rest, '\n') + 1
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
