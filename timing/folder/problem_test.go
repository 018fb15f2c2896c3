package folder

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// mark stands in a test's study before each place that belongs to a problem.
const mark = "∑"

// unmark takes the marks out of a study and gives their places.
func unmark(marked string) (src string, places []study.Place) {
	parts := strings.Split(marked, mark)
	for _, part := range parts[:len(parts)-1] {
		src += part
		line := strings.Count(src, "\n") + 1
		column := utf8.RuneCountInString(src[strings.LastIndexByte(src, '\n')+1:]) + 1
		places = append(places, study.Place{File: "study.toml", Line: line, Column: column})
	}
	return src + parts[len(parts)-1], places
}

// problems are those of a marked study; each must stand at a mark, in order.
func problems(t *testing.T, marked string) []string {
	t.Helper()
	src, places := unmark(marked)
	st, err := ReadStudy([]byte(src), "study.toml")
	if len(places) == 0 {
		require.NoError(t, err)
		return nil
	}
	var all study.Problems
	require.ErrorAs(t, err, &all)
	assert.Equal(t, study.Study{}, st)
	var found []study.Place
	var texts []string
	for _, p := range all {
		found, texts = append(found, p.Place), append(texts, p.Text)
	}
	assert.Equal(t, places, found, "%v", err)
	return texts
}

// common is a study that tests' tables may refer to.
const common = `
[[step]]
name = "sow"
[[workflow]]
name = "w"
tasks = [ { step = "sow", day = 0, count = "cells" } ]
`

type problemCase struct {
	name, src string
	want      []string
}

func checkProblems(t *testing.T, end string, cases []problemCase) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, problems(t, c.src+end))
		})
	}
}

func TestPlaces(t *testing.T) {
	checkProblems(t, common, []problemCase{
		{"dotted key", "study.∑heds = 4", []string{`unknown key "heds" in [study]: is "heads" meant?`}},
		{"quoted key", `study . ∑"a=b" = 4`, []string{`unknown key "a=b" in [study]: known are name, currency, heads, allowance, confidence, sow_every_days`}},
		{"blanks", "study.heads\t =  ∑\"4\" # [", []string{`heads: found "4", want a whole number above 0`}},
		{"behind two bytes a letter", `study = { name = "größe", ∑"grösse" = 1 }`, []string{`unknown key "grösse" in [study]: known are name, currency, heads, allowance, confidence, sow_every_days`}},
		{"inline table", `study = { name = "x", heads = ∑0 }`, []string{`heads: found 0, want a whole number above 0`}},
		{"inline table within a list", "grow = [\n # a\n {name = \"g\", workflow = ∑\"ww\"},]", []string{`workflow: no [[workflow]] is named "ww": is "w" meant?`}},
		{"list within a list", "grow = [ # [\n\n∑[\n1, [2, {a = [ ]}, # ]\n], [] ], ∑[], ∑3\n]", []string{"grow: found a list, want a table, [[grow]]", "grow: found an empty list, want a table, [[grow]]", "grow: found 3, want a table, [[grow]]"}},
		{"table over several lines", "labour = {\n  oncost = 0, # }\n  wage = ∑'1',\n}", []string{`wage: found "1", want a number of 0 or more`}},
		{"text over several lines", "study.name = ∑'''\na\nb'''\nstudy.heads = ∑'''\n1\n'''", []string{`name: found "a\nb", want a text of one line without control characters`, `heads: found "1\n", want a whole number above 0`}},
		{"carriage returns", "[study]\r\nheads = ∑-1\r\n", []string{`heads: found -1, want a whole number above 0`}},
		{"carriage returns in a list", "grow = [\r\n  # a\r\n  ∑3,\r\n  ∑4\r\n]", []string{"grow: found 3, want a table, [[grow]]", "grow: found 4, want a table, [[grow]]"}},
		{"lack in a table of headers", "[∑labour]\noncost = 1", []string{`[labour] lacks the key "wage"`}},
		{"lack in a table of dotted keys", "∑labour.oncost = 1", []string{`[labour] lacks the key "wage"`}},
		{"lack in an inline table", "labour = ∑{}", []string{`[labour] lacks the key "wage"`}},
		{"lack in a list of tables", "[[grow]]\nname = 'a'\nworkflow = 'w'\n[[∑grow]]\nname = 'b'", []string{`[[grow]] lacks the key "workflow"`}},
		{"table of headers under a list", "[[workflow]]\nname='x'\n[[workflow.tasks]]\nstep='sow'\nday=0\ncount='cells'\n[[workflow.∑tasks]]\nday=0\ncount='cells'", []string{`a task lacks the key "step"`}},
		{"table for a list", "[∑supply]\nname = 'p'\ncount = 'cells'\nprice = 1", []string{`found [supply], want [[supply]], in two brackets: there may be several`}},
		{"list for a table", "[[∑labour]]\nwage = 1", []string{`labour: found a list, want one table of wage, oncost, own_hours_per_week`}},
		{"value for a list", "grow = ∑true", []string{`grow: found true, want a list of tables, each a [[grow]]`}},
		{"value for a table", "labour = ∑12:30:00", []string{`labour: found 12:30:00, want one table of wage, oncost, own_hours_per_week`}},
	})
}

