package tasklog

// decoders read what cells hold, one a type of column: each a text without blanks about it that is not blank
// itself. They remember what they met, and say what is wrong, to be written behind the text. Rows side by side
// and rows that are told of are read by the same.
type decoders struct {
	dialect *Dialect
	form    form
	figures [columns]*figures // of those that have some
	days    dates
	namesOf [nameKinds]names
	units   [columns]unit // of bare times
}

func newDecoders(dialect *Dialect, form form) *decoders {
	d := &decoders{dialect: dialect, form: form, days: dates{dialect: dialect}}
	number, clock := &figures{decoder: &numbers{form: &d.form}}, &figures{decoder: &clocks{&d.form}}
	d.figures = [columns]*figures{
		countColumn:  {decoder: &numbers{form: &d.form, doubts: true}},
		timeColumn:   {decoder: &durations{form: &d.form, unit: &d.units[timeColumn]}},
		pausedColumn: {decoder: &durations{form: &d.form, unit: &d.units[pausedColumn], mayBe0: true}},
		startColumn:  clock, endColumn: clock,
		setupsColumn: number, peopleColumn: number, ratingColumn: number,
	}
	for _, is := range []column{stepColumn, workflowColumn, growColumn, workerColumn} {
		kind, _ := nameKind(is)
		d.namesOf[kind] = names{is: is, dialect: dialect}
	}
	return d
}

// name is what a name in a column stands for.
func (d *decoders) name(is column, text string) (ours string, err error) {
	kind, _ := nameKind(is)
	return d.namesOf[kind].of(text)
}

// above0 reads a number in a column of such that must be above 0.
func (d *decoders) above0(is column, text string) (float64, error) {
	x, _, err := d.figures[is].of(text)
	if err == nil && x == 0 {
		return 0, errNotAbove0
	}
	return x, err
}

// forgetNames forgets the names that were met.
func (d *decoders) forgetNames() {
	for kind := range d.namesOf {
		d.namesOf[kind].met = nil
	}
}
