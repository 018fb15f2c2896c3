// Package timing holds the words of the domain and every answer that is worked
// out from them: the time model of each step, hours of a workflow, differences
// of two, break-even, cost.
//
// The model of a step is seconds = setup time × setups + unit time × count. A
// workflow's hours are linear in all setup and unit times, so an interval on
// them is a t interval with Welch–Satterthwaite degrees of freedom. Counts
// (germination, losses) are taken as exact.
//
// The package reads no file, prints nothing and knows no flag: answers are
// values, and package report renders them.
package timing
