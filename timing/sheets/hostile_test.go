package sheets

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNotASheet(t *testing.T) {
	const (
		noSheet = "is not a spreadsheet: an .xlsx or .ods file is needed"
		locked  = "is locked with a password, or an .xls of old: save it as .xlsx or .ods, without a password"
		list    = `<manifest:manifest><manifest:file-entry manifest:full-path="content.xml"><manifest:encryption-data/></manifest:file-entry></manifest:manifest>`
		row     = `<row r="1"><c r="A1"><v>1</v></c></row>`
	)
	whole := xlsxOf(t, row, "")
	for _, c := range []struct {
		name  string
		data  []byte
		fault string
	}{
		{"nothing", nil, noSheet},
		{"a text", []byte("step,count,time\n"), noSheet},
		{"a zip of nothing", zipped(t), noSheet},
		{"a zip of something else", zipped(t, part{"photo.jpg", "x"}), noSheet},
		{"a zip cut off", whole[:len(whole)-30], "is damaged: zip: not a valid zip file"},
		{"a document of words", zipped(t, part{"content.xml", "<document><text/></document>"}), noSheet},
		{"a document of words, .docx", zipped(t, part{"_rels/.rels", packageRels}, part{"xl/workbook.xml", "<document/>"}, part{"xl/_rels/workbook.xml.rels", "<Relationships/>"}), noSheet},
		{"no main part", zipped(t, part{"_rels/.rels", packageRels}), noSheet},
		{"no list of sheets", zipped(t, part{"_rels/.rels", packageRels}, part{"xl/workbook.xml", bookOfOne}), "is damaged: it lacks its part xl/_rels/workbook.xml.rels"},
		{"no sheet", zipped(t, part{"_rels/.rels", packageRels}, part{"xl/workbook.xml", bookOfOne}, part{"xl/_rels/workbook.xml.rels", bookRels}), "is damaged: it lacks its part /xl/sharedStrings.xml"},
		{"a locked .xlsx", []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 EncryptedPackage"), locked},
		{"a locked .ods", zipped(t, part{"content.xml", "\x8fx"}, part{"META-INF/manifest.xml", list}), locked},
		{"a locked .ods, as a whole", zipped(t, part{"encrypted-package", "\x8fx"}, part{"META-INF/manifest.xml", list}), locked},
		{"not XML", xlsxOf(t, row+"<", ""), "is damaged: xl/worksheets/sheet1.xml: XML syntax error on line 1: expected element name after <"},
		{"cut off within a row", zipped(t, part{"content.xml", odsHead + "<table:table><table:table-row>"}), "is damaged: content.xml: XML syntax error on line 1: unexpected EOF"},
		{"an entity", xlsxOf(t, `<row><c><v>&lol;</v></c></row>`, ""), "is damaged: xl/worksheets/sheet1.xml: XML syntax error on line 1: invalid character entity &lol;"},
		{"a text that is not there", xlsxOf(t, `<row><c t="s"><v>1</v></c></row>`, "<si><t>a</t></si>"), errShared.Error()},
		{"a text before the first", xlsxOf(t, `<row><c t="s"><v>-1</v></c></row>`, "<si><t>a</t></si>"), errShared.Error()},
		{"deep", xlsxOf(t, strings.Repeat("<row>", 1000)+strings.Repeat("</row>", 1000), ""), errDeep.Error()},
		{"a row too far down", xlsxOf(t, `<row r="1048577"><c><v>1</v></c></row>`, ""), `has too much in sheet "May": at most 1048576 rows can be read`},
		{"a column too far right", xlsxOf(t, `<row><c r="XFE1"><v>1</v></c></row>`, ""), `has too much in sheet "May": at most 16384 columns can be read`},
		{"a row too far down, .ods", odsOf(t, `<table:table table:name="May"><table:table-row table:number-rows-repeated="1048576"><table:table-cell/></table:table-row><table:table-row>`+odsOne+`</table:table-row></table:table>`),
			`has too much in sheet "May": at most 1048576 rows can be read`},
		{"rows without end", odsOf(t, `<table:table table:name="May"><table:table-row table:number-rows-repeated="9223372036854775807">`+odsOne+`</table:table-row></table:table>`),
			`has too much in sheet "May": at most 1048576 rows can be read`},
		{"a column too far right, .ods", odsOf(t, `<table:table table:name="May"><table:table-row><table:table-cell table:number-columns-repeated="16384"/>`+odsOne+`</table:table-row></table:table>`),
			`has too much in sheet "May": at most 16384 columns can be read`},
		{"a table of copies", odsOf(t, `<table:table table:name="May"><table:table-row table:number-rows-repeated="1000"><table:table-cell office:value-type="float" office:value="1" table:number-columns-repeated="16000"/></table:table-row></table:table>`),
			errRepeated.Error()},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.fault, fault(c.data)) })
	}
}

