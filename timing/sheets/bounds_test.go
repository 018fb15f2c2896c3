package sheets

import (
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a few bytes of a workbook may stand for in memory is bounded, whichever part
// they are in.
func TestBounds(t *testing.T) {
	if testing.Short() {
		t.Skip("unpacks a lot")
	}
	const sheet, texts, styles, links, book = "xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/styles.xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml"
	row := `<row r="1"><c><v>1</v></c></row>`
	other := func(name, text string) []byte {
		parts := []part{{"_rels/.rels", packageRels}, {book, bookOfOne}, {links, bookRels}, {styles, someStyles}, {texts, "<sst/>"}, {sheet, "<worksheet><sheetData>" + row + "</sheetData></worksheet>"}}
		for i := range parts {
			if parts[i].name == name {
				parts[i].text = text
			}
		}
		return zipped(t, parts...)
	}
	many := func(name, head, text, tail string, times int) []byte {
		return other(name, head+strings.Repeat(text, times)+tail)
	}
	for _, c := range []struct {
		name  string
		data  []byte
		fault string
		mib   uint64 // that may be allocated
	}{
		{"attributes", many(sheet, "<worksheet><sheetData><row ", `a="" `, "/></sheetData></worksheet>", 300_000), errToken.Error(), 64},
		{"attributes within a MiB", many(sheet, "<worksheet><sheetData><row ", `a="" `, "/></sheetData></worksheet>", 1001), "is not read: holds more than 1000 attributes in an element", 8},
		{"a text", many(texts, "<sst><si><t>", "xxxx", "</t></si></sst>", 300_000), errToken.Error(), 8},
		{"a text of runs", many(texts, "<sst><si>", "<r><t>xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx</t></r>", "</si></sst>", 40_000), "", 70},
		{"styles", many(styles, "<styleSheet><cellXfs>", "<xf/>", "</cellXfs></styleSheet>", 70_000), "is not read: holds more than 65536 styles", 64},
		{"parts", many(links, "<Relationships>", "<Relationship/>", "</Relationships>", 70_000), "is not read: holds more than 65536 parts", 64},
		{"sheets", many(book, `<workbook xmlns:r="r"><sheets>`, `<sheet name="a" r:id="rId1"/>`, "</sheets></workbook>", 5_000), "is not read: holds more than 4096 sheets", 64},
		{"sheets of an .ods", odsOf(t, strings.Repeat("<table:table/>", 5000)), "is not read: holds more than 4096 sheets", 64},
		{"the list of parts of an .ods", odsOf(t, "<table:table/>", part{"META-INF/manifest.xml", "<a>" + strings.Repeat("<b/>", 200_000) + "</a>"}), "", 50},
		{"the list of parts of an .ods, in one tag", odsOf(t, "<table:table/>", part{"META-INF/manifest.xml", "<a" + strings.Repeat(" ", 4<<20) + "/>"}), errToken.Error(), 8},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			assert.Equal(t, c.fault, fault(c.data))
			runtime.ReadMemStats(&after)
			assert.LessOrEqual(t, (after.TotalAlloc-before.TotalAlloc)>>20, c.mib*slack, "MiB")
		})
	}
}

// So many texts may be shared, of so many bytes, and no more.
func TestBoundOnSharedTexts(t *testing.T) {
	const part = "xl/sharedStrings.xml"
	read := func(data []byte, texts, bytes int) error {
		p, err := unzip(data)
		require.NoError(t, err)
		x := p.newXLSX()
		require.Equal(t, []int{maxShared, maxTexts}, []int{x.textsLeft, x.bytesLeft})
		x.textsLeft, x.bytesLeft = texts, bytes
		return x.sharedStrings(part)
	}
	none := xlsxOf(t, "", strings.Repeat("<si/>", 10_000))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	assert.NoError(t, read(none, 10_000, 0))
	runtime.ReadMemStats(&after)
	assert.LessOrEqual(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(6*slack), "MiB")
	assert.EqualError(t, read(none, 9_999, 0), "is not read: holds more than 1048576 shared texts")

	long := xlsxOf(t, "", strings.Repeat("<si><t>"+strings.Repeat("x", 100_000)+"</t></si>", 70))
	runtime.ReadMemStats(&before)
	assert.NoError(t, read(long, 70, 7_000_000))
	runtime.ReadMemStats(&after)
	assert.LessOrEqual(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(40*slack), "MiB")
	assert.EqualError(t, read(long, 70, 6_999_999), "is not read: holds more than 64 MiB of shared texts")
}

