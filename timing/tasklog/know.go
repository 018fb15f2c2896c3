package tasklog

import "headhours/timing/study"

// know decodes a cell that was met, if that was not done before; false where it is wrong.
func (p *parser) know(c *recurring, f *met) bool {
	if f.known {
		return true
	}
	p.inHand = f.bytes(p.inHand)
	text, _ := c.cell(p.inHand, 0)
	f.number = blankFigure
	if !p.isAsMet(c.is, text, f) && !p.decode(c.is, tidied(cellText(string(text))), f) {
		return false
	}
	f.known = true
	return true
}

// isAsMet takes in what a name says that was met in just these bytes, if it was. Grows are
// called what the log calls them, nearly all: a name is the study's where a log has it exactly, so what is one
// stands for itself.
func (p *parser) isAsMet(is column, raw []byte, f *met) (ok bool) {
	kind, isName := nameKind(is)
	if !isName {
		return false
	}
	if is == growColumn {
		if f.name, ok = p.names[kind].find(raw); ok {
			return true
		}
	}
	f.name, ok = p.byText[kind][string(raw)]
	return ok
}

// decode takes in what a text says; false where it is wrong.
func (p *parser) decode(is column, text string, f *met) bool {
	if text == "" {
		return true
	}
	var err error
	switch kind, isName := nameKind(is); {
	case isName:
		var ours string
		if ours, err = p.namesOf[kind].of(text); err == nil {
			f.name = p.names[kind].of(ours)
			if is != growColumn || ours != text {
				p.byText[kind][text] = f.name
			}
		}
	case is == sourceColumn:
		var source study.Source
		source, err = sourceOf(text)
		f.judged = source == study.ByJudgement
	case is == voidColumn:
		f.void = unguarded(text)
	case is == setupsColumn:
		f.number, _, err = p.figures[is].of(text)
	case is == peopleColumn || is == ratingColumn:
		f.number, err = p.above0(is, text)
	}
	return err == nil
}