func TestValues(t *testing.T) {
	checkProblems(t, common, []problemCase{
		{"whole as decimal", "study.heads = ∑48.0", []string{"heads: found 48.0, want a whole number above 0"}},
		{"whole too large", "study.heads = ∑1_000_000_001", []string{"heads: found 1_000_000_001, want a whole number up to 1000000000"}},
		{"whole as large as may be", "study.heads = 1_000_000_000", nil},
		{"decimal as whole", "[labour]\nwage = 14\noncost = 0", nil},
		{"infinity", "labour.wage = ∑+inf", []string{"wage: found +inf, want a number of 0 or more"}},
		{"not a number", "labour.wage = ∑nan", []string{"wage: found nan, want a number of 0 or more"}},
		{"more than any farm has", "labour.wage = ∑1.1e12", []string{"wage: found 1.1e12, more than any farm has, want at most 1000000000000"}},
		{"as much as a farm has", "labour.wage = 1_000_000_000_000", nil},
		{"as good as nothing", "[[step]]\nname = 'x'\nsetup_covers = ∑5e-324", []string{"setup_covers: found 5e-324, as good as 0, want at least 0.000000001"}},
		{"as little as divides", "[[step]]\nname = 'x'\nsetup_covers = 1e-9", nil},
		{"heads and weight as good as nothing", "[[grow]]\nname = 'g'\nworkflow = 'w'\nheads = ∑1e-300\nweight_kg = ∑1e-300", []string{"heads: found 1e-300, as good as 0, want at least 0.000000001", "weight_kg: found 1e-300, as good as 0, want at least 0.000000001"}},
		{"no heads", "[[grow]]\nname = 'g'\nworkflow = 'w'\nheads = 0", nil},
		{"price and uses", "[[supply]]\nname = 's'\ncount = 'once'\nprice = ∑1e308\nuses = ∑1e-10", []string{"price: found 1e308, more than any farm has, want at most 1000000000000", "uses: found 1e-10, as good as 0, want at least 0.000000001"}},
		{"times as good as nothing", "[[step]]\nname = 'x'\nestimate = { low = 0, likely = 0, high = ∑5e-324 }", []string{"high: found 5e-324, want a time above 0"}},
		{"a time as text", "[[step]]\nname = 'x'\nestimate = { low = 0, likely = 0, high = ∑'99999999999h' }", []string{`high: found "99999999999h", more than any farm has, want at most 1000000000000`}},
		{"losses of all", "[[workflow]]\nname = 'x'\ntasks = [{step = 'sow', day = 0, count = 'cells'}]\nlosses = ∑[{day = 1, share = 0.99999}, {day = 2, share = 0.99999}]", []string{"losses: together they leave as good as no plants, want a share of at least 0.000000001 left"}},
		{"below nothing", "labour.wage = ∑-0.01", []string{"wage: found -0.01, want a number of 0 or more"}},
		{"allowance", "study.allowance = ∑5.0", []string{"allowance: found 5.0, want a number of 0 or more and up to 1"}},
		{"allowance at most", "study.allowance = 1.0", nil},
		{"confidence 0", "study.confidence = ∑0", []string{"confidence: found 0, want a number above 0 and below 1"}},
		{"confidence of percent", "study.confidence = ∑95", []string{"confidence: found 95, want a number above 0 and below 1"}},
		{"currency of no country", `study.currency = ∑"ABC"`, []string{`currency: found "ABC", want a currency code of three capital letters (ISO 4217), such as "EUR"`}},
		{"currency in small letters", `study.currency = ∑"eur"`, []string{`currency: found "eur", want a currency code of three capital letters (ISO 4217), such as "EUR"`}},
		{"new currency", `study.currency = "SLE"`, nil},
		{"blank currency", `study.currency = ∑""`, []string{`currency: found "", want a currency code of three capital letters (ISO 4217), such as "EUR"`}},
		{"currency as number", "study.currency = ∑978", []string{`currency: found 978, want a currency code of three capital letters (ISO 4217), such as "EUR"`}},
		{"no germination", "crop.germination = ∑0", []string{"germination: found 0, want a number above 0 and up to 1"}},
		{"hardly any germination", "crop.germination = ∑0.0000001", []string{"germination: found 0.0000001, want a share of 0.000001 or more"}},
		{"germination in percent", "crop.germination = ∑91", []string{"germination: found 91, want a number above 0 and up to 1"}},
		{"germination as text", `crop.germination = ∑"91%"`, []string{`germination: found "91%", want a share above 0 and up to 1, or { came_up = …, of = … }`}},
		{"germination in halves", "crop.germination = { came_up = ∑1.5, of = 2 }", []string{"came_up: found 1.5, want a whole number above 0"}},
		{"germination of none", "crop.germination = { came_up = ∑0, of = ∑0 }", []string{"came_up: found 0, want a whole number above 0", "of: found 0, want a whole number above 0"}},
		{"germination without of", "crop.germination = ∑{ came_up = 1 }", []string{`germination lacks the key "of"`}},
		{"long text", `study.currency = ∑"` + strings.Repeat("é", 70) + `"`, []string{`currency: found "` + strings.Repeat("é", 60) + `…", want a currency code of three capital letters (ISO 4217), such as "EUR"`}},
		{"control character in a name", `[[grow]]` + "\n" + `name = ∑"g\u0007"` + "\nworkflow = 'w'", []string{`name: found "g\a", want a text of one line without control characters`}},
		{"blank name", "[[grow]]\nname = ∑' '\nworkflow = ∑'\u00a0'", []string{`name: found " ", want a name`, `workflow: found "\u00a0", want a name`}},
		{"time as text", "[[step]]\nname = 'a'\nestimate = { low = ∑'3 m', likely = 240, high = '1h' }", []string{`low: "3 m" is not a time: write it without blanks: 3m`}},
		{"time below nothing", "[[step]]\nname = 'a'\nestimate = { low = ∑-1, likely = 2, high = 3 }", []string{`low: found -1, want a number of 0 or more`}},
		{"count of nothing", "[[supply]]\nname = 'a'\nprice = 1\ncount = ∑0", []string{`count: found 0, want a count word, and what is not counted at all left out`}},
		{"count as number", "[[supply]]\nname = 'a'\nprice = 1\ncount = ∑2.5", []string{`count: found 2.5, want a count word: write count = "once", each = 2.5`}},
		{"count of another kind", "[[supply]]\nname = 'a'\nprice = 1\ncount = ∑true", []string{`count: found true, want one of seeds, cells, trays, filled, empty, surplus, plants, heads, once`}},
	})
}