// Texts that are too long are told of as such, however they are put together; one
// that is in bounds without its escapes is read.
func TestLongTexts(t *testing.T) {
	for _, c := range []struct {
		name string
		data []byte
		long bool
	}{
		{"blanks", odsOf(t, `<table:table><table:table-row><table:table-cell><text:p>`+strings.Repeat(`<text:s text:c="1000"/>`, 1<<15)+`</text:p></table:table-cell></table:table-row></table:table>`), true},
		{"escapes in bounds", xlsxOf(t, `<row><c t="inlineStr"><is>`+strings.Repeat("<t>_x0041_</t>", 50_000)+`</is></c></row>`, ""), false},
		{"escapes beyond", xlsxOf(t, `<row><c t="inlineStr"><is>`+strings.Repeat("<t>_x0041_</t>", 200_000)+`</is></c></row>`, ""), true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			cell := all(t, c.data)[0].Cells[0]
			runtime.ReadMemStats(&after)
			if c.long {
				assert.Equal(t, "holds a text longer than any spreadsheet's: shorten it", cell.Fault)
			} else {
				assert.Equal(t, strings.Repeat("A", 50_000), cell.Text)
			}
			assert.Less(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(64*slack), "MiB in all")
		})
	}
}

// Of two cells in one place neither is taken in silence, however many they are; one
// of them may be blank.
func TestCellTwice(t *testing.T) {
	rows := all(t, xlsxOf(t, `<row r="1"><c r="B1"><v>1</v></c><c r="A1"><v>2</v></c>`+strings.Repeat(`<c r="B1"><v>3</v></c>`, 1000)+`</row>`+
		`<row r="2"><c r="B2"/><c r="A2"><v>4</v></c><c r="B2"><v>5</v></c></row>`, ""))
	require.Len(t, rows, 2)
	assert.Equal(t, []Cell{{Column: 2, Text: "1", Fault: faultTwice}, {Column: 1, Text: "2"}}, rows[0].Cells)
	assert.Equal(t, []Cell{{Column: 1, Text: "4"}, {Column: 2, Text: "5"}}, rows[1].Cells)
}

func TestPartTwice(t *testing.T) {
	assert.Equal(t, `is damaged: it holds "XL/worksheets/sheet1.xml" twice`, fault(xlsxOf(t, "", "", part{"XL/worksheets/sheet1.xml", "<worksheet/>"})))
}

// A number in base 16 is no number of a spreadsheet.
func TestBase16(t *testing.T) {
	for _, data := range [][]byte{
		xlsxOf(t, `<row><c><v>0x1p4</v></c></row>`, ""),
		odsOf(t, `<table:table><table:table-row><table:table-cell office:value-type="float" office:value="0x1p4"/></table:table-row></table:table>`),
	} {
		assert.Equal(t, "0x1p4", all(t, data)[0].Cells[0].Text)
	}
}

// Names of parts and what XML says of a file are part of the file.
func TestShownFaults(t *testing.T) {
	long := strings.Repeat("x", 1<<19)
	for _, data := range [][]byte{
		xlsxOf(t, `<row><c t="e"><v>#`+long+`</v></c></row>`, ""),
		xlsxOf(t, `<`+long+`></y>`, ""),
		zipped(t, part{"_rels/.rels", packageRels}, part{"xl/workbook.xml", bookOfOne}, part{"xl/_rels/workbook.xml.rels", strings.Replace(bookRels, "sharedStrings.xml", "\u202e"+long, 1)}),
	} {
		text := fault(data)
		if text == "" {
			text = all(t, data)[0].Cells[0].Fault
		}
		assert.Less(t, len(text), 500)
		assert.NotContains(t, text, "\u202e")
	}
}
