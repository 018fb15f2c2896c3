package main

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
)

// entry is a file within a workbook: a text so many times, between a head and a tail.
type entry struct {
	name, head, text string
	times            int
	tail             string
}

// packed is a workbook of these files.
func packed(entries ...entry) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, e := range entries {
		w, _ := z.CreateHeader(&zip.FileHeader{Name: e.name, Method: methodOf(e)})
		io.WriteString(w, e.head)
		block := strings.Repeat(e.text, 1000)
		for range e.times / 1000 {
			io.WriteString(w, block)
		}
		io.WriteString(w, strings.Repeat(e.text, e.times%1000)+e.tail)
	}
	z.Close()
	return b.Bytes()
}

// methodOf packs no more than has to be: a packer takes half a millisecond to begin.
func methodOf(e entry) uint16 {
	if e.times == 0 {
		return zip.Store
	}
	return zip.Deflate
}

const (
	relsPart  = "_rels/.rels"
	bookPart  = "xl/workbook.xml"
	linksPart = "xl/_rels/workbook.xml.rels"
	textsPart = "xl/sharedStrings.xml"
	sheetPart = "xl/worksheets/sheet1.xml"

	rels  = `<Relationships><Relationship Id="r1" Type="http://x/officeDocument" Target="xl/workbook.xml"/></Relationships>`
	book  = `<workbook xmlns:r="r"><sheets><sheet name="May" sheetId="1" r:id="r1"/></sheets></workbook>`
	links = `<Relationships><Relationship Id="r1" Type="http://x/worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="r2" Type="http://x/sharedStrings" Target="sharedStrings.xml"/></Relationships>`

	headRow  = `<row r="1"><c t="inlineStr"><is><t>step</t></is></c><c t="inlineStr"><is><t>count</t></is></c><c t="inlineStr"><is><t>time</t></is></c></row>`
	goodRow  = `<row r="2"><c r="A2" t="inlineStr"><is><t>sow</t></is></c><c r="B2"><v>10</v></c><c r="C2"><v>60</v></c></row>`
	goodRows = headRow + goodRow

	tableHead = `<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"` +
		` xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet><table:table table:name="May">` +
		`<table:table-row><table:table-cell><text:p>step</text:p></table:table-cell><table:table-cell><text:p>count</text:p></table:table-cell><table:table-cell><text:p>time</text:p></table:table-cell></table:table-row>`
	tableTail = `</table:table></office:spreadsheet></office:body></office:document-content>`
)

func xlsxOf(rows string, more ...entry) []byte { return xlsxIn(book, links, rows, more...) }

func xlsxIn(book, links, rows string, more ...entry) []byte {
	return packed(append([]entry{
		{name: relsPart, head: rels}, {name: bookPart, head: book}, {name: linksPart, head: links}, {name: textsPart, head: "<sst/>"},
		{name: sheetPart, head: `<worksheet><dimension ref="A1:C2"/><sheetData>` + rows + "</sheetData></worksheet>"},
	}, more...)...)
}

// odsOf is an .ods workbook with a header and these rows.
func odsOf(rows string, more ...entry) []byte {
	return packed(append([]entry{{name: "content.xml", head: tableHead + rows + tableTail}}, more...)...)
}

// odsRow is a row with what stands in its count's cell, and how often the row stands.
func odsRow(count, times string) string {
	return `<table:table-row table:number-rows-repeated="` + times + `"><table:table-cell><text:p>sow</text:p></table:table-cell>` + count +
		`<table:table-cell office:value-type="float" office:value="60"><text:p>60</text:p></table:table-cell></table:table-row>`
}

const odsTen = `<table:table-cell office:value-type="float" office:value="10"><text:p>10</text:p></table:table-cell>`

func workbook(name, why, file string, data []byte) hostile {
	return hostile{name: name, why: why, files: map[string]string{file: string(data)}, args: []string{"fit", "--log", file}}
}

