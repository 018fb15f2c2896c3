package phone

import (
	"errors"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
)

// answerReport shows the latest report. It is a page of another maker, so nothing in
// it may run or reach out.
func (d *desk) answerReport(w http.ResponseWriter, r *http.Request) {
	text, err := os.ReadFile(d.reportFile())
	if errors.Is(err, fs.ErrNotExist) {
		http.Error(w, "there is no report yet: run headhours report on the computer", http.StatusNotFound)
		return
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusServiceUnavailable)
		return
	}
	w.Header().Set("Content-Security-Policy", "sandbox; default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; frame-ancestors 'none'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write(text)
}

func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

func (d *desk) reportFile() string { return filepath.Join(d.dir, "reports", "report.html") }
