package main

// ofOne is --workflow of a command that answers for one way.
const ofOne = "answer for the way of this `NAME` (the study's first)"

// meanings are what flags mean to a command, where that is not what they mean to most: by
// command and flag.
var meanings = map[string]map[string]string{
	"improve":  {"workflow": ofOne},
	"seeding":  {"workflow": ofOne},
	"calendar": {"workflow": ofOne},
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
		"workflow": "the way of this `NAME` (repeatable): changes nothing here, since all is checked",
		"heads":    "`N` heads a grow: changes nothing here, but that a study without heads is not told of",
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
