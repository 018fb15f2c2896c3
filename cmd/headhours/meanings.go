package main

// ofOne is --workflow of a command that answers for one way.
const ofOne = "answer for the way of this `NAME` (the study's first)"

// What a flag is to a command that gives no range.
const (
	noRange = "changes nothing here, where no range is given: confidence of intervals, `C` between 0 and 1"
	noDoubt = "changes nothing here, where no range is given: "
)

// meanings are what flags mean to a command, where that is not what they mean to most: by
// command and flag.
var meanings = map[string]map[string]string{
	"improve":  {"workflow": ofOne},
	"seeding":  {"workflow": ofOne, "confidence": noRange},
	"calendar": {"workflow": ofOne, "confidence": noRange},
	"sheet":    {"workflow": "for the way of this `NAME` (the study's first)"},
	"cost": {
		"workflow": "answer for the way of this `NAME` (repeatable; with --sensitivity one, the study's first)",
	},
	"readings": {
		"workflow": "answer for the way of this `NAME`, or for two against each other (the quickest two, and the first); with --change for one",
	},
	"scale": {"heads": "answer for `N` heads a grow, or for several: N,N,…"},
	"fit": {
		"workflow": "only the steps of the way of this `NAME` (repeatable)",
		"heads":    "`N` heads a grow: changes nothing here, since a step takes as long a unit at any number of heads",
	},
	"check": {
		"workflow":   "the way of this `NAME` (repeatable): changes nothing here, since all is checked",
		"heads":      "`N` heads a grow: changes nothing here, but that a study without heads is not told of",
		"confidence": noRange,
		"grouping":   noDoubt + "what may be slow in all steps alike, by `KIND`",
		"scatter":    noDoubt + "what is made of the scatter of few readings, by `RULE`",
		"form":       "of the figure: `FORM` of every step's model: auto, setup+unit, unit, setup",
		"spread":     "of the figure: `Q`: 0, 1 or 2; readings vary with count^Q",
	},
	"record": {
		"workflow": "time work in the way of this `NAME` (that of the grow, else of the log's last row, else the study's first)",
		"worker":   "who works, by this `NAME`, a code such as w1",
		"grow":     "what is worked on, by this `NAME`",
	},
	"film": {
		"workflow": "the way of this `NAME`, of cues that name none",
		"worker":   "the worker of this `NAME`, of cues that name none",
		"grow":     "the grow of this `NAME`, of cues that name none",
	},
}
