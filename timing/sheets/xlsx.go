package sheets

import (
	"encoding/xml"
	"errors"
	"maps"
	"path"
	"strconv"
	"strings"

	"headhours/timing/late"
)

// xlsx is what the sheets of an .xlsx workbook have in common.
type xlsx struct {
	*parts
	sheets   []xlsxSheet
	from1904 bool
	strings  []Cell // shared by all cells
	kinds    []kind // by the number of a cell's style

	textsLeft, bytesLeft int // that may still be shared
}

func (p *parts) newXLSX() *xlsx { return &xlsx{parts: p, textsLeft: maxShared, bytesLeft: maxTexts} }

type xlsxSheet struct {
	name, part string
	hidden     bool
}

// relation is what one part says of another (ISO/IEC 29500-2, 6.5).
type relation struct{ id, kind, part string }

// mainPart is the name of the workbook's main part.
func (p *parts) mainPart() (string, error) {
	if !p.has("_rels/.rels") {
		return "", errNoSheet
	}
	related, err := p.relations("")
	for _, r := range related {
		if r.kind == "officeDocument" && p.has(r.part) {
			return r.part, err
		}
	}
	if err == nil {
		err = errNoSheet
	}
	return "", err
}

// relations are those of a part; of the file, where the name is "".
func (p *parts) relations(name string) ([]relation, error) {
	dir, file := path.Split(name)
	var all []relation
	for t, err := range p.tokens(dir + "_rels/" + file + ".rels") {
		if err != nil {
			return nil, err
		}
		if e, ok := t.(xml.StartElement); ok && e.Name.Local == "Relationship" {
			part := attr(e, "Target")
			if !strings.HasPrefix(part, "/") {
				part = path.Join(dir, part)
			}
			if len(all) == maxLinks {
				return nil, tooMany(maxLinks, "parts")
			}
			all = append(all, relation{attr(e, "Id"), path.Base(attr(e, "Type")), part})
		}
	}
	return all, nil
}

// workbook lists the sheets that have cells; sheets of charts do not.
func (x *xlsx) workbook(book string, related []relation) error {
	sheets := map[string]string{} // the part of each, by the id of its relation
	for _, r := range related {
		if r.kind == "worksheet" {
			sheets[r.id] = r.part
		}
	}
	isBook := false
	for t, err := range x.tokens(book) {
		if err != nil {
			return err
		}
		e, ok := t.(xml.StartElement)
		if !ok {
			continue
		}
		switch e.Name.Local {
		case "workbook":
			isBook = true
		case "workbookPr":
			x.from1904 = isTrue(attr(e, "date1904"))
		case "sheet":
			if part := sheets[relationID(e)]; part != "" {
				if len(x.sheets) == maxSheets {
					return tooMany(maxSheets, "sheets")
				}
				x.sheets = append(x.sheets, xlsxSheet{attr(e, "name"), part, strings.HasSuffix(strings.ToLower(attr(e, "state")), "hidden")})
			}
		}
	}
	if !isBook {
		return errNoSheet
	}
	return nil
}

// relationID is the id of a relation; a sheet also has one without a namespace.
func relationID(e xml.StartElement) string {
	for _, a := range e.Attr {
		if a.Name.Local == "id" && a.Name.Space != "" {
			return a.Value
		}
	}
	return ""
}

func isTrue(text string) bool { return text == "1" || text == "true" }

// styles finds what the number format of each cell style says.
func (x *xlsx) styles(part string) error {
	formats := maps.Clone(built)
	inCells := false // there are styles of styles too
	for t, err := range x.tokens(part) {
		if err != nil {
			return err
		}
		switch e := t.(type) {
		case xml.StartElement:
			switch {
			case e.Name.Local == "numFmt":
				formats[attr(e, "numFmtId")] = kindOf(attr(e, "formatCode"))
			case e.Name.Local == "cellXfs":
				inCells = true
			case e.Name.Local == "xf" && inCells:
				x.kinds = append(x.kinds, formats[attr(e, "numFmtId")])
			}
		case xml.EndElement:
			inCells = inCells && e.Name.Local != "cellXfs"
		}
		if len(x.kinds) > maxStyles || len(formats) > maxStyles {
			return tooMany(maxStyles, "styles")
		}
	}
	return nil
}

// sharedStrings reads the texts that cells name by number.
func (x *xlsx) sharedStrings(part string) error {
	var text richText
	for t, err := range x.tokens(part) {
		if err != nil {
			return err
		}
		text.token(t)
		if e, ok := t.(xml.EndElement); ok && e.Name.Local == "si" {
			cell := textCell(text.take())
			x.strings = append(x.strings, cell)
			x.textsLeft--
			x.bytesLeft -= len(cell.Text)
		}
		switch {
		case x.textsLeft < 0:
			return tooMany(maxShared, "shared texts")
		case x.bytesLeft < 0:
			return errTexts
		}
	}
	return nil
}

// maxRaw is how much of a text is looked at; of that, escapes take seven bytes for
// one, so that a longer text is always longer than maxText.
const maxRaw = 8 * maxText

// richText gathers the text of runs, without what says how it is pronounced.
type richText struct {
	b        strings.Builder
	in       bool // within an element of text
	phonetic bool
}

func (r *richText) token(t xml.Token) {
	switch t := t.(type) {
	case xml.StartElement:
		switch t.Name.Local {
		case "rPh":
			r.phonetic = true
		case "t", "v":
			r.in = true
		}
	case xml.EndElement:
		switch t.Name.Local {
		case "rPh":
			r.phonetic = false
		case "t", "v":
			r.in = false
		}
	case xml.CharData:
		if r.in && !r.phonetic && r.b.Len() <= maxRaw {
			r.b.Write(t)
		}
	}
}

// escaped is a character that XML has no place for (ISO/IEC 29500-1, 22.9.2.19).
var escaped = late.Regexp(`_x[0-9A-Fa-f]{4}_`)

func (r *richText) take() string {
	text := r.b.String()
	r.b.Reset()
	if !strings.Contains(text, "_x") {
		return text
	}
	return escaped().ReplaceAllStringFunc(text, func(found string) string {
		code, _ := strconv.ParseUint(found[2:6], 16, 16)
		return string(rune(code))
	})
}

var errShared = errors.New("is damaged: a cell names a text that is not there")
