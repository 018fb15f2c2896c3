package folder

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// keyRule is what a key of a study file may hold, as the contract has it: a second list of
// the keys, beside that of the product. good is a value that is right, needed says that the
// table cannot do without.
type keyRule struct {
	name   string
	needed bool
	good   string
	takes  takes
}

// takes says what is wrong with a value of a key; "" where nothing is.
type takes func(key string, v value) string

// tableRule is a table of the study file: open and shut stand about its keys, sep between
// them.
type tableRule struct {
	what, open, sep, shut string
	keys                  []keyRule
}

const (
	need = true
	may  = false
)

// everyTable is the study file. What its keys refer to stands in common.
func everyTable() []tableRule {
	flow := func(key string) (open, shut string) {
		return "[[workflow]]\nname = 'x'\ntasks = [{step = 'sow', count = 'once', day = 3}]\n" + key + " = [{", "}]\n"
	}
	losses, rows := flow("losses")
	space, _ := flow("space")
	cuts, _ := flow("cuts")
	sale := []keyRule{
		{"unit", may, "'bag'", aName}, {"heads", may, "2", divisor(positive)}, {"price", may, "2", numeric("of 0 or more", least(0))}, {"sold_share", may, "0.9", numeric("of 0 or more and up to 1", between(0, 1))},
	}
	return []tableRule{
		{"[study]", "[study]\n", "\n", "\n", []keyRule{
			{"name", may, "'a'", aLine}, {"currency", may, "'EUR'", anOf(`a currency code of three capital letters (ISO 4217), such as "EUR"`)},
			{"heads", may, "4", whole1("above 0", least(1))}, {"allowance", may, "0.1", numeric("of 0 or more and up to 1", between(0, 1))},
			{"confidence", may, "0.9", numeric("above 0 and below 1", func(x float64) bool { return x > 0 && x < 1 })}, {"sow_every_days", may, "7", whole1("above 0", least(1))},
		}},
		{"[[step]]", "[[step]]\n", "\n", "\n", []keyRule{
			{"name", need, "'s'", aName}, {"per", may, "'cell'", aLine}, {"class", may, "'delay'", word("operation", "transport", "inspection", "delay", "storage")}, {"rework", may, "true", aSwitch},
			{"setup_covers", may, "20", divisor(positive)}, {"form", may, "'unit'", word("auto", "setup+unit", "unit", "setup")}, {"spread", may, "1", whole1("of 0 or more and up to 2", between(0, 2))}, {"together", may, "true", aSwitch},
		}},
		{"[[workflow]]", "[[workflow]]\ntasks = [{step = 'sow', count = 'once', day = 0}]\n", "\n", "\n", []keyRule{
			{"name", need, "'x'", aName}, {"seeds_per_cell", may, "2", whole1("of 1 or more", least(1))}, {"cells_per_tray", may, "40", whole1("of 1 or more", least(1))},
			{"crop", may, "'mizuna'", aLine}, {"bought", may, "true", aSwitch}, {"head_kg", may, "0.2", numeric("above 0", above0)},
		}},
		{"a task", "[[workflow]]\nname = 'x'\ncells_per_tray = 4\ntasks = [{", ", ", "}]\n", []keyRule{
			{"step", need, "'sow'", known("step")}, {"day", need, "3", whole1("of 0 or more and up to 3660", between(0, 3660))}, {"count", need, "'once'", aCount("each = ")},
			{"each", may, "0.5", numeric("above 0", above0)}, {"shared_by", may, "2", whole1("of 1 or more", least(1))},
		}},
		{"a loss", losses, ", ", rows, []keyRule{
			{"day", need, "3", whole1("of 0 or more and up to 3660", between(0, 3660))}, {"share", need, "0.1", numeric("of 0 or more and below 1", func(x float64) bool { return x >= 0 && x < 1 })},
		}},
		{"a space row", space, ", ", rows, []keyRule{
			{"from", need, "0", nil}, {"to", need, "1_000_000_000", afterDay0}, {"count", need, "'cells'", aCount("m2 = that of one × ")}, {"m2", need, "0.04", numeric("above 0", above0)},
		}},
		{"a cut", cuts, ", ", rows, []keyRule{
			{"day", need, "3", nil}, {"kg", need, "0.1", numeric("above 0", above0)},
		}},
		{"a workflow's sale", strings.TrimSuffix(losses, "losses = [{") + "sale = {", ", ", "}\n", sale},
		{"[sale]", "[sale]\n", "\n", "\n", sale},
		{"[[grow]]", "[[grow]]\n", "\n", "\n", []keyRule{
			{"name", need, "'g'", aName}, {"workflow", need, "'w'", known("workflow")}, {"cells", may, "60", numeric("of 0 or more", least(0))}, {"came_up", may, "50", numeric("of 0 or more", least(0))},
			{"heads", may, "40", divisor(numeric("of 0 or more", least(0)))}, {"weight_kg", may, "7.5", divisor(positive)}, {"notes", may, "'cold'", aText1},
		}},
		{"[[supply]]", "[[supply]]\n", "\n", "\n", []keyRule{
			{"name", need, "'pot'", aName}, {"count", need, "'plants'", aCount("each = ")}, {"day", may, "3", whole1("of 0 or more", least(0))}, {"price", need, "0.3", numeric("of 0 or more", least(0))},
			{"uses", may, "20", divisor(positive)}, {"each", may, "2", numeric("above 0", above0)},
		}},
		{"[[overhead]]", "[[overhead]]\n", "\n", "\n", []keyRule{{"name", need, "'rent'", aName}, {"per_year", need, "900", numeric("of 0 or more", least(0))}}},
		{"[labour]", "[labour]\n", "\n", "\n", []keyRule{
			{"wage", need, "14.5", numeric("of 0 or more", least(0))}, {"oncost", may, "0.21", numeric("of 0 or more", least(0))}, {"own_hours_per_week", may, "10", numeric("of 0 or more", least(0))},
		}},
		{"[space]", "[space]\n", "\n", "\n", []keyRule{{"price_per_m2_day", may, "0.08", numeric("of 0 or more", least(0))}, {"m2", may, "90", numeric("of 0 or more", least(0))}}},
		{"[season]", "[season]\n", "\n", "\n", []keyRule{{"start", may, "'2027-03-01'", aDay}, {"days", may, "70", whole1("of 7 or more and up to 1456", between(7, 1456))}}},
		{"[[sowing]]", "[[sowing]]\n", "\n", "\n", []keyRule{
			{"workflow", need, "'w'", known("workflow")}, {"heads", need, "40", divisor(positive)}, {"every_days", may, "7", whole1("of 1 or more", least(1))},
		}},
		{"[[chore]]", "[[chore]]\n", "\n", "\n", []keyRule{
			{"step", need, "'sow'", known("step")}, {"every_days", need, "7", whole1("of 1 or more", least(1))}, {"count", may, "2", numeric("above 0", above0)},
		}},
		{"[[change]]", "[[change]]\n", "\n", "\n", []keyRule{
			{"name", need, "'c'", aName}, {"step", need, "'sow'", known("step")}, {"setup_factor", may, "0.5", numeric("of 0 or more", least(0))}, {"unit_factor", need, "0.8", numeric("of 0 or more", least(0))},
			{"visits_factor", may, "0.5", numeric("of 0 or more", least(0))}, {"count_factor", may, "0.5", numeric("of 0 or more", least(0))}, {"outlay", may, "60", numeric("of 0 or more", least(0))}, {"since", may, "'2026-03-02'", aDay},
		}},
	}
}

