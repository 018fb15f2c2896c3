package words

import (
	"fmt"
	"strings"
)

// And is texts in a row, as they are: "a", "a and b", "a, b and c".
func And(texts []string) string { return row(texts, " and ") }

// Or is things to choose from: "a", "a or b", "a, b or c".
func Or(texts []string) string { return row(texts, " or ") }

func row(texts []string, last string) string {
	if len(texts) < 2 {
		return strings.Join(texts, "")
	}
	return strings.Join(texts[:len(texts)-1], ", ") + last + texts[len(texts)-1]
}

// Names is names in a row, each as people are shown it: "a, b and c".
func Names(names []string) string { return And(each(Show, names)) }

// Quoted is a name in quotation marks, within a sentence. Errors have Quote.
func Quoted(name string) string { return `"` + Show(name) + `"` }

// Quotes are texts, each as Quote has it.
func Quotes(texts []string) []string { return each(Quote, texts) }

// QuoteList is names in quotes, the first so many of them, and how many more there are.
func QuoteList(names []string, maxNames int) string {
	few := names[:min(maxNames, len(names))]
	return UpToMore(strings.Join(Quotes(few), ", "), len(names)-len(few))
}

// UpToMore is a list, and how many more there are where there are: "a, b and 3 more".
func UpToMore(list string, more int) string {
	if more > 0 {
		return list + " " + More(more)
	}
	return list
}

// More is what stands for those that a list leaves out.
func More(n int) string { return fmt.Sprintf("and %d more", n) }

func each(put func(string) string, texts []string) []string {
	all := make([]string, len(texts))
	for i, text := range texts {
		all[i] = put(text)
	}
	return all
}
