// Package sheets reads the cells of .xlsx (ISO/IEC 29500) and .ods (OASIS
// OpenDocument 1.3) workbooks as text: a real date as YYYY-MM-DD, a time of day
// or a duration as H:MM:SS, a number in plain digits, whatever its format shows.
// It knows nothing of what the cells are about.
//
// A formula counts as the value it had when the file was saved; macros are never
// looked at. Hidden rows, columns and sheets are read like any other, the sheets
// marked as such, and of merged cells only the first holds anything.
//
// Files may be hostile: what they unpack to, how deep their XML goes, and how
// much a few bytes may stand for by repetition are all bounded. A file that is
// cut off or damaged anywhere in its sheets is an error, never a shorter sheet.
//
// Note: general libraries for .xlsx hold a sheet with every row filled out to its
// last cell (a few kilobytes can ask for gigabytes), or stream it without the
// formats that tell a date from a number and take a cut-off sheet for its end.
package sheets
