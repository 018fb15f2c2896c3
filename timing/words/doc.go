// Package words is how a fact is put for people: numbers and shares with no more digits than
// they deserve, things in the singular and the plural, lists, durations, names that are safe
// to show. It knows texts and numbers alone, so that every package may use it; what an answer
// says is worded where the answer is laid out.
package words
