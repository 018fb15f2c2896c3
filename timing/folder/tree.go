package folder

import (
	"bytes"

	"headhours/timing/words"

	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is what a TOML value is.
type kind int

const (
	aText kind = iota
	aWhole
	aDecimal
	aBool
	aDate // or a time
	aList
	aTable
)

// node is a TOML value that knows where it stands: a table of headers at the
// last part of its first header, all else at its first character.
type node struct {
	kind   kind
	at     int     // offset in the file
	text   string  // of a text what it says, of other scalars how they are written
	items  []*node // of a list
	fields []field // of a table, in order of the file
}

// field is a key of a table and its value.
type field struct {
	name  string
	at    int // offset of the key
	value *node
}

// get is the field of a name; false where the table has none, or n is no table.
func (n *node) get(name string) (field, bool) {
	for _, f := range n.fields {
		if f.name == name {
			return f, true
		}
	}
	return field{}, false
}

// describe is a value in few words.
func (n *node) describe() string {
	switch {
	case n.kind == aTable:
		return "a table"
	case n.kind == aList && len(n.items) == 0:
		return "an empty list"
	case n.kind == aList:
		return "a list"
	case n.kind != aText:
		return words.Short(n.text)
	}
	return words.Quote(n.text)
}

// tree reads TOML into a table. The text must be sound up to where the parser
// stops: the tree is what stands before.
func tree(text []byte) *node {
	root := &node{kind: aTable}
	t := treeReader{text: text}
	t.parser.Reset(text)
	table := root
	for t.parser.NextExpression() {
		switch e := t.parser.Expression(); e.Kind {
		case unstable.Table:
			parent, last := descend(root, e.Key())
			table = parent.table(last)
		case unstable.ArrayTable:
			parent, last := descend(root, e.Key())
			table = parent.append(last)
		case unstable.KeyValue:
			t.keyValue(table, e)
		}
	}
	return root
}

type treeReader struct {
	text   []byte
	parser unstable.Parser
}

// descend follows a key from a table down to the table that its last part
// belongs to, and makes those that are missing.
func descend(n *node, key unstable.Iterator) (*node, *unstable.Node) {
	key.Next()
	part := key.Node()
	for key.Next() {
		n = n.table(part)
		part = key.Node()
	}
	return n, part
}

// table is the table under a key, made where there is none; of a list of
// tables the last one. Above a fault the text may hold what is no TOML either, such as
// a key that stands twice: it must do no harm.
func (n *node) table(key *unstable.Node) *node {
	f, found := n.get(string(key.Data))
	switch {
	case !found:
		return n.add(key, &node{kind: aTable, at: int(key.Raw.Offset)})
	case len(f.value.items) > 0:
		return f.value.items[len(f.value.items)-1]
	}
	return f.value
}

// append adds a table to the list of tables under a key.
func (n *node) append(key *unstable.Node) *node {
	at := int(key.Raw.Offset)
	f, found := n.get(string(key.Data))
	list := f.value
	if !found {
		list = n.add(key, &node{kind: aList, at: at})
	}
	item := &node{kind: aTable, at: at}
	list.items = append(list.items, item)
	return item
}

func (n *node) add(key *unstable.Node, value *node) *node {
	n.fields = append(n.fields, field{string(key.Data), int(key.Raw.Offset), value})
	return value
}

// keyValue adds what an expression says to a table; end is the offset after it.
func (t *treeReader) keyValue(table *node, e *unstable.Node) {
	parent, last := descend(table, e.Key())
	at := end(last.Raw)
	at += bytes.IndexByte(t.text[at:], '=') + 1
	value, _ := t.value(e.Value(), t.skip(at))
	parent.add(last, value)
}

// value reads a value that starts at an offset, and says where it ends. Lists
// are found by what stands around them, since the parser keeps no place for
// them.
func (t *treeReader) value(n *unstable.Node, at int) (*node, int) {
	v := &node{kind: kinds[n.Kind], at: at, text: string(n.Data)}
	next := at + 1
	switch n.Kind {
	case unstable.Array:
		for it := n.Children(); it.Next(); {
			var item *node
			item, next = t.value(it.Node(), t.skip(next))
			v.items = append(v.items, item)
		}
	case unstable.InlineTable:
		for it := n.Children(); it.Next(); {
			t.keyValue(v, it.Node())
			next = end(it.Node().Raw)
		}
	default:
		return v, end(n.Raw)
	}
	return v, t.skip(next) + 1 // the closing bracket
}

// skip is the next offset at or after one that holds something: no blank, line
// end, comma or comment.
func (t *treeReader) skip(at int) int {
	for {
		at += len(t.text[at:]) - len(bytes.TrimLeft(t.text[at:], " \t\r\n,"))
		if at == len(t.text) || t.text[at] != '#' {
			return at
		}
		at += bytes.IndexByte(t.text[at:], '\n')
	}
}

func end(r unstable.Range) int { return int(r.Offset + r.Length) }

var kinds = map[unstable.Kind]kind{
	unstable.String:        aText,
	unstable.Integer:       aWhole,
	unstable.Float:         aDecimal,
	unstable.Bool:          aBool,
	unstable.LocalDate:     aDate,
	unstable.LocalTime:     aDate,
	unstable.LocalDateTime: aDate,
	unstable.DateTime:      aDate,
	unstable.Array:         aList,
	unstable.InlineTable:   aTable,
}