// with is a study that has the table with all keys that it needs, and last a key with a
// value, at a mark.
func (r tableRule) with(key, val string) string {
	var parts []string
	for _, k := range r.keys {
		if k.needed && k.name != key {
			parts = append(parts, k.name+" = "+k.good)
		}
	}
	if key != "" {
		parts = append(parts, key+" = "+val)
	}
	return r.open + strings.Join(parts, r.sep) + r.shut + common
}

// Every key takes what it is said to take, and of all else says what was found, at its
// place, and what would be right, and nothing more.
func TestEveryKeyOfAStudy(t *testing.T) {
	t.Parallel()
	refused, taken := 0, 0
	for _, r := range everyTable() {
		for _, k := range r.keys {
			src, _ := unmark(r.with(k.name, k.good))
			_, err := ReadStudy([]byte(src), "study.toml")
			require.NoError(t, err, src)
			for _, v := range everyValue {
				if k.takes == nil {
					continue
				}
				want := k.takes(k.name, v)
				src, places := unmark(r.with(k.name, mark+v.text))
				_, err := ReadStudy([]byte(src), "study.toml")
				if want == "" {
					taken++
					require.NoError(t, err, src)
					continue
				}
				refused++
				require.EqualError(t, err, fmt.Sprintf("study.toml:%d:%d: %s", places[0].Line, places[0].Column, want), src)
			}
		}
	}
	assert.Greater(t, refused, 1000)
	assert.Greater(t, taken, 200)
}

