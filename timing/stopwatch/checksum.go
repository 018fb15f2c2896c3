package stopwatch

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
)

// A line of a journal ends in a key of its own, "crc": the CRC-32C (Castagnoli, RFC 3720)
// of the bytes in front of that key, in eight hex digits, so that a bit that flips on the
// disk changes no count in silence. Lines without it are read all the same.
const (
	checksumKey  = `,"crc":"`
	checksumSize = len(checksumKey) + 8 + len(`"}`)
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

var errChecksum = errors.New("its checksum does not fit: a bit of it has changed on the disk")

// withChecksum is an event in JSON with the checksum put at its end.
func withChecksum(event []byte) []byte {
	body := event[:len(event)-1] // up to the closing brace
	return fmt.Appendf(body, `%s%08x"}`, checksumKey, crc32.Checksum(body, castagnoli))
}

// withoutChecksum is the event of a line whose checksum fits, or that has none; has says
// which.
func withoutChecksum(line []byte) (event []byte, ok bool, err error) {
	line = bytes.TrimRight(line, " \t\r\n")
	at := len(line) - checksumSize
	if at < 1 || string(line[at:at+len(checksumKey)]) != checksumKey {
		return line, false, nil
	}
	if !bytes.Equal(withChecksum(append(bytes.Clone(line[:at]), '}')), line) {
		return nil, true, errChecksum
	}
	return append(bytes.Clone(line[:at]), '}'), true, nil
}

// parted is the first event of a line that holds more, since the end of its line has
// changed to another byte; nil where it is not so.
func parted(line []byte) []byte {
	for from := 0; ; {
		i := bytes.Index(line[from:], []byte(checksumKey))
		if i < 0 {
			return nil
		}
		end := from + i + checksumSize
		if end >= len(line) {
			return nil
		}
		more := bytes.TrimSpace(line[end:])
		if _, ok, err := withoutChecksum(line[:end]); ok && err == nil && (len(more) == 1 || end+1 < len(line) && line[end+1] == '{') {
			return line[:end]
		}
		from += i + len(checksumKey)
	}
}