func TestContradictions(t *testing.T) {
	const tooMany = "drop = true removes the step and a factor changes it, want one of them"
	const nothing = "[[change]] changes nothing, want setup_factor, unit_factor, visits_factor, count_factor or drop = true"
	change := func(keys string) string { return "[[∑change]]\nname = 'c'\nstep = 'sow'\n" + keys }
	fine := func(keys string) string { return strings.Replace(change(keys), mark, "", 1) }
	grow := "[[grow]]\nname = 'g'\nworkflow = 'w'\n"
	step := "[[step]]\nname = 's'\nestimate = "
	checkProblems(t, common, []problemCase{
		{"more came up than tested", "crop.germination = { of = 200, came_up = ∑201 }", []string{"came_up: found 201, want no more than of, 200"}},
		{"all came up", "crop.germination = { of = 200, came_up = 200 }", nil},
		{"more cells came up than sown", grow + "came_up = ∑60.5\ncells = 60", []string{"came_up: found 60.5, want no more than cells, 60"}},
		{"more heads than came up", grow + "cells = 60\ncame_up = 50\nheads = ∑51", []string{"heads: found 51, want no more than came_up, 50"}},
		{"more heads than cells", grow + "cells = 60\nheads = ∑61", []string{"heads: found 61, want no more than cells, 60"}},
		{"as many all the way", grow + "cells = 60\ncame_up = 60\nheads = 60", nil},
		{"contradiction beside a mistake", grow + "∑cell = 60\ncells = 60\nheads = ∑61", []string{`unknown key "cell" in [[grow]]: is "cells" meant?`, "heads: found 61, want no more than cells, 60"}},
		{"low above likely", step + "{ low = ∑'2m', likely = 119, high = '2:00' }", []string{`low: found "2m", want no more than likely, 119`}},
		{"likely above high", step + "{ low = 1, likely = ∑'2m', high = 119 }", []string{`likely: found "2m", want no more than high, 119`}},
		{"low above high", step + "∑{ low = ∑2, high = 1 }", []string{`estimate lacks the key "likely"`, "low: found 2, want no more than high, 1"}},
		{"three times the same", step + "{ low = 5, likely = '5', high = 5.0 }", nil},
		{"no time at all", step + "{ low = 0, likely = 0, high = ∑'0' }", []string{`high: found "0", want a time above 0`}},
		{"day and days", "[[workflow]]\nname='x'\ntasks=[{step='sow', days=[1], ∑day=1, count='once'}]", []string{"a task has both day and days, want one of them"}},
		{"neither day nor days", "[[workflow]]\nname='x'\ntasks=[∑{step='sow', count='once'}]", []string{`a task lacks the key "day" or "days"`}},
		{"no days", "[[workflow]]\nname='x'\ntasks=[{step='sow', count='once', days=∑[]}]", []string{"days: found an empty list, want at least one in it"}},
		{"a day twice", "[[workflow]]\nname='x'\ntasks=[{step='sow', count='once', days=[4, ∑0x4]}]", []string{"days: 0x4 stands twice"}},
		{"space from and to", "[[workflow]]\nname='x'\ntasks=[{step='sow', count='once', day=0}]\nspace=[{from=3,to=∑3,count='cells',m2=1},{from=3,to=4,count='cells',m2=1}]", []string{"to: found 3, want a day after from, 3"}},
		{"space without from", "[[workflow]]\nname='x'\ntasks=[{step='sow', count='once', day=0}]\nspace=[∑{to=3,count='cells',m2=1}]", []string{`a space row lacks the key "from"`}},
		{"no tasks", "[[workflow]]\nname='x'\ntasks=∑[]", []string{"tasks: found an empty list, want at least one in it"}},
		{"trays in tasks", "[[workflow]]\nname='x'\ntasks=[{step='sow', count=∑'trays', day=0}]", []string{`count: "trays" needs the workflow's cells_per_tray`}},
		{"trays in space", "[[workflow]]\nname='x'\ntasks=[{step='sow', count='once', day=0}]\nspace=[{from=3,to=4,count=∑'trays',m2=1}]", []string{`count: "trays" needs the workflow's cells_per_tray`}},
		{"trays in a supply for all", "[[supply]]\nname='x'\nprice=1\ncount=∑'trays'\n[[workflow]]\nname='x'\ncells_per_tray=4\ntasks=[{step='sow', count='trays', day=0}]", []string{`count: "trays" needs cells_per_tray in the [[workflow]] "w"`}},
		{"trays in a supply for some", "[[supply]]\nname='x'\nprice=1\ncount='trays'\nworkflows=['x']\n[[workflow]]\nname='x'\ncells_per_tray=4\ntasks=[{step='sow', count='trays', day=0}]", nil},
		{"trays in a supply for none that is known", "[[supply]]\nname='x'\nprice=1\ncount='trays'\nworkflows=∑'w'", []string{`workflows: found "w", want a list [ … ]`}},
		{"name twice", "[[grow]]\nname='a'\nworkflow='w'\n[[grow]]\nname=∑' a '\nworkflow='w'", []string{`name: "a" is taken already on line 2, want a name of its own`}},
		{"name of another kind", "[[grow]]\nname='sow'\nworkflow='w'", nil},
		{"drop and a factor", fine("drop = true\n∑unit_factor = 0.5"), []string{tooMany}},
		{"factors and drop", fine("setup_factor = 1\nunit_factor = 0.5\n∑drop = true"), []string{tooMany}},
		{"factor without drop", fine("drop = false\nunit_factor = 1"), nil},
		{"change of nothing", change("outlay = 5"), []string{nothing}},
		{"drop that does not", change("drop = false"), []string{nothing}},
		{"drop that is none", fine("drop = ∑1"), []string{"drop: found 1, want true or false"}},
	})
}