// A key that is misspelt by a letter is asked about, one that is like none is told what there
// is, one that is needed is missed, and one that stands twice is told at its second place.
func TestEveryKeyMisspeltMissedAndTwice(t *testing.T) {
	t.Parallel()
	for _, r := range everyTable() {
		for _, k := range r.keys {
			src, places := unmark(strings.Replace(r.with("§", "1"), "§", mark+k.name+"x", 1))
			_, err := ReadStudy([]byte(src), "study.toml")
			require.EqualError(t, err, fmt.Sprintf("study.toml:%d:%d: unknown key %q in %s: is %q meant?", places[0].Line, places[0].Column, k.name+"x", r.what, k.name), src)

			src, _ = unmark(r.with(k.name, k.good+r.sep+k.name+" = "+k.good))
			_, err = ReadStudy([]byte(src), "study.toml")
			require.ErrorContains(t, err, "cannot be read: key "+k.name+" stands twice: keep one of the two", src)

			src, _ = unmark(strings.Replace(r.with(k.name, "§"), k.name+" = §", "", 1))
			_, err = ReadStudy([]byte(src), "study.toml")
			if !k.needed {
				require.NoError(t, err, src)
				continue
			}
			require.Error(t, err, src)
			lines := strings.Split(err.Error(), "\n")
			require.Len(t, lines, 1, src)
			if !(r.what == "[[change]]" && k.name == "unit_factor" || r.what == "[[sowing]]" && k.name == "heads") { // one of several is needed
				require.Contains(t, lines[0], fmt.Sprintf(": %s lacks the key %q", r.what, k.name), src)
			}
		}
		src, places := unmark(strings.Replace(r.with("§", "1"), "§", mark+"zzzzzzzzz", 1))
		_, err := ReadStudy([]byte(src), "study.toml")
		require.ErrorContains(t, err, fmt.Sprintf("study.toml:%d:%d: unknown key \"zzzzzzzzz\" in %s: known are ", places[0].Line, places[0].Column, r.what), src)
		for _, k := range r.keys {
			require.ErrorContains(t, err, k.name, src)
		}
	}
}

// All that is wrong with all tables is told at once, in the order of the file.
func TestEveryMistakeAtOnce(t *testing.T) {
	t.Parallel()
	src, want := "", 0
	for _, r := range everyTable() {
		if r.what == "[study]" || !strings.HasPrefix(r.open, "[[") {
			continue // a table that stands once
		}
		for _, k := range r.keys {
			if k.takes == nil || k.takes(k.name, value{text: "[1]"}) == "" || k.name == "name" {
				continue
			}
			own := strings.NewReplacer("'x'", fmt.Sprintf("'x%d'", want), "name = 's'", fmt.Sprintf("name = 's%d'", want), "name = 'g'", fmt.Sprintf("name = 'g%d'", want),
				"name = 'pot'", fmt.Sprintf("name = 'pot%d'", want), "name = 'rent'", fmt.Sprintf("name = 'rent%d'", want), "name = 'c'", fmt.Sprintf("name = 'c%d'", want))
			src += own.Replace(strings.TrimSuffix(r.with(k.name, "[1]"), common))
			want++
		}
	}
	_, err := ReadStudy([]byte(src+common), "study.toml")
	require.Error(t, err)
	lines := strings.Split(err.Error(), "\n")
	assert.Len(t, lines, want)
	last := 0
	for _, l := range lines {
		var line, column int
		_, err := fmt.Sscanf(l, "study.toml:%d:%d: ", &line, &column)
		require.NoError(t, err, l)
		assert.Greater(t, line, last, l)
		last = line
	}
	assert.Greater(t, want, 30)
}
