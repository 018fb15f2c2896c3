package folder

import (
	"headhours/timing/crop"
	"headhours/timing/study"
)

// ReadStudy reads a study file. file is the name that places carry. Of the
// study's times one that may have been meant otherwise, such as "1.30", is read
// as a task log reads it; Open warns of it. The error is study.Problems,
// everything that is wrong, in order of place; a TOML syntax error ends the
// list, and what needs the text below it to judge is not judged.
func ReadStudy(src []byte, file string) (study.Study, error) {
	d := decode(src, file)
	if err := d.problems.Err(); err != nil {
		return study.Study{}, err
	}
	return d.study, nil
}

func decode(src []byte, file string) *decoder {
	d := &decoder{source: newSource(src, file)}
	text, fault := d.source.text, d.source.parse()
	if fault != nil {
		d.cut, text = true, text[:d.source.lineStart(fault.at)]
		d.problem(fault.at, "%s", fault.text) // first, so that it is listed however many others there are
	}
	root := tree(text)
	d.root(root)
	if fault == nil && len(root.fields) == 0 {
		d.problem(0, `the study file is empty, want at least a [[step]] and a [[workflow]]`)
	}
	d.problems.Sort()
	d.warnings.Sort()
	return d
}

// root reads the whole file. What names things comes before what refers to
// them, wherever they stand in the file.
func (d *decoder) root(n *node) {
	s := &d.study
	s.Confidence = study.DefaultConfidence
	s.Germination = crop.Germination{Share: 1}
	d.table(n, "a study file", keys{
		{"study", optional, (*decoder).head},
		{"crop", optional, (*decoder).crop},
		{"step", optional, tables(&s.Steps, "[[step]]", (*decoder).step)},
		{"workflow", optional, tables(&s.Workflows, "[[workflow]]", (*decoder).workflow)},
		{"grow", optional, tables(&s.Grows, "[[grow]]", (*decoder).grow)},
		{"supply", optional, tables(&s.Supplies, "[[supply]]", (*decoder).supply)},
		{"overhead", optional, tables(&s.Overheads, "[[overhead]]", (*decoder).overhead)},
		{"labour", optional, (*decoder).labour},
		{"sale", optional, (*decoder).sale},
		{"space", optional, (*decoder).space},
		{"season", optional, (*decoder).season},
		{"sowing", optional, tables(&s.Sowings, "[[sowing]]", (*decoder).sowing)},
		{"chore", optional, tables(&s.Chores, "[[chore]]", (*decoder).chore)},
		{"change", optional, (*decoder).changes},
		{"log", optional, (*decoder).logs},
	})
}
