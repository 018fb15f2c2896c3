package tasklog

import "bytes"

// headingSeparator is what stands between the fields of the headings, where those are
// found under the separator of their own line, or below a title of one cell those of the
// line with most cells; false where neither is.
func headingSeparator(data []byte, dialect *Dialect) (separator byte, found bool) {
	var widest byte
	maxCells, isTitle := 1, false
	for n := 0; n < maxTitle && len(data) > 0; n++ {
		var line []byte
		line, data, _ = bytes.Cut(data, []byte{'\n'})
		separator, _ = separatorOf(line)
		cells := cellsOf(line, separator)
		if l := layoutOf(cells, dialect, true); l.isLog() {
			return separator, true
		}
		if n == 0 {
			isTitle = len(cells) == 1
		}
		if len(cells) > maxCells {
			widest, maxCells = separator, len(cells)
		}
	}
	return widest, isTitle && maxCells > 1
}

// separatorOf is what stands between fields of the header, outside quotes: a tab
// if there is one, else a semicolon if there is one, else a comma. It is not whole
// where the header goes on behind the data.
func separatorOf(data []byte) (separator byte, whole bool) {
	found, quoted := byte(','), false
	for _, b := range bytes.TrimLeft(data, " \r\n") {
		switch {
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == '\t':
			return '\t', true
		case b == ';':
			found = ';'
		case b == '\n':
			return found, true
		}
	}
	return found, false
}

// isUTF16 knows a file saved as "Unicode text" by its byte-order mark, or by
// the NUL that stands beside its first letter.
func isUTF16(data []byte) bool {
	return bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) ||
		bytes.IndexByte(data[:min(2, len(data))], 0) >= 0
}