func hostileWorkbooks() []hostile {
	xlsx := func(name, why string, data []byte) hostile { return workbook(name, why, "a.xlsx", data) }
	ods := func(name, why string, data []byte) hostile { return workbook(name, why, "a.ods", data) }
	swap := func(old, new string) []byte { return xlsxOf(strings.Replace(goodRows, old, new, 1)) }
	whole := xlsxOf(goodRows)
	return []hostile{
		xlsx("empty", "a workbook of no bytes", nil).fails("a.xlsx: is not a spreadsheet"),
		xlsx("a text", "a CSV file under the name of a workbook", []byte(header+"sow,10,60\n")).fails("a.xlsx: is not a spreadsheet"),
		xlsx("a zip in a zip", "a workbook within a zip", packed(entry{name: "a.xlsx", head: string(whole)})).fails("a.xlsx: is not a spreadsheet"),
		xlsx("locked", "the container of locked workbooks", []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")).fails("a.xlsx: is locked"),
		xlsx("cut in half", "a zip without its directory", whole[:len(whole)/2]).fails("a.xlsx: is damaged"),
		xlsx("cut at the end", "a zip whose last bytes are missing", whole[:len(whole)-10]).fails("a.xlsx: is damaged"),
		xlsx("wrong checksum", "a sheet that does not match its checksum", withField(whole, 16, 0x12345678)).fails("a.xlsx: is damaged", "checksum"),
		xlsx("more than it says", "a sheet that unpacks to more than it says", withField(whole, 24, 10)).fails("a.xlsx: is damaged"),
		xlsx("larger than any", "a sheet that unpacks to 4 GB, by its own word: it is not unpacked", withField(whole, 24, 0xfffffff0)).fails("a.xlsx: unpacks to more than 256 MiB"),
		xlsx("names outside", "entries that would unpack outside a folder: nothing is unpacked to disk", xlsxOf(goodRows, entry{name: "../../evil.csv", head: header}, entry{name: "/evil.csv", head: header})).gives(sixSeconds),
		xlsx("link outside", "a sheet that is said to stand outside the file", xlsxIn(book, strings.Replace(links, "worksheets/sheet1.xml", "../../../etc/passwd", 1), goodRows)).fails("a.xlsx: is damaged: it lacks its part"),
		xlsx("link to a file", "a sheet that is said to be a file of the machine", xlsxIn(book, strings.Replace(links, "worksheets/sheet1.xml", "file:///etc/passwd", 1), goodRows)).fails("a.xlsx: is damaged: it lacks its part"),
		xlsx("twenty thousand entries", "entries that no workbook has", xlsxOf(goodRows, emptyEntries(20_000)...)).bounded(64, 8).gives(sixSeconds),
		xlsx("entities", "entities that stand for more and more of others", xlsxIn(`<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]>`+book, links, headRow+`<row><c t="inlineStr"><is><t>&b;</t></is></c></row>`)).fails("a.xlsx: is damaged", "&b;"),
		xlsx("entity of a file", "an entity that stands for a file of the machine", xlsxIn(`<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>`+book, links, headRow+`<row><c><v>&a;</v></c></row>`)).fails("a.xlsx: is damaged", "&a;"),
		xlsx("deep", "elements a hundred thousand deep", packed(entry{name: relsPart, head: rels}, entry{name: bookPart, head: book}, entry{name: linksPart, head: links}, entry{name: textsPart, text: "<a>", times: 100_000})).fails("a.xlsx: is damaged: its XML is nested too deep"),
		xlsx("empty rows", "fifty thousand rows that hold nothing", packed(entry{name: relsPart, head: rels}, entry{name: bookPart, head: book}, entry{name: linksPart, head: links}, entry{name: textsPart, head: "<sst/>"}, entry{name: sheetPart, head: "<worksheet><sheetData>" + goodRows, text: "<row/>", times: 50_000, tail: "</sheetData></worksheet>"})).
			bounded(32, 8).gives(sixSeconds),
		xlsx("row four billion", "a row beyond every sheet", swap(`<row r="2">`, `<row r="4000000000">`)).fails(`a.xlsx: has too much in sheet "May"`),
		xlsx("column beyond", "a cell one column beyond every sheet", swap(`r="B2"`, `r="XFE2"`)).fails(`a.xlsx: has too much in sheet "May"`),
		xlsx("column far beyond", "a cell whose column overflows", swap(`r="B2"`, `r="`+strings.Repeat("Z", 1000)+`2"`)).fails(`a.xlsx: has too much in sheet "May"`),
		xlsx("dimension lies", "a sheet that says it has three cells and has six", xlsxOf(goodRows+strings.Replace(goodRow, ">60<", ">120<", 1))).gives("sow 2 10 - 9.0 s -29–47 unit"),
		xlsx("text that is not there", "a cell that names a text by a number beyond all", swap(`<c r="A2" t="inlineStr"><is><t>sow</t></is></c>`, `<c r="A2" t="s"><v>4000000000</v></c>`)).fails("a.xlsx: is damaged"),
		xlsx("base 16", "a number in base 16", swap("<v>10</v>", "<v>0x10</v>")).fails("a.xlsx:May!B2: ", "is not a number"),
		xlsx("no number", "a number that is none", swap("<v>10</v>", "<v>NaN</v>")).fails(`a.xlsx:May!B2: count "NaN" is not a number`),
		xlsx("infinite", "a number beyond all", swap("<v>10</v>", "<v>1E999</v>")).fails(`a.xlsx:May!B2: count "1E999" is not a number`),
		xlsx("below zero", "a count below zero", swap("<v>10</v>", "<v>-10</v>")).fails(`a.xlsx:May!B2: count "-10" is below 0`),
		xlsx("error of a formula", "an error that turns text about", swap(`<c r="B2"><v>10</v>`, `<c r="B2" t="e"><v>#DIV/0!`+"\u202e"+`</v>`)).fails(`a.xlsx:May!B2: count holds the error "#DIV/0!\u202e"`),
		xlsx("formula without a value", "a formula that nobody worked out", swap("<v>10</v>", "<f>5+5</f>")).fails("a.xlsx:May!B2: count holds a formula without its value"),
		xlsx("orders to a terminal", "a name that turns text about and, by an escape of the format, clears the screen", swap("sow", "s\u202eow_x001B_[2J")).gives(`s\u202eow\x1b[2J 1 10 - 6.0 s unit`),
		xlsx("control character", "a control character as it is, which XML has no place for", swap("sow", "s\x1bow")).fails("a.xlsx: is damaged"),
		xlsx("text too long", "a name longer than a cell's", swap("sow", strings.Repeat("s", 1<<18))).fails("a.xlsx:May!A2: step holds a text longer"),
		xlsx("links that lead nowhere", "more of them than any workbook has", linksOf("<Relationship/>", 66_000)).bounded(64, 8).fails("a.xlsx: is not read: holds more than 65536 parts"),
		xlsx("attributes", "an element of attributes alone", packed(entry{name: relsPart, head: rels}, entry{name: bookPart, head: book}, entry{name: linksPart, head: links}, entry{name: textsPart, head: "<sst/>"}, entry{name: sheetPart, head: "<worksheet><sheetData>" + headRow + "<row ", text: `a="" `, times: 400_000, tail: "/>" + goodRow + "</sheetData></worksheet>"})).
			bounded(128, 8).fails("a.xlsx: is not read: holds an element or a text of more than 1 MiB"),
		xlsx("one cell many times", "a cell that stands thirty thousand times in a row", packed(entry{name: relsPart, head: rels}, entry{name: bookPart, head: book}, entry{name: linksPart, head: links}, entry{name: textsPart, head: "<sst/>"}, entry{name: sheetPart, head: "<worksheet><sheetData>" + headRow + `<row r="2">`, text: `<c r="A2"><v>1</v></c>`, times: 30_000, tail: "</row></sheetData></worksheet>"})).
			bounded(32, 8).fails("a.xlsx:May!A2: step stands twice"),
		xlsx("cell twice", "two counts in one cell", swap(`<c r="C2">`, `<c r="B2"><v>20</v></c><c r="C2">`)).fails("a.xlsx:May!B2: count stands twice"),
		xlsx("sheet twice", "two sheets of one entry name", xlsxOf(goodRows, entry{name: sheetPart, head: "<worksheet><sheetData>" + headRow + "</sheetData></worksheet>"})).fails("a.xlsx: is damaged: it holds", "twice"),
		xlsx("base 16 with an exponent", "a number in base 16 that Go would read", swap("<v>10</v>", "<v>0x1p4</v>")).fails(`a.xlsx:May!B2: count "0x1p4" is not a number`),
		xlsx("sheet of orders", "a sheet's name that turns text about and breaks the line", xlsxIn(strings.Replace(book, "May", "M\u202e&#10;y", 1), links, strings.Replace(goodRows, ">10<", ">x<", 1))).fails(`a.xlsx:'M\u202e\ny'!B2: `),
		xlsx("name of a sheet", "a sheet's name of 10 kB in every error", xlsxIn(strings.Replace(book, "May", strings.Repeat("M", 10_000), 1), links, headRow+strings.Repeat(`<row><c t="str"><v>sow</v></c><c t="str"><v>x</v></c><c><v>1</v></c></row>`, 1000))).bounded(128, 200).fails("count \"x\""),
		ods("blanks", "text:s stands for 1000 blanks", packed(entry{name: "content.xml", head: tableHead + odsRow(odsTen, "1") + `<table:table-row><table:table-cell><text:p>`, text: `<text:s text:c="1000"/>`, times: 20_000, tail: `</text:p></table:table-cell></table:table-row>` + tableTail})).
			bounded(48, 8).fails("a.ods:May!A"),
		ods("rows four billion", "a row that stands four billion times", odsOf(odsRow(odsTen, "4000000000"))).fails(`a.ods: has too much in sheet "May"`),
		ods("rows beyond int", "a row that stands more often than there are numbers for", odsOf(odsRow(odsTen, "9223372036854775807"))).fails(`a.ods: has too much in sheet "May"`),
		ods("table of copies", "sixteen million cells in a few bytes", odsOf(odsRow(`<table:table-cell office:value-type="float" office:value="1" table:number-columns-repeated="16000"/>`, "1000"))).fails("a.ods: repeats cells too often"),
		ods("bad rows", "a bad row that stands thirty thousand times", odsOf(odsRow(strings.ReplaceAll(odsTen, "10", "x"), "30000"))).bounded(48, 120).fails("a.ods:May!B2: ", " more"),
		ods("good rows", "a good row that stands three times", odsOf(odsRow(odsTen, "3"))).gives("sow 3 10 - 6.0 s 6.00–6.00 unit"),
		ods("endless time", "a time beyond all numbers", odsOf(odsRow(strings.Replace(odsTen, `"float" office:value="10"`, `"time" office:time-value="PT`+strings.Repeat("9", 400)+`S"`, 1), "1"))).fails("a.ods:May!B2: ", "is not a number"),
		ods("entity", "an entity that nothing defines", odsOf(odsRow(`<table:table-cell><text:p>&lol;</text:p></table:table-cell>`, "1"))).fails("a.ods: is damaged"),
	}
}

// linksOf is a workbook whose list of parts has a text so many times.
func linksOf(text string, times int) []byte {
	return packed(entry{name: relsPart, head: rels}, entry{name: bookPart, head: book},
		entry{name: linksPart, head: "<Relationships>", text: text, times: times, tail: "</Relationships>"}, entry{name: sheetPart, head: "<worksheet><sheetData>" + goodRows + "</sheetData></worksheet>"})
}

// emptyEntries are entries of a zip that no workbook has, of names of their own.
func emptyEntries(n int) []entry {
	entries := make([]entry, n)
	for i := range entries {
		entries[i].name = fmt.Sprintf("xl/empty%d.xml", i)
	}
	return entries
}

// withField is a workbook with four bytes of what the zip's directory says of the
// sheet put otherwise (APPNOTE 4.3.12: the checksum at 16, the length at 24, the
// name at 46).
func withField(data []byte, at int, value uint32) []byte {
	data = bytes.Clone(data)
	name := bytes.LastIndex(data, []byte(sheetPart))
	binary.LittleEndian.PutUint32(data[name-46+at:], value)
	return data
}
