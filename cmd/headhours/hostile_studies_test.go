package main

import (
	"strings"
)

func hostileStudy(name, why, text string) hostile {
	return hostile{name: name, why: why, files: map[string]string{"study.toml": text}, args: []string{"fit"}}
}

// swapped is the small study with one text put for another.
func swapped(old, new string) string { return strings.Replace(small, old, new, 1) }

func hostileStudies() []hostile {
	many := func(form string, n int) string { return small + numbered(form, n) }
	long := strings.Repeat("s", 1<<18)
	return []hostile{
		hostileStudy("empty", "a file of no bytes", "∑").fails("the study file is empty"),
		hostileStudy("remarks alone", "a file of remarks", "∑# study\n").fails("the study file is empty"),
		hostileStudy("NUL", "a NUL byte in a text", "[study]\nname = \"a∑\x00b\"\n").fails("cannot be read", "control characters"),
		hostileStudy("not UTF-8", "a letter of another encoding", "[study]\nname = \"∑\xff\"\n").fails("found the byte 0xff, want UTF-8"),
		hostileStudy("UTF-16", "a study in UTF-16", inUTF16("\ufeff"+small)).fails("study.toml:1:1: ", "want UTF-8"),
		hostileStudy("carriage returns", "lines that end in carriage returns alone", strings.ReplaceAll(swapped("\n", "∑\n"), "\n", "\r")).fails("cannot be read"),
		hostileStudy("mark within", "a byte-order mark within", swapped("[[step]]", "∑\ufeff[[step]]")).fails("cannot be read"),
		hostileStudy("control character", "a text that clears the screen", swapped(`"small"`, "\"∑\x1b[2J\"")).fails("cannot be read", "control characters"),
		hostileStudy("escaped control character", "a name that clears the screen, by an escape of the format", swapped(`"sow"`, `∑"s\u001b[2Jow"`)).fails(`name: found "s\x1b[2Jow", want a text of one line`),
		hostileStudy("key of orders", "a key that clears the screen and turns text about", swapped("[study]", "[study]\n∑\"\\u001b[2J\u202e\" = 1")).fails(`unknown key "\x1b[2J\u202e" in [study]`),
		hostileStudy("number of orders", "a text for a number that turns text about", swapped("10", "∑\"\u202e10\"")).fails(`heads: found "\u202e10", want a whole number above 0`),
		hostileStudy("key twice", "a key that stands twice", swapped("heads", "∑name = \"b\"\nheads")).fails("cannot be read"),
		hostileStudy("key twice in a table of one line", "a key that stands twice in a task", swapped("day = 0", "day = 0, ∑day = 1")).fails("cannot be read"),
		hostileStudy("table twice", "a table that stands twice", small+"[∑study]\nheads = 3\n").fails("cannot be read"),
		hostileStudy("quoted keys", "known keys in quotes and escapes are the same keys", "[\"study\"]\n\"h\\u0065ads\" = 10\n∑'head' = 3\n").fails(`unknown key "head"`),
		hostileStudy("days for numbers", "a day where a number belongs", swapped("10", "∑2026-01-01")).fails("heads: found 2026-01-01, want a whole number"),
		hostileStudy("infinite", "an infinite share", swapped("heads", "allowance = ∑inf\nheads")).fails("allowance: found inf, want a number"),
		hostileStudy("no number", "a share that is no number", swapped("heads", "confidence = ∑nan\nheads")).fails("confidence: found nan, want a number"),
		hostileStudy("exponent", "a whole number with an exponent", swapped("10", "∑1e3")).fails("heads: found 1e3, want a whole number"),
		hostileStudy("beyond int", "a whole number beyond all", swapped("10", "∑1"+strings.Repeat("0", 1000))).fails("cannot be read", "too large"),
		hostileStudy("too many heads", "more heads than can be", swapped("10", "∑2000000000")).fails("heads: found 2000000000, want a whole number up to 1000000000"),
		hostileStudy("a day without end", "a task a million days from sowing", swapped("day = 0", "day = ∑1000000")).fails("day: found 1000000, want a whole number of 0 or more and up to 3660"),
		hostileStudy("times a number beyond all", "counts that no float64 holds", swapped("\"cells\"", "\"cells\", each = ∑1e308")).fails("each: found 1e308, more than any farm has"),
		hostileStudy("a setup that covers nothing", "a setup for next to nothing of a count", swapped("\"sow\"\n", "\"sow\"\nsetup_covers = ∑5e-324\n")).fails("setup_covers: found 5e-324, as good as 0"),
		hostileStudy("an estimate beyond all", "a judged time beyond all numbers", swapped("\"sow\"\n", "\"sow\"\nestimate = { low = 0, likely = 1, high = ∑1e308 }\n")).fails("high: found 1e308, more than any farm has"),
		hostileStudy("a price beyond all", "a price whose products no float64 holds", small+"[[supply]]\nname = \"seed\"\ncount = \"cells\"\nprice = ∑1e308\n").fails("price: found 1e308, more than any farm has"),
		hostileStudy("deep lists", "a hundred thousand lists one within another, never closed", "a = "+strings.Repeat("[", 100_000)).fails("study.toml:1:", "cannot be read", "nested"),
		hostileStudy("deep tables", "nine thousand tables one within another", small+"[space]\n∑a = "+strings.Repeat("{a=", 9000)+"1"+strings.Repeat("}", 9000)).fails(`unknown key "a" in [space]`),
		hostileStudy("deep key", "a key of a hundred thousand parts", "∑a"+strings.Repeat(".a", 100_000)+" = 1\n").bounded(256, 8).fails(`unknown key "a" in a study file`),
		hostileStudy("long list", "a list of a hundred thousand numbers where one belongs", small+"[space]\nprice_per_m2_day = ∑["+strings.Repeat("1,", 100_000)+"]\n").bounded(128, 8).fails("price_per_m2_day: found a list, want a number"),
		hostileStudy("too many days", "thirty thousand days, of which 3661 can be", swapped("day = 0", "days = ["+numbered("%d,", 3661)+"∑"+strings.Repeat("3661,", 30_000)+"]")).bounded(80, 120).fails("and 29000 more"),
		hostileStudy("text of 4 MB", "a study's name of 4 MB, which no answer shows", swapped(`"small"`, `"`+strings.Repeat("x", 4_000_000)+`"`)).bounded(32, 8).gives("sow 0 never - - unit"),
		hostileStudy("long name", "a step's name of 256 KiB", strings.ReplaceAll(small, "sow", long)).bounded(32, 1<<10).gives("Steps, with 95 % intervals"),
		hostileStudy("long text for a number", "a text of 256 KiB where a number belongs is told in short", swapped("10", `∑"`+long+`"`)).fails("heads: found", "sss…"),
		hostileStudy("endless keys", "200,000 keys of one table", small+"[labour]\nwage = 1\n"+numbered("k%d = 1\n", 200_000)).bounded(64, 400).fails("is not read: the file has a table of more than 10000 keys"),
		hostileStudy("long name of no step", "a step's name of 256 KiB in an error", swapped(`step = "sow"`, `step = "`+long+`"`)).bounded(64, 8).fails("no [[step]] is named"),
		hostileStudy("unknown key of 1 MB", "a key of 1 MB in an error", small+"["+strings.Repeat("k", 1<<20)+"]\n").bounded(64, 8).fails("unknown key"),
		hostileStudy("letter at a wrong place", "a mark that turns text about is named as a whole", swapped("heads", "∑\u202eheads")).fails("cannot be read", "U+202E"),
		hostileStudy("two thousand steps", "steps that nothing uses", many("[[step]]\nname = \"s%d\"\n", 2000)).bounded(64, 256).gives("s1999 0 never - - unit"),
		hostileStudy("name that turns text about", "a name that turns text about is shown as what it is", strings.ReplaceAll(small, "sow", "s\u202eow")).gives(`s\u202eow 0 never - - unit`),
	}
}
