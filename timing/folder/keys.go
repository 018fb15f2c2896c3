package folder

import (
	"cmp"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// keyReader reads the value of a key; what is wrong with it is added to the
// decoder's problems.
type keyReader func(*decoder, field)

// keys are the keys that may stand in a table, in the order in which they are
// read and told.
type keys []struct {
	name string
	need bool
	read keyReader
}

// What a table of keys says of need.
const (
	optional = false
	needed   = true
)

// table reads a table by its keys; what names it in problems.
func (d *decoder) table(n *node, what string, ks keys) {
	names := ks.names()
	for _, f := range n.fields {
		if !slices.Contains(names, f.name) {
			d.problem(f.at, "unknown key %s in %s: %s", words.Quote(f.name), what, meant(f.name, names))
		}
	}
	for _, k := range ks {
		f, found := n.get(k.name)
		switch {
		case found:
			k.read(d, f)
		case k.need:
			d.lack(n.at, "%s lacks the key %q", what, k.name)
		}
	}
}

func (ks keys) names() []string {
	var names []string
	for _, k := range ks {
		names = append(names, k.name)
	}
	return names
}

// meant asks for what may have been meant by a word: the nearest known one, else
// any of them.
func meant(word string, names []string) string {
	return cmp.Or(study.IsMeant(word, names), "known are "+strings.Join(names, ", "))
}

// oneTable reads a table that stands once.
func (d *decoder) oneTable(f field, what string, ks keys) {
	if f.value.kind != aTable {
		d.want(f, "one table of "+strings.Join(ks.names(), ", "))
		return
	}
	d.table(f.value, what, ks)
}

// tables reads a list of tables, each by read; form is how one is written.
func tables[T any](to *[]T, form string, read func(*decoder, *node) T) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind == aTable && strings.HasPrefix(form, "[[") && d.source.isHeading(f.value.at) {
			d.problem(f.value.at, "found [%s], want %s, in two brackets: there may be several", f.name, form)
			*to = []T{read(d, f.value)}
			return
		}
		if f.value.kind != aList {
			d.want(f, "a list of tables, each a "+form)
			return
		}
		*to = []T{} // said, and perhaps none
		for _, item := range f.value.items {
			if item.kind != aTable {
				d.want(field{f.name, item.at, item}, "a table, "+form)
				continue
			}
			*to = append(*to, read(d, item))
		}
	}
}

// listOf reads a list of single values, none of which may stand twice.
func listOf[T comparable](to *[]T, item func(*T) keyReader) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind != aList {
			d.want(f, "a list [ … ]")
			return
		}
		seen := map[T]bool{}
		for _, n := range f.value.items {
			var x T
			before := d.problems.Count()
			item(&x)(d, field{f.name, n.at, n})
			switch {
			case d.problems.Count() > before:
			case seen[x]:
				d.problem(n.at, "%s: %s stands twice", f.name, n.describe())
			default:
				seen[x] = true
				*to = append(*to, x)
			}
		}
	}
}

// filled refuses a list without anything in it.
func filled(r keyReader) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind == aList && len(f.value.items) == 0 {
			d.want(f, "at least one in it")
			return
		}
		r(d, f)
	}
}
