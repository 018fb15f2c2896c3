// Package answer holds the time model of each step and every answer that is worked out from
// them: hours of a way of working, differences of two, break-even, cost, a season, what a
// change has saved, what to time next.
//
// The model of a step is seconds = setup time × setups + unit time × count. A grow's hours
// are linear in all setup and unit times, so an interval on them is a t interval with
// Welch–Satterthwaite degrees of freedom. Counts (germination, losses) are taken as exact.
//
// The package reads no file, prints nothing and knows no flag: answers are values, and
// package report renders them.
package answer
