package words

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Many is a number of things: "1 reading", "12 readings".
func Many(n int, thing string) string { return Numbered(strconv.Itoa(n), thing) }

// Numbered is a number of things as it is written: "1 hour", "1.5 hours".
func Numbered(n, thing string) string {
	if n == "1" {
		return "1 " + thing
	}
	return n + " " + Plural(thing)
}

// Noun is a thing in the number that a count of it calls for: Noun(1, "cell"), Noun(0.5, "cell").
func Noun(count float64, thing string) string {
	if count == 1 {
		return thing
	}
	return Plural(thing)
}

// Heads is a number of heads that was worked out, not chosen, to two digits: "1 head",
// "92 heads"; of less than one, the first.
func Heads(x float64) string {
	if x > 0 {
		x = max(x, 1)
	}
	return Numbered(HeadsAlone(x), "head")
}

// HeadsAlone is such a number without the word.
func HeadsAlone(x float64) string { return InFull(RoundHeads(x)) }

// RoundHeads is such a number as it is written: to two digits that count, from ten on.
func RoundHeads(x float64) float64 {
	if math.Abs(x) < 9.95 {
		return math.RoundToEven(x) + 0 // no zero is below 0
	}
	return Rounded(x, 2)
}

// FirstHeads is the first whole number of heads above a limit, and LastHeads the last below one: of those
// between them and the limit nothing is said that holds beyond it alone.
func FirstHeads(limit float64) float64 { return math.Floor(limit*(1+nearWhole)) + 1 }

// LastHeads is the last whole number of heads below a limit.
func LastHeads(limit float64) float64 { return math.Ceil(limit*(1-nearWhole)) - 1 }

// nearWhole is by which share a limit may miss a whole number that it is.
const nearWhole = 1e-9

// WholeHeads is a whole number of heads, to all its digits: "1 head", "134 heads".
func WholeHeads(n float64) string { return Numbered(InFull(n), "head") }

// Agree is the form of a word that a number calls for: Agree(n, "is", "are").
func Agree(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

// Times is how often: "once", "twice", "3 times".
func Times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

// EveryDays is how often something is done: "every day", "every 7 days".
func EveryDays(n int) string {
	if n == 1 {
		return "every day"
	}
	return "every " + Many(n, "day")
}

// measures are units of measure that have no plural, amounts those that have one.
var (
	measures = []string{"g", "kg", "lb", "oz", "l", "ml", "m", "cm", "mm", "m2", "m²", "%"}
	amounts  = []string{"litre", "liter", "millilitre", "milliliter", "gallon", "gram", "kilogram", "kilo", "pound", "ounce", "metre", "meter", "square metre", "square meter", "hour", "minute"}
)

// IsMeasure says that a unit is one of measure, of which there may be a part: not of plants.
func IsMeasure(unit string) bool {
	return slices.Contains(measures, unit) || slices.Contains(amounts, strings.TrimSuffix(strings.ToLower(unit), "s"))
}

// IsWord says that a unit ends in a letter of English, and so takes a plural.
func IsWord(unit string) bool {
	return unit != "" && !strings.ContainsAny(unit, "0123456789") && strings.ContainsAny(unit[len(unit)-1:], "abcdefghijklmnopqrstuvwxyz")
}

// Plural is an English noun in the plural: "bags", "boxes", "punnets", "bunches". A unit of
// measure and what is no word of English stay as they are.
func Plural(word string) string {
	switch {
	case !IsWord(word) || slices.Contains(measures, word):
		return word
	case word == "person":
		return "people"
	case strings.HasSuffix(word, "leaf"):
		return strings.TrimSuffix(word, "f") + "ves"
	case strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss"):
		return word // "seeds", which some write for a unit
	}
	for _, end := range []string{"ss", "x", "z", "ch", "sh"} {
		if strings.HasSuffix(word, end) {
			return word + "es"
		}
	}
	if stem, found := strings.CutSuffix(word, "y"); found && !strings.HasSuffix(stem, "a") && !strings.HasSuffix(stem, "e") && !strings.HasSuffix(stem, "o") {
		return stem + "ies"
	}
	return word + "s"
}

// Singular is what Plural made an English noun's plural of: "bag", "box", "bunch", "leaf". A
// word that is no plural stays as it is.
func Singular(word string) string {
	stem, isS := strings.CutSuffix(word, "s")
	if !isS || strings.HasSuffix(word, "ss") {
		return word
	}
	for end, one := range map[string]string{"leave": "leaf", "ie": "y", "sse": "ss", "xe": "x", "che": "ch", "she": "sh"} {
		if of, found := strings.CutSuffix(stem, end); found {
			return of + one
		}
	}
	return stem
}