// TestSyntax holds that a syntax error ends the list: what stands above is
// judged, save where it may be put right below.
func TestSyntax(t *testing.T) {
	checkProblems(t, "", []problemCase{
		{"unquoted text", "[study]\n∑heds = 4\nname = ∑x", []string{`unknown key "heds" in [study]: is "heads" meant?`, "cannot be read: this is no value, found 'x': text stands in quotes, name = \"sow\""}},
		{"nothing after", "[study]\nheads = ∑0\nname = 3∑s\nconfidence = 7", []string{"heads: found 0, want a whole number above 0", "cannot be read: strings must be quoted"}},
		{"key twice", "[study]\nheads = 4\n∑heads = 4\nconfidence = 7", []string{"cannot be read: key heads stands twice: keep one of the two"}},
		{"table twice", "[study]\n[crop]\n[∑study]", []string{"cannot be read: table study stands twice: keep one of the two"}},
		{"key twice in a task", "[[workflow]]\nname = 'w'\ntasks = [\n  { step = 'a', day = 0 },\n  { step = 'a', day = 0, ∑step = 'b' },\n]", []string{"cannot be read: key step stands twice: keep one of the two"}},
		{"dotted key twice in a task", "a = { b.c = 1, b.d = 1, ∑b.c = 1 }", []string{"cannot be read: key c stands twice: keep one of the two"}},
		{"names that may follow", "[labour]\n[[grow]]\nname = 'a'\nworkflow = 'w'\n[[change]]\nname = 'c'\nstep = 's'\n[[workflow]]\nname = 'x'\ntasks = [{count = 'trays'}]\n[cro∑p", []string{"cannot be read: the ] of a heading is missing, as in [study]"}},
		{"unclosed list", "[[workflow]]\nname = ∑5\ntasks = [\n  {step = 'a'},\n  {step = 'b∑'", []string{"name: found 5, want a text in quotes", "cannot be read: the } is missing that closes a {"}},
		{"wrong date", "[study]\nname = 2025-∑13-01", []string{"cannot be read: there is no such day"}},
		{"number too large", "study.heads = ∑9999999999999999999", []string{"cannot be read: decimal number is too large to fit in a 64-bit signed integer"}},
		{"not UTF-8", "[study]\nname = 'caf∑\xe9'\nheads = 0", []string{"found the byte 0xe9, want UTF-8: save the file as UTF-8"}},
		{"UTF-16", "∑\xff\xfe[\x00s\x00", []string{"found the byte 0xff, want UTF-8: save the file as UTF-8"}},
		{"empty", "∑", []string{"the study file is empty, want at least a [[step]] and a [[workflow]]"}},
		{"comments alone", "∑# to do\n\n", []string{"the study file is empty, want at least a [[step]] and a [[workflow]]"}},
	})
}
