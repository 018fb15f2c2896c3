package folder

import (
	"cmp"

	"headhours/timing/study"
	"headhours/timing/words"
)

// newName reads the name that a table goes by; no other of its kind has it.
func newName(to *string, of *names) keyReader {
	return func(d *decoder, f field) {
		name, ok := d.name(f)
		if !ok {
			return
		}
		if first, ok := of.at[name]; ok {
			d.problem(f.value.at, "%s: %s is taken already on line %d, want a name of its own", f.name, words.Quote(name), d.source.place(first).Line)
			return
		}
		if of.at == nil {
			of.at, of.first = map[string]int{}, map[string]string{}
		}
		if like, ok := of.first[study.FoldedName(name)]; ok {
			d.warn(f.value.at, "%s: %s is %s on line %d but for case or blanks: logs and commands must then write each exactly so", f.name, words.Quote(name), words.Quote(like), d.source.place(of.at[like]).Line)
		} else {
			of.first[study.FoldedName(name)] = name
		}
		of.all, of.at[name] = append(of.all, name), f.value.at
		*to = name
	}
}

// knownName reads the name of a table that stands elsewhere in the file; kind is
// its key.
func knownName(to *string, of *names, kind string) keyReader {
	return func(d *decoder, f field) {
		name, ok := d.name(f)
		if !ok {
			return
		}
		*to = name
		if _, ok := of.at[name]; ok {
			return
		}
		near := of.all
		if d.problems.Count() >= study.MaxProblems {
			near = nil // the advice would not be listed
		}
		d.lack(f.value.at, "%s: %s", f.name, noneNamed(kind, name, near))
	}
}

// noneNamed says that a study has no table of a kind and name, and what would be
// right.
func noneNamed(kind, name string, known []string) string {
	advice := cmp.Or(study.IsMeant(name, known), "name one that is there, or add it")
	return study.NoneNamed("[["+kind+"]]", name) + ": " + advice
}

// name is a text of one line that is not blank; false where the value is none.
func (d *decoder) name(f field) (name string, ok bool) {
	before := d.problems.Count()
	oneLine(&name)(d, f)
	if d.problems.Count() > before {
		return "", false
	}
	if name == "" {
		d.want(f, "a name")
	}
	return name, name != ""
}
