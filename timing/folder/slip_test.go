package folder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is no TOML is told with what was probably meant.
func TestSlips(t *testing.T) {
	for line, hint := range map[string]string{
		"name = sow":                                  `: text stands in quotes, name = "sow"`,
		"days = 3, 6, 9":                              ": a list stands in brackets, [3, 6, 9]",
		`name: "sow"`:                                 `: a key and its value are joined by =, name = "sow"`,
		"each = 0,85":                                 ": decimals take a point, 0.85",
		"name = “sow”":                                `: text stands in straight quotes, "like this"`,
		"germination = 85 %":                          ": a share is written 0.85, without a percent sign",
		"together = yes":                              ": yes is written true, and no is written false",
		"rework = False":                              ": yes is written true, and no is written false",
		"estimate = { low = 1,20, likely = 2 }":       ": decimals take a point, 0.85",
		"estimate = { low = 1, likely = 2,5 }":        ": decimals take a point, 0.85",
		`tasks = [ { step = "sow", days = 20, 27 } ]`: ": a list stands in brackets, [3, 6, 9]",
		`tasks = [ { step = "sow", days = 20,27 } ]`:  ": a list stands in brackets, [3, 6, 9]",
		"name = ":                                     "",
		`name = "sow`:                                 "",
	} {
		_, err := ReadStudy([]byte("[[step]]\n"+line+"\n"), "study.toml")
		assert.ErrorContains(t, err, "study.toml:2:", line)
		assert.ErrorContains(t, err, "cannot be read: ", line)
		assert.Equal(t, hint, slipHint([]byte(line+"\n")), line)
		assert.ErrorContains(t, err, hint, line)
	}
}

// A list that is not closed, and a heading in one bracket, are told of as such.
func TestSlipsOfSeveralLines(t *testing.T) {
	const step, way = "[[step]]\nname = \"sow\"\n", "[[workflow]]\nname = \"tray\"\n"
	for text, want := range map[string][]string{
		step + way + "tasks = [\n  { step = \"sow\", day = 0, count = \"cells\" },\nlosses = [ { day = 3, share = 0.1 } ]\n": {"study.toml:7:1: cannot be read: the ] is missing that closes the [ of line 5, before this line"},
		step + way + "tasks = [\n  { step = \"sow\", day = 0, count = \"cells\" },\n[[grow]]\nname = \"g1\"\n":               {"study.toml:7:3: cannot be read: the ] is missing that closes the [ of line 5, before this line"},
		"[[step]]\nname = “sow”\n":            {"study.toml:2:8: cannot be read: this is no value, found '“': text stands in straight quotes, \"like this\""},
		"[study]\nheads = € 3\n":              {"study.toml:2:9: cannot be read: this is no value, found '€'"},
		step + way + "tasks = [\n  sow,\n]\n": {"study.toml:6:3: cannot be read: this is no value, found 's'"},
		"[step]\nname = \"sow\"\n" + way + "tasks = [ { step = \"sow\", day = 0, count = \"cells\" } ]\n": {"study.toml:1:2: found [step], want [[step]], in two brackets: there may be several"},
		"[step]\nname = \"sow\"\n[step]\nname = \"cut\"\n":                                                {"study.toml:1:2: found [step], want [[step]], in two brackets: there may be several", "study.toml:3:2: cannot be read: step stands twice: each takes two brackets, [[step]]"},
		step + "[step]\nname = \"cut\"\n":                                                                 {"study.toml:3:2: cannot be read: step stands twice: each takes two brackets, [[step]]"},
		"[step]\nname = \"cut\"\n" + step:                                                                 {"study.toml:1:2: found [step], want [[step]], in two brackets: there may be several", "study.toml:3:3: cannot be read: step stands twice: each takes two brackets, [[step]]"},
		"[labour]\nwage = 1\n[labour]\noncost = 0.2\n":                                                    {"study.toml:3:2: cannot be read: table labour stands twice: keep one of the two"},
		step + "[change]\nname = \"x\"\nstep = \"sow\"\nsince = \"2026-01-01\"\ndrop = true\n":            {"study.toml:3:2: found [change], want [[change]], in two brackets: there may be several"},
	} {
		_, err := ReadStudy([]byte(text), "study.toml")
		assert.EqualError(t, err, strings.Join(want, "\n"), text)
	}
}

// A first day of the season that cannot be read is told of once: the dates of sowings are not
// held against it.
func TestUnreadFirstDay(t *testing.T) {
	text := "[[step]]\nname = \"sow\"\n[[workflow]]\nname = \"tray\"\ntasks = [ { step = \"sow\", day = 0, count = \"cells\" } ]\n[season]\nstart = \"2027-02-30\"\n[[sowing]]\nworkflow = \"tray\"\nheads = 10\nfrom = \"2027-03-10\"\nuntil = \"2027-05-10\"\n"
	_, err := ReadStudy([]byte(text), "study.toml")
	assert.EqualError(t, err, `study.toml:7:9: start: found "2027-02-30", want a date such as "2027-03-01"`)
}

// Two names that a hasty writer takes for one are warned of.
func TestNamesAlike(t *testing.T) {
	d := decode([]byte("[[step]]\nname = \"Sow\"\n[[step]]\nname = \"SOW \"\n[[step]]\nname = \"sow it\"\n"), "study.toml")
	assert.Empty(t, d.problems)
	require.Len(t, d.warnings, 1)
	assert.EqualError(t, d.warnings[0], `study.toml:4:8: name: "SOW" is "Sow" on line 2 but for case or blanks: logs and commands must then write each exactly so`)
}

// Losses behind the last task are warned of: plants are sown for them.
func TestLossesBehindTheLastTask(t *testing.T) {
	study := func(days string) *decoder {
		return decode([]byte("[[step]]\nname = \"sow\"\n[[workflow]]\nname = \"tray\"\nlosses = [ { day = 4, share = 0.1 }, { day = 30, share = 0.2 } ]\n"+
			"tasks = [ { step = \"sow\", days = ["+days+"], count = \"cells\" } ]\n"), "study.toml")
	}
	for days, want := range map[string][]string{
		"0, 30": nil,
		"29, 0": {"study.toml:5:38: the loss of day 30 comes after the last task, on day 29, and more is sown for it: is that the day that is meant?"},
	} {
		d := study(days)
		assert.Empty(t, d.problems)
		var told []string
		for _, w := range d.warnings {
			told = append(told, w.Error())
		}
		assert.Equal(t, want, told)
	}
}
