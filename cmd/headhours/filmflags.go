package main

import (
	"math"
	"time"

	"github.com/spf13/pflag"
)

// filming are the flags of film.
type filming struct {
	speed    float64
	date     string
	again    bool
	filmedOn time.Time
}

func (f *filming) define(set *pflag.FlagSet) {
	set.Float64Var(&f.speed, "speed", 1, "the film was shown `X` times too fast")
	set.StringVar(&f.date, "date", "", "the `DATE` of the film, YYYY-MM-DD")
	set.BoolVar(&f.again, "again", false, "replace what was read from this film before")
}

func (f *filming) check() (err error) {
	if !(f.speed > 0) || math.IsInf(f.speed, 0) {
		return outOfRange("speed", f.speed)
	}
	f.filmedOn, err = day("date", f.date)
	return err
}
