package study

import "time"

// Reading is one timing of one step: a time and the count it covered.
type Reading struct {
	Place    Place     // where it stands in its file
	Date     time.Time // zero where not noted; midnight UTC of the day otherwise
	Grow     string
	Workflow string
	Step     string
	Worker   string
	People   float64 // hands at work; person-seconds are Seconds × People
	Start    Maybe   // seconds after midnight
	End      Maybe   // seconds after midnight
	Paused   float64 // seconds
	Seconds  float64 // net time, pauses taken off
	Count    float64
	Setups   Maybe // how often the step was set up within the reading, where noted
	Source   Source
	Rating   float64 // percent of normal pace
	Void     string  // why the reading does not count; "" where it does
	Note     string
	Journal  string // the journal and number it was exported from; "" otherwise
}

// Source is how a reading was taken.
type Source string

// The sources of a reading.
const (
	Watch       Source = "watch"
	Film        Source = "film"
	ByJudgement Source = "judged"
)

// Sources lists the sources as a log writes them.
var Sources = []Source{Watch, Film, ByJudgement}

// Basic is the basic time in person-seconds: net time × people × rating / 100
// (International Labour Office, Introduction to Work Study, 4th ed., ch. 23).
func (r Reading) Basic() float64 { return Basic(r.Seconds, r.People, r.Rating) }

// Basic is the basic person-seconds of net seconds, those of so many people at a rating.
func Basic(seconds, people, rating float64) float64 {
	if rating == 100 { // exact then
		return seconds * people
	}
	return seconds * people * rating / 100
}

// Counts says whether the reading is to be fitted: it is not voided.
func (r Reading) Counts() bool { return r.Void == "" }
