// Package tasklog reads and writes task logs: CSV files (RFC 4180) and sheets of
// workbooks (.xlsx, .ods) with one timing of one step a row, their columns found
// by the names in the header.
//
// A log is read as growers and spreadsheets write it: a byte-order mark, CRLF,
// a tab, a semicolon or a comma between fields, and decimal commas where one of
// the first two separates. Where the first row lacks the names that a log needs, the
// headings are looked for among the first rows, under the names that growers give them
// and with their units, and a warning says what was read as what. In a sheet dates, times
// and durations may be real ones, and a text such as 1,234 may mean two. A file holds one log: the
// first sheet whose first row has the names that a log needs, else the first with other
// headings for that; a hidden one only where no other is a log. Forms are never guessed: a cell that may mean two things is a
// problem, save a time such as 1.30, which is read as seconds with a warning, and
// a time of hours and minutes in a sheet, which has one too. Every bad row is
// listed and no reading comes from a log with one.
//
// Columns of a place count letters from 1, as editors show them; in a sheet they count its
// columns.
package tasklog
