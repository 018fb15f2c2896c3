package folder

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"headhours/timing/late"
	"headhours/timing/words"
)

// parse finds what keeps the text from being TOML; nil where nothing does.
func (s source) parse() *fault {
	if at := invalidUTF8(s.text); at >= 0 {
		return &fault{at, fmt.Sprintf("found the byte %#x, want UTF-8: save the file as UTF-8", s.text[at])}
	}
	if f := s.crowded(); f != nil {
		return f
	}
	var all map[string]any
	err := toml.Unmarshal(s.text, &all)
	if err == nil {
		return nil
	}
	f := &fault{text: "cannot be read: " + strings.TrimPrefix(words.Cause(err), "toml: ")}
	var de *toml.DecodeError
	if errors.As(err, &de) {
		line, column := de.Position()
		f.at = s.lines[line-1] + column - 1
	}
	f.text = wholeLetter(f.text, s.text[f.at:])
	// A key that stands twice within an inline table is given the place of the
	// whole expression, which may be lines away.
	s.inPlainWords(f)
	start := s.lineStart(f.at)
	hint := slipHint(s.text[start:])
	if hint != "" { // which says it better
		f.text = strings.TrimSuffix(f.text, ": "+noEquals)
	}
	f.text += hint
	if at, found := firstRepeated(s.text[start:]); found {
		f.at = start + at
	}
	return f
}

// wholeLetter puts the first letter beyond ASCII of what follows a fault for the first
// of its bytes, which is what the library names.
func wholeLetter(fault string, text []byte) string {
	at := bytes.IndexFunc(text, func(r rune) bool { return r >= utf8.RuneSelf })
	if at < 0 {
		return fault
	}
	r, _ := utf8.DecodeRune(text[at:])
	return strings.Replace(fault, fmt.Sprintf("%#U", rune(text[at])), fmt.Sprintf("%#U", r), 1)
}

// decimalComma is a number written with a comma, as many sheets write it.
var decimalComma = late.Regexp(`=\s*\d+,\d+\s*([,}#]|$)`)

// Other slips of those who type a study: a list without brackets, a colon for the
// equals sign, yes and no in other words, text without quotes.
var (
	bareDays = late.Regexp(`\bdays\s*=\s*\d+\s*,\s*\d`)
	bareList = late.Regexp(`^\s*[\w-]+\s*=\s*[^\s"\[{#,]+\s*,`)
	colon    = late.Regexp(`^\s*[\w-]+\s*:`)
	yesOrNo  = late.Regexp(`(?i)=\s*(yes|no|true|false|on|off)\b`)
	bareText = late.Regexp(`=\s*[\p{L}_]`)
)

// slipHint names a usual slip in the first line of a text that is not TOML, ""
// where it sees none.
func slipHint(text []byte) string {
	line, _, _ := strings.Cut(string(text), "\n")
	line = strings.TrimRight(line, "\r")
	switch {
	case bareDays().MatchString(line):
		return ": a list stands in brackets, [3, 6, 9]"
	case decimalComma().MatchString(line):
		return ": decimals take a point, 0.85"
	case strings.ContainsAny(line, "“”„‘’"):
		return `: text stands in straight quotes, "like this"`
	case strings.Contains(line, "%"):
		return ": a share is written 0.85, without a percent sign"
	case bareList().MatchString(line):
		return ": a list stands in brackets, [3, 6, 9]"
	case colon().MatchString(line):
		return `: a key and its value are joined by =, name = "sow"`
	case yesOrNo().MatchString(line):
		return ": yes is written true, and no is written false"
	case bareText().MatchString(line):
		return `: text stands in quotes, name = "sow"`
	}
	return ""
}

// invalidUTF8 is the offset of the first byte that is not UTF-8, -1 without any.
func invalidUTF8(text []byte) int {
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// firstRepeated is the offset of the first key that stands twice in an inline
// table of the text's first expression.
func firstRepeated(text []byte) (int, bool) {
	var p unstable.Parser
	p.Reset(text)
	if !p.NextExpression() || p.Expression().Kind != unstable.KeyValue {
		return 0, false
	}
	return repeated(p.Expression().Value())
}

func repeated(n *unstable.Node) (int, bool) {
	seen := map[string]bool{}
	for it := n.Children(); it.Next(); {
		child := it.Node()
		if n.Kind == unstable.InlineTable {
			key, at := dotted(child)
			if seen[key] {
				return at, true
			}
			seen[key] = true
			child = child.Value()
		}
		if at, found := repeated(child); found {
			return at, true
		}
	}
	return 0, false
}

// dotted is the whole key of a key and value, and where it starts.
func dotted(n *unstable.Node) (key string, at int) {
	var b strings.Builder
	for it := n.Key(); it.Next(); {
		if b.Len() == 0 {
			at = int(it.Node().Raw.Offset)
		}
		fmt.Fprintf(&b, "%q.", it.Node().Data)
	}
	return b.String(), at
}