func TestTextTooLong(t *testing.T) {
	long := "<si><t>" + strings.Repeat("x", maxText+1) + "</t></si>"
	rows := all(t, xlsxOf(t, `<row><c t="s"><v>0</v></c></row>`, long))
	assert.Equal(t, "holds a text longer than any spreadsheet's: shorten it", rows[0].Cells[0].Fault)
}

// repeated is a part that unpacks to a head and many times a text. It is packed once: a packer
// that was flushed begins anew, so that what it gives can be put down again and again.
func repeated(t *testing.T, name, head, text string, times int) []byte {
	t.Helper()
	var b, block bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range []part{{"_rels/.rels", packageRels}, {"xl/workbook.xml", bookOfOne}, {"xl/_rels/workbook.xml.rels", bookRels}, {"xl/styles.xml", someStyles}} {
		w, err := z.Create(p.name)
		require.NoError(t, err)
		_, err = io.WriteString(w, p.text)
		require.NoError(t, err)
	}
	pack := func(text string) []byte {
		block.Reset()
		packer, err := flate.NewWriter(&block, flate.DefaultCompression)
		require.NoError(t, err)
		_, err = io.WriteString(packer, text)
		require.NoError(t, err)
		require.NoError(t, packer.Flush())
		return bytes.Clone(block.Bytes())
	}
	sum := crc32.ChecksumIEEE([]byte(head))
	for range times {
		sum = crc32.Update(sum, crc32.IEEETable, []byte(text))
	}
	last := []byte{3, 0} // a block of nothing, the last
	packed := slices.Concat(pack(head), bytes.Repeat(pack(text), times), last)
	w, err := z.CreateRaw(&zip.FileHeader{
		Name: name, Method: zip.Deflate, CRC32: sum,
		CompressedSize64: uint64(len(packed)), UncompressedSize64: uint64(len(head) + times*len(text)),
	})
	require.NoError(t, err)
	_, err = w.Write(packed)
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return b.Bytes()
}

// A small file that unpacks to far more is refused before it is unpacked, and what
// is cut off is told of, with little memory.
func TestBombs(t *testing.T) {
	if testing.Short() {
		t.Skip("unpacks a lot")
	}
	allocated := func(data []byte, want string) uint64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		assert.Equal(t, want, fault(data))
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	bomb := repeated(t, "xl/sharedStrings.xml", "<sst>", strings.Repeat(" ", 1_000_000), 300)
	assert.Less(t, len(bomb), 1<<20)
	assert.Less(t, allocated(bomb, errLarge.Error()), uint64(4<<20))

	deep := repeated(t, "xl/sharedStrings.xml", "<sst>", strings.Repeat("<a>", 1000), 1000)
	assert.Less(t, allocated(deep, errDeep.Error()), uint64(4<<20))
}

// The bound is on all that is unpacked, however often a part is.
func TestBoundOnAllParts(t *testing.T) {
	p, err := unzip(zipped(t, part{"a", strings.Repeat(" ", 60)}))
	require.NoError(t, err)
	p.left = 100
	for _, want := range []error{nil, errLarge} {
		var got error
		for _, err := range p.tokens("a") {
			got = err
		}
		assert.Equal(t, want, got)
	}
}

// A hundred thousand rows of nothing, whether they stand there or are repeated, and cells
// far to the right in each row are no burden.
func TestManyRows(t *testing.T) {
	assert.Empty(t, all(t, xlsxOf(t, strings.Repeat("<row/>", 100_000), "")))
	wide := xlsxOf(t, strings.Repeat(`<row><c r="XFD1"><v>1</v></c></row>`, 10_000), "")
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	n := 0
	for _, err := range Rows(wide) {
		require.NoError(t, err)
		n++
	}
	runtime.ReadMemStats(&after)
	assert.Equal(t, 10_000, n)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(slack*40<<20))
}

// Whoever has seen enough may stop.
func TestStop(t *testing.T) {
	ods := odsOf(t, `<table:table table:name="May"><table:table-row table:number-rows-repeated="9">`+odsOne+`</table:table-row></table:table>`)
	for _, data := range [][]byte{ods, xlsxOf(t, strings.Repeat(`<row><c><v>1</v></c></row>`, 9), "")} {
		n := 0
		for _, err := range Rows(data) {
			require.NoError(t, err)
			if n++; n == 3 {
				break
			}
		}
		assert.Equal(t, 3, n)
	}
}

func TestIs(t *testing.T) {
	for _, c := range []struct {
		file, data string
		want       bool
	}{
		{"may.xlsx", "step,count", true}, {"may.ODS", "", true}, {"may.csv", "PK\x03\x04", true}, {"may", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", true},
		{"may.csv", "step,count", false}, {"may", "", false}, {"may.xls", "PK", false},
	} {
		assert.Equal(t, c.want, Is(c.file, []byte(c.data)), c)
	}
}
