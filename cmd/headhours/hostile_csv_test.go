package main

import (
	"encoding/binary"
	"fmt"
	"strings"
	"unicode/utf16"
)

const header = "step,count,time\n"

// sixSeconds is the line of a fit of one reading of sow, 60 s for 10.
const sixSeconds = "sow 1 10 - 6.0 s unit"

// log is a case of one log, read with --log and without a study.
func log(name, why, text string) hostile {
	return hostile{name: name, why: why, files: map[string]string{"a.csv": text}, args: []string{"fit", "--log", "a.csv"}}
}

func (c hostile) fails(says ...string) hostile {
	c.status, c.says = badData, append(c.says, says...)
	return c
}

func (c hostile) gives(lines ...string) hostile { c.holds = lines; return c }

// hints is a case whose figures are doubted, and counted all the same.
func (c hostile) hints(says string) hostile { c.says = []string{says}; return c }

func (c hostile) bounded(alloc, output int) hostile {
	c.big, c.alloc, c.output = true, alloc, output
	return c
}

func hostileCSV() []hostile {
	return []hostile{
		log("endless steps", "2,000 steps of one reading each, 24 kB: a tenth of a second, not the square", header+numbered("s%d,10,60\n", 2_000)).bounded(48, 256).gives("Steps, with 95 % intervals"),
		log("empty", "a file of no bytes", "").fails("a.csv: ", "empty"),
		log("mark alone", "a byte-order mark and nothing else", "\ufeff").fails("a.csv: ", "empty"),
		log("blank lines", "a thousand line ends and nothing else", strings.Repeat("\r\n", 1000)).fails("a.csv: ", "empty"),
		log("header alone", "no row below the header", header).fails("no readings"),
		log("header twice", "the header stands again as a row", header+"step,∑count,∑time\nsow,1,2\n").fails(`count "count" is not a number`),
		log("column twice", "two columns that differ by case alone", "step,∑Step,count,time\nsow,thin,1,2\n").fails(`column "step" stands twice`),
		log("hidden in a header", "a column's name holds a zero-width space", "step,∑cou\u200bnt,time\nsow,1,2\n").fails(`is "cou\u200bnt" meant for "count"?`),
		log("mark within the header", "a byte-order mark stands within the line", "step,∑\ufeffcount,time\nsow,1,2\n").fails(`"\ufeffcount"`),
		log("mark within", "a byte-order mark begins a later row, as files put together have it", header+"\ufeffsow,10,60\n").gives(`\ufeffsow 1 10 - 6.0 s unit`),
		log("names alike", "names that differ by case and by what is not seen: three steps, none of them lost", header+"sow,10,60\nSow,10,30\nso\u200bw,10,20\n").
			warns(`a.csv:3:1: step "Sow" differs from "sow" at a.csv:2:1`).gives(sixSeconds, "Sow 1 10 - 3.0 s unit", `so\u200bw 1 10 - 2.0 s unit`),
		log("orders to a terminal", "names clear the screen, ring, turn text about and break the line", header+"\"\x1b[2Jsow\",10,60\n\"s\u202eow\",10,60\n\"a\x07\nb\",10,60\n").
			gives(`\x1b[2Jsow 1 10 - 6.0 s unit`, `s\u202eow 1 10 - 6.0 s unit`, `a\a\nb 1 10 - 6.0 s unit`),
		log("orders in an error", "what is quoted in an error clears the screen and turns text about", header+"sow,∑\x1b[2J\u202e,60\n").fails(`count "\x1b[2J\u202e" is not a number`),
		log("mixed line ends", "CRLF and LF in one file, none on the last", "step,count,time\r\nsow,10,60\nsow,20,120\r\nsow,30,180").gives("sow 3 10–30 0.00 s 0.00–0.00 6.0 s 6.00–6.00 unit"),
		log("carriage returns", "lines end in carriage returns alone", "step,count,∑time\rsow,1,2\r").fails("carriage return alone"),
		log("carriage returns below", "rows, not the header, end in carriage returns alone", header+"sow,1,2\rsow,∑3,4\r").fails("number of fields is 5"),
		log("NUL", "a NUL byte in a name", header+"∑so\x00w,10,60\n").fails(`"so\x00w" holds a NUL byte`),
		log("not UTF-8", "a letter of another encoding", header+"∑so\xffw,10,60\n").fails(`"so\xffw" is not UTF-8`),
		log("UTF-16", "UTF-16 with its mark", inUTF16("\ufeff"+header+"sow,1,2\n")).fails("a.csv: ", "UTF-16"),
		log("UTF-16 unmarked", "UTF-16 without a mark", inUTF16(header+"sow,1,2\n")).fails("a.csv: ", "UTF-16"),
		log("quote never closed", "a quote takes in all rows below it", header+"sow,10,60\n∑\"sow,10,60\n"+strings.Repeat("sow,1,2\n", 1000)).fails("never closed"),
		log("quote within", "a quote in a field that does not begin with one", header+"a∑\"b,10,60\n").fails("a quote in a field"),
		log("quote closed early", "text behind a closing quote", header+"\"a∑\"b,10,60\n").fails("after its closing quote"),
		log("too many fields", "a thousand more fields than names", header+"sow,10,60,∑"+strings.Repeat(",", 1000)+"\n").fails("number of fields is 1004"),
		log("too few fields", "a row cut off", header+"sow,∑10\n").fails("number of fields is 2"),
		log("workbook in disguise", "a workbook under the name of a CSV file", string(xlsxOf(goodRows))).gives(sixSeconds),
		log("formulas", "names that a spreadsheet would run", header+"=1+1,10,60\n@SUM(1),10,60\n").gives("=1+1 1 10 - 6.0 s unit", "@SUM(1) 1 10 - 6.0 s unit"),
		log("long name", "a step's name of 256 KiB", header+strings.Repeat("s", 1<<18)+",10,60\n").bounded(32, 1<<10).
			gives("Steps, with 95 % intervals"),
		log("long note", "a note of 256 KiB, which no answer shows", "step,count,time,note\nsow,10,60,"+strings.Repeat("s", 1<<18)+"\n").gives(sixSeconds),
		log("thirty thousand bad rows", "every row is wrong: the first thousand are listed, then how many more", header+"sow,∑x,2\n"+strings.Repeat("sow,x,2\n", 29_999)).
			bounded(32, 80).fails("a.csv:1001:5: ", "and 29000 more"),
		log("a row of 20 MB", "one row without an end: no more of it is kept than a row may have", header+"∑sow,10,"+strings.Repeat("9", 20_000_000)).bounded(16, 8).fails("a row of more than 4 million bytes"),
		log("more columns than a row may have", "thirty thousand columns of other, long names", "∑step,count,time"+numbered(",c%0150d", 30_000)+"\n").bounded(48, 8).fails("a row of more than 4 million bytes"),
		log("a hundred and fifty thousand columns", "columns of other names, kept out of the way: the square of so many would hang", "step,count,time"+numbered(",c%d", 150_000)+"\nsow,10,60"+strings.Repeat(",1", 150_000)+"\n").
			bounded(512, 8).gives(sixSeconds),
		log("thirty thousand columns, none needed", "the names are listed in an error, twenty of them", "∑c"+numbered(",c%d", 30_000)+"\n").bounded(64, 8).fails("29981 more"),
		log("one column many times", "a name stands thirty thousand times", "step,time,count,∑count"+strings.Repeat(",count", 29_998)+"\n").bounded(64, 80).fails("and 28999 more"),
	}
}

// inUTF16 is a text in UTF-16, the low byte first.
func inUTF16(text string) string {
	var b []byte
	for _, unit := range utf16.Encode([]rune(text)) {
		b = binary.LittleEndian.AppendUint16(b, unit)
	}
	return string(b)
}

// numbered is a text with each of the numbers 0 to n-1 put into it, in a row.
func numbered(form string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, form, i)
	}
	return b.String()
}
