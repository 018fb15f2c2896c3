package folder

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Bounds of a study file. Whether a key stands twice in its table is found by going
// through all of them, each time.
const (
	maxKeys   = 10_000  // of a table; tables of a table count as keys
	maxValues = 250_000 // keys, tables and items of lists, in all
)

// crowd counts what a file holds.
type crowd struct {
	values int
	tables map[string]int // how many tables each has, by its whole key
	seen   map[string]bool
}

// crowded is the fault of a file that holds more than any study does; nil where there
// is none. What is not TOML ends the count.
func (s source) crowded() *fault {
	var p unstable.Parser
	p.Reset(s.text)
	c, keys := crowd{tables: map[string]int{}, seen: map[string]bool{}}, 0
	for p.NextExpression() {
		e := p.Expression()
		size := 0
		switch e.Kind {
		case unstable.KeyValue:
			keys++
			size = max(keys, c.largest(e))
		case unstable.Table, unstable.ArrayTable:
			keys = 0
			size = c.header(e)
		}
		key := e.Key()
		key.Next()
		switch at := int(key.Node().Raw.Offset); {
		case size > maxKeys:
			return &fault{at, fmt.Sprintf("is not read: the file has a table of more than %d keys", maxKeys)}
		case c.values > maxValues:
			return &fault{at, fmt.Sprintf("is not read: the file has more than %d values", maxValues)}
		}
	}
	return nil
}

// header counts a table; it says how many the table that it stands in has.
func (c *crowd) header(e *unstable.Node) int {
	var key strings.Builder
	last := 0 // where its last part begins
	for it := e.Key(); it.Next(); {
		last = key.Len()
		fmt.Fprintf(&key, "%q.", it.Node().Data)
	}
	c.values++
	of := key.String()[:last]
	if !c.seen[key.String()] {
		c.seen[key.String()] = true
		c.tables[of]++
	}
	return c.tables[of]
}

// largest counts a value, or a key with its value, and what is in it; it gives the most
// keys of a table within it.
func (c *crowd) largest(n *unstable.Node) int {
	c.values++
	keys, size := 0, 0
	switch n.Kind {
	case unstable.KeyValue:
		return c.largest(n.Value())
	case unstable.Array, unstable.InlineTable:
		for it := n.Children(); it.Next(); keys++ {
			size = max(size, c.largest(it.Node()))
		}
	}
	if n.Kind == unstable.InlineTable {
		size = max(size, keys)
	}
	return size
}
