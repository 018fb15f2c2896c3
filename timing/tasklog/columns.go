package tasklog

// column is one that a log may have; columnNames holds its name.
type column int

const (
	dateColumn column = iota
	growColumn
	workflowColumn
	stepColumn
	workerColumn
	peopleColumn
	startColumn
	endColumn
	pausedColumn
	timeColumn
	countColumn
	setupsColumn
	sourceColumn
	ratingColumn
	voidColumn
	noteColumn
	journalColumn
	columns // how many there are
)

// columnNames are in the order in which Write puts them.
var columnNames = [columns]string{
	"date", "grow", "workflow", "step", "worker", "people", "start", "end", "paused",
	"time", "count", "setups", "source", "rating", "void", "note", "journal",
}

func (c column) String() string { return columnNames[c] }

// What blanks say: one pair of hands, at normal pace.
const (
	blankPeople = 1
	blankRating = 100 // percent
)
