package tasklog

import "headhours/timing/study"

// Bare is what the times of a log look like that were timed by the watch: those from a
// film or a journal are in seconds by their nature and do not count.
type Bare struct {
	Times int         // written as bare numbers below 60
	Place study.Place // of the first of them
	Text  string      // of that
	other bool        // one is written in another form, or is longer
}

// A number below so much may be minutes as well as seconds, and so many of them and no
// other time look like minutes.
const (
	belowAMinute = 60
	enoughBare   = 4
)

// LooksLikeMinutes says that all times are bare numbers so small that they may have been
// meant as minutes.
func (b Bare) LooksLikeMinutes() bool { return !b.other && b.Times >= enoughBare }

// see takes in the time of a reading as it was written, "" where it was not.
func (b *Bare) see(text string, at study.Place, r *study.Reading) {
	if b.other || r.Source == study.Film || r.Journal != "" {
		return
	}
	for _, c := range []byte(text) {
		if (c < '0' || c > '9') && c != '.' && c != ',' {
			b.other = true
		}
	}
	b.other = b.other || text == "" || r.Seconds >= belowAMinute
	if !b.other && b.Times == 0 {
		b.Place, b.Text = at, text
	}
	b.Times++
}
