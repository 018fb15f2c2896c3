package cues

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"headhours/timing/sheets"
	"headhours/timing/words"
)

// ErrImported says that a study has a film's readings already.
var ErrImported = errors.New("holds readings of this film already")

// LogFor is the name of the log that a film's readings belong into, after the
// cue file; logs is the folder of the study's logs, which need not be there.
// earlier is the log with the readings of an earlier import, "" without one: it
// may bear another name where the cue file did. Where there is one and it may
// not be replaced the error is ErrImported. A log with other readings, which
// would be lost, is never to be replaced.
func (f Film) LogFor(logs fs.FS, replace bool) (log, earlier string, err error) {
	log = f.stem() + ".csv"
	if strings.HasPrefix(log, ".") {
		return "", "", fmt.Errorf("%s would give a hidden log: want a name before the dot", words.Quote(f.Name))
	}
	earlier, alone, err := f.find(logs)
	if err != nil {
		return "", "", err
	}
	if earlier != "" && !replace {
		return "", "", fmt.Errorf("%s %w", words.Show(earlier), ErrImported)
	}
	if earlier != "" && !alone {
		return "", "", fmt.Errorf("%s holds other readings beside those of this film: keep them in another log", words.Show(earlier))
	}
	if earlier != log {
		if _, err := fs.Stat(logs, log); err == nil {
			return "", "", fmt.Errorf("%s is there already and is not this film's: rename the cue file", words.Show(log))
		}
	}
	return log, earlier, nil
}

// find looks for the log with a film's readings; alone says that it has no
// others. More than one such log is an error.
func (f Film) find(logs fs.FS) (log string, alone bool, err error) {
	entries, err := fs.ReadDir(logs, ".")
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", false, err
	}
	for _, e := range entries {
		if !isLog(logs, e.Name()) {
			continue
		}
		data, err := fs.ReadFile(logs, e.Name())
		if err != nil {
			return "", false, err
		}
		films, err := filmsIn(e.Name(), data)
		if err != nil {
			return "", false, fmt.Errorf("%s: %w", words.Show(e.Name()), err)
		}
		mine := 0
		for _, g := range films {
			if f.same(g) {
				mine++
			}
		}
		if mine > 0 && log != "" {
			return "", false, fmt.Errorf("both %s and %s hold readings of this film: keep them in one", words.Show(log), words.Show(e.Name()))
		}
		if mine > 0 {
			log, alone = e.Name(), mine == len(films)
		}
	}
	return log, alone, nil
}

// isLog says whether a study reads a file as one of its logs.
func isLog(logs fs.FS, name string) bool {
	ext := strings.ToLower(filepath.Ext(name))
	info, err := fs.Stat(logs, name)
	return err == nil && info.Mode().IsRegular() && !strings.HasPrefix(name, ".") && slices.Contains([]string{".csv", ".tsv", ".xlsx", ".ods"}, ext)
}

// filmsInSheets is the film of every row below a heading of it in a workbook,
// zero where a row has none.
func filmsInSheets(data []byte) ([]Film, error) {
	var films []Film
	column, sheet := 0, ""
	for row, err := range sheets.Rows(data) {
		if err != nil {
			return nil, err
		}
		if row.Sheet != sheet {
			column, sheet = 0, row.Sheet
		}
		if column > 0 {
			films = append(films, film(strings.TrimSpace(row.At(column).Text)))
			continue
		}
		for _, cell := range row.Cells {
			if strings.EqualFold(strings.TrimSpace(cell.Text), filmColumn) {
				column = cell.Column
			}
		}
	}
	return films, nil
}

// filmsIn is the film of every row of a log, zero where a row has none; nil
// where the log has no column for it. A spreadsheet may have saved it with other
// separators.
func filmsIn(name string, data []byte) ([]Film, error) {
	if sheets.Is(name, data) {
		return filmsInSheets(data)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	for _, separator := range "\t;," {
		rows := csv.NewReader(bytes.NewReader(data))
		rows.Comma, rows.FieldsPerRecord, rows.LazyQuotes = separator, -1, true
		header, err := nextRow(rows)
		column := slices.IndexFunc(header, func(name string) bool { return strings.EqualFold(strings.TrimSpace(name), filmColumn) })
		if err != nil || column < 0 {
			continue
		}
		var films []Film
		for {
			row, err := nextRow(rows)
			if err == io.EOF {
				return films, nil
			}
			if err != nil {
				return nil, err
			}
			var f Film
			if column < len(row) {
				f = film(strings.TrimSpace(row[column]))
			}
			films = append(films, f)
		}
	}
	return nil, nil
}

// nextRow is the next row that is not all blank.
func nextRow(rows *csv.Reader) ([]string, error) {
	for {
		row, err := rows.Read()
		if err != nil || strings.TrimSpace(strings.Join(row, "")) != "" {
			return row, err
		}
	}
}
