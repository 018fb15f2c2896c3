package report

import (
	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
)

// Setting is something that the answers rest on and that a person chose.
type Setting struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// SourceFile is a file that the answers were worked out from.
type SourceFile struct {
	Name     string `json:"name"`   // relative to the study folder, with slashes
	SHA256   string `json:"sha256"` // of its bytes, in hex
	Readings int    `json:"readings"`
}

// WholeOptions is what a whole report is asked for, and what it was read from.
type WholeOptions struct {
	Workflows []string // by name; none means all
	Heads     int
	Assurance float64         // of seeding
	Schedule  answer.Schedule // its workflow and heads are not used
	Settings  []Setting       // from the command line, beside those of the study
	Files     []SourceFile
	Warnings  study.Problems
	Voided    []condense.VoidedReading // beyond those of the models
	Cautions  []string                 // what makes every answer doubtful
}
