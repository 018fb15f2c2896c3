package tasklog

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// isText says whether bytes are UTF-8 text.
func isText(data []byte) bool { return utf8.Valid(data) && bytes.IndexByte(data, 0) < 0 }

// tidied is a text without blanks about it, its lines ended by \n.
func tidied(text string) string {
	text = strings.TrimSpace(text)
	if strings.IndexByte(text, '\r') >= 0 {
		text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	}
	return text
}
