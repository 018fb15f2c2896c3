package folder

import (
	"fmt"
	"math"
	"strings"
)

// value is a value as a study file may have it, for any key.
type value struct {
	text   string  // as it is written
	said   string  // of a text what it says
	isText bool    //
	number float64 // NaN where it is none
	whole  bool    // it is written as a whole number
}

// everyValue is one of each kind of value, and those at the edges.
var everyValue = []value{
	aTextValue("'zzzzz'", "zzzzz"), aTextValue("''", ""), aTextValue("' '", " "), aTextValue("'4'", "4"), aTextValue(`"a\nb"`, "a\nb"), aTextValue(`"\u0007"`, "\a"), aTextValue("'2026-02-30'", "2026-02-30"), aTextValue("'2026-02-28'", "2026-02-28"), aTextValue("'EURO'", "EURO"),
	{text: "true", number: math.NaN()}, {text: "false", number: math.NaN()}, {text: "2027-03-01", number: math.NaN()}, {text: "[]", number: math.NaN()}, {text: "[1]", number: math.NaN()}, {text: "[[]]", number: math.NaN()}, {text: "{}", number: math.NaN()}, {text: "{ a = 1 }", number: math.NaN()},
	{text: "inf", number: math.NaN()}, {text: "-inf", number: math.NaN()}, {text: "nan", number: math.NaN()}, {text: "10:30:00", number: math.NaN()},
	aWholeValue("0", 0), aWholeValue("-1", -1), aWholeValue("1", 1), aWholeValue("2", 2), aWholeValue("3", 3), aWholeValue("7", 7), aWholeValue("0x10", 16), aWholeValue("1_456", 1456), aWholeValue("1463", 1463), aWholeValue("3660", 3660), aWholeValue("3661", 3661), aWholeValue("1_000_000_000", 1e9), aWholeValue("1_000_000_001", 1e9+1), aWholeValue("1_000_000_000_001", 1e12+1),
	aDecimalValue("0.0", 0), aDecimalValue("-0.001", -0.001), aDecimalValue("0.5", 0.5), aDecimalValue("1.0", 1), aDecimalValue("1.000001", 1.000001), aDecimalValue("1e-9", 1e-9), aDecimalValue("9e-10", 9e-10), aDecimalValue("1e12", 1e12), aDecimalValue("1.1e12", 1.1e12), aDecimalValue("1e308", 1e308),
}

func aTextValue(text, said string) value { return value{text, said, true, math.NaN(), false} }

func aWholeValue(text string, x float64) value { return value{text, "", false, x, true} }

func aDecimalValue(text string, x float64) value { return value{text, "", false, x, false} }

// found is how a value is told.
func (v value) found() string {
	switch {
	case v.isText:
		return fmt.Sprintf("%q", v.said)
	case v.text == "[]":
		return "an empty list"
	case v.text[0] == '[':
		return "a list"
	case v.text[0] == '{':
		return "a table"
	}
	return v.text
}

func (v value) want(key, what string) string {
	return fmt.Sprintf("%s: found %s, want %s", key, v.found(), what)
}

func least(a float64) func(float64) bool { return func(x float64) bool { return x >= a } }

func between(a, b float64) func(float64) bool {
	return func(x float64) bool { return a <= x && x <= b }
}

func above0(x float64) bool { return x > 0 }

var positive = numeric("above 0", above0)

// numeric takes numbers, whole or not, within limits that are said so.
func numeric(said string, ok func(float64) bool) takes {
	return func(key string, v value) string {
		switch {
		case math.IsNaN(v.number) || !ok(v.number):
			return v.want(key, "a number "+said)
		case v.number > 1e12:
			return fmt.Sprintf("%s: found %s, more than any farm has, want at most 1000000000000", key, v.found())
		}
		return ""
	}
}

// divisor takes what others take, save a number that is too small to divide by.
func divisor(others takes) takes {
	return func(key string, v value) string {
		if v.number > 0 && v.number < 1e-9 {
			return fmt.Sprintf("%s: found %s, as good as 0, want at least 0.000000001", key, v.found())
		}
		return others(key, v)
	}
}

// whole1 takes whole numbers within limits that are said so. Those of [season] are weeks.
func whole1(said string, ok func(float64) bool) takes {
	return func(key string, v value) string {
		switch {
		case !v.whole || !ok(v.number):
			return v.want(key, "a whole number "+said)
		case v.number > 1e9:
			return v.want(key, "a whole number up to 1000000000")
		case key == "days" && math.Mod(v.number, 7) != 0:
			return v.want(key, "whole weeks, a multiple of 7")
		}
		return ""
	}
}

// afterDay0 takes a day after day 0.
func afterDay0(key string, v value) string {
	if v.whole && v.number == 0 {
		return v.want(key, "a day after from, 0")
	}
	return whole1("of 0 or more", least(0))(key, v)
}

func aSwitch(key string, v value) string {
	if v.text != "true" && v.text != "false" {
		return v.want(key, "true or false")
	}
	return ""
}

func aText1(key string, v value) string {
	if !v.isText {
		return v.want(key, "a text in quotes")
	}
	return ""
}

func aLine(key string, v value) string {
	if v.isText && strings.ContainsAny(v.said, "\n\a") {
		return v.want(key, "a text of one line without control characters")
	}
	return aText1(key, v)
}

func aName(key string, v value) string {
	if wrong := aLine(key, v); wrong != "" {
		return wrong
	}
	if strings.TrimSpace(v.said) == "" {
		return v.want(key, "a name")
	}
	return ""
}

// known takes the names of one kind, which none of the values is.
func known(kind string) takes {
	return func(key string, v value) string {
		if wrong := aName(key, v); wrong != "" {
			return wrong
		}
		return fmt.Sprintf("%s: no [[%s]] is named %q: name one that is there, or add it", key, kind, v.said)
	}
}

// word takes some words, none of which a value is or is like.
func word(words ...string) takes {
	return func(key string, v value) string {
		known := strings.Join(words, ", ")
		if !v.isText {
			return v.want(key, "one of "+known)
		}
		return fmt.Sprintf("%s: unknown word %q: known are %s", key, v.said, known)
	}
}

// aCount takes count words; a number is none.
func aCount(instead string) takes {
	return func(key string, v value) string {
		switch {
		case v.number > 0:
			return v.want(key, `a count word: write count = "once", `+instead+v.text)
		case !math.IsNaN(v.number):
			return v.want(key, "a count word, and what is not counted at all left out")
		}
		return word("seeds", "cells", "trays", "filled", "empty", "surplus", "plants", "heads", "once")(key, v)
	}
}

// anOf takes what none of the values is.
func anOf(what string) takes {
	return func(key string, v value) string { return v.want(key, what) }
}

func aDay(key string, v value) string {
	if v.said == "2026-02-28" || v.text == "2027-03-01" {
		return ""
	}
	return v.want(key, `a date such as "2027-03-01"`)
}
