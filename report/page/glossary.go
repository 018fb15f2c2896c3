package page

// glossary is the words of the page that a reader may not know.
func glossary() []pagePart {
	return []pagePart{{Fold: "What the words mean here", Parts: []pagePart{{Terms: []term{
		{"Head", "One harvested plant. Every answer is per head, and what was lost on the way is carried by those that were harvested."},
		{"Grow", "One batch, from its first day to its harvest."},
		{"Step", "One kind of hands-on work with a start and an end that can be seen."},
		{"Way", "A way of working: an ordered list of steps, each on one or more days with a count to do."},
		{"Reading", "One timing of one step: a time and how many units it covered."},
		{"Setup time", "What it takes to get ready and to clear up, however many units follow; hatched in figures."},
		{"Unit time", "What each cell, plant, head or litre adds."},
		{"Basic time", "Time at a normal pace, without rest."},
		{"Standard time", "Basic time and the allowance for rest and personal needs. All hours and costs are of standard time."},
		{"Judged", "A time that was guessed as low, likely and high, and never taken."},
		{"At least", "A step that the total needs was neither timed nor judged. It is not counted as nothing: the total is a floor."},
		{"Range, interval", "From a low to a high figure that hold the true mean in 95 of 100 such studies, at a confidence of 95 %. The range of the next grow is wider: single grows vary."},
		{"No clear difference", "The range of the difference reaches from less to more, so that the readings do not say which is quicker."},
		{"Break-even", "The number of heads at which two ways take the same time."},
		{"Alike counts", "A step was always timed at much the same count, so that its setup and unit time cannot be told apart. The range then reaches from all of the one to all of the other."},
		{"Lent spread", "A step was timed too seldom to show how much it varies, so it is taken to vary as the other steps do, and as handwork does: by about a fifth, an assumption."},
		{"Beyond what was timed", "More than a quarter outside the counts of the readings: a projection."},
		{"Stands out", "A reading that its step's other readings make unlikely. It is counted all the same; only a reason takes it out."},
		{"Voided", "A reading that is kept and shown but not counted, with the reason."},
		{"Chore", "Work for the whole place, such as checking the feed, shared out over the grows."},
		{"Rework", "Work that only undoes an earlier step, such as thinning."},
	}}}}}
}
