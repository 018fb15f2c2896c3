// Package study holds the words of the domain: a study as study.toml says it, readings of
// work, places in files, what is wrong with them, and numbers that may not be known.
//
// It reads no file, prints nothing and works out no statistic.
package study
