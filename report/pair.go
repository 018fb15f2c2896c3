package report

import (
	"fmt"
	"math"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// pairSentence says which of two ways is quicker, or that it cannot be told.
func pairSentence(p answer.Pair, n int) string {
	quicker, slower := p.B, p.A
	if p.Difference > 0 {
		quicker, slower = p.A, p.B
	}
	d, low, high := p.Difference, p.Low, p.High
	if d < 0 {
		d, low, high = -d, p.High.Times(-1), p.Low.Times(-1)
	}
	less := words.Duration(d)
	switch {
	case p.Difference == 0 && !p.Low.Known:
		return fmt.Sprintf("%s and %s take the same for %s, as far as is known.", words.Quoted(p.A), words.Quoted(p.B), words.Many(n, "head"))
	case len(p.Gaps) > 0:
		sentence := fmt.Sprintf("%s takes %s less", words.Quoted(quicker), less)
		if d == 0 {
			return fmt.Sprintf("Which of %s and %s is quicker cannot be told: they differ in %s, not timed.", words.Quoted(p.A), words.Quoted(p.B), words.Names(p.Gaps))
		}
		return fmt.Sprintf("Which of %s and %s is quicker cannot be told: they differ in %s, not timed. In all that is known %s.",
			words.Quoted(p.A), words.Quoted(p.B), words.Names(p.Gaps), sentence)
	case !p.Low.Known:
		return fmt.Sprintf("%s takes %s less than %s for %s.%s", words.Quoted(quicker), less, words.Quoted(slower), words.Many(n, "head"), tipsSentence(p))
	case p.Clear():
		return fmt.Sprintf("%s is quicker than %s for %s, by %s.", words.Quoted(quicker), words.Quoted(slower), words.Many(n, "head"), durationWithin(d, low, high))
	case p.Low.Value == p.High.Value:
		return fmt.Sprintf("%s and %s take the same for %s.", words.Quoted(p.A), words.Quoted(p.B), words.Many(n, "head"))
	}
	less, more := words.Alike(-p.Low.Value, p.High.Value)
	return fmt.Sprintf("No clear difference seen between %s and %s for %s: the second may take up to %s less or up to %s more.",
		words.Quoted(p.A), words.Quoted(p.B), words.Many(n, "head"), less, more)
}

// closeSentence says in one that the two ways change places near so many heads, so that
// which is quicker there is too close to call; "" where that is not so.
func closeSentence(p answer.Pair, n int) string {
	e := p.BreakEven
	if !p.Low.Known || p.Clear() || len(p.Gaps) > 0 || e.Kind != answer.Interval || !e.Heads.Known || e.Low.Value == e.High.Value || shows(e, n) == isClear {
		return ""
	}
	many, few := words.Quoted(p.B), words.Quoted(p.A)
	if e.PerHead > 0 {
		many, few = few, many
	}
	where := fmt.Sprintf("above %s to %s", words.HeadsAlone(e.Low.Value), words.Heads(e.High.Value))
	if words.HeadsAlone(e.Low.Value) == "0" {
		where = "above 1 to " + words.Heads(e.High.Value)
	}
	less, more := words.Alike(-p.Low.Value, p.High.Value)
	return fmt.Sprintf("%s is quicker somewhere %s, %s below that; %d is too close to call: %s may take up to %s less than %s or up to %s more.",
		many, where, few, n, words.Quoted(p.B), less, words.Quoted(p.A), more)
}

func tipsSentence(p answer.Pair) string {
	switch {
	case !p.TipsAtCV.Known:
		return ""
	case p.TipsAtCV.Value == 0:
		return " Which is quicker hangs on what of a time is setup and what is per unit: it may be either."
	}
	return fmt.Sprintf(" If the same job done again varies by more than %s, that is no longer a clear difference.", words.Share(p.TipsAtCV.Value))
}

// breakEvenSentence says from how many heads on which way is quicker, and where that is not what
// so many heads say by themselves, for which the doubt is another.
func breakEvenSentence(p answer.Pair, n int) string {
	sentence := fromHowMany(p)
	shown := shows(p.BreakEven, n)
	if !p.Low.Known || p.BreakEven.Kind == answer.Never || shown == mayBeClear || shown == isClear == p.Clear() {
		return sentence
	}
	what := "no clear difference"
	if p.Clear() {
		what = "a clear difference"
	}
	return fmt.Sprintf("%s That is for all numbers of heads together: %d by %s %s.", sentence, n, words.Agree(n, "itself shows", "themselves show"), what)
}

// setVerdict is whether the set of a break-even has a clear difference at some number of heads.
type setVerdict int

const (
	mayBeClear setVerdict = iota // where the set ends, as that is written, or where it is not known
	isClear
	notClear
)

// shows says so of a number of heads.
func shows(e answer.BreakEven, heads int) setVerdict {
	within, beyond := isClear, notClear
	switch e.Kind {
	case answer.Everywhere:
		return notClear
	case answer.Never:
		return isClear
	case answer.Interval:
		within, beyond = notClear, isClear
	case answer.Outside:
	default:
		return mayBeClear
	}
	n := float64(heads)
	low, high := math.Inf(-1), math.Inf(1)
	written := words.RoundHeads
	if e.Kind == answer.Outside || !e.Heads.Known { // its limits are written as the whole numbers next to them
		written = func(x float64) float64 { return x }
	}
	if e.Low.Known {
		low = written(e.Low.Value)
	}
	if e.High.Known {
		high = written(e.High.Value)
	}
	switch {
	case n < low || n > high:
		return beyond
	case n > low && n < high:
		return within
	}
	return mayBeClear
}

// fromHowMany says from how many heads on which way is quicker, all numbers taken together.
func fromHowMany(p answer.Pair) string {
	e := p.BreakEven
	// the one that is quicker where heads are few, and where they are many
	few, many := words.Quoted(p.B), words.Quoted(p.B)
	if e.Fixed > 0 {
		few = words.Quoted(p.A)
	}
	if e.PerHead > 0 {
		many = words.Quoted(p.A)
	}
	switch e.Kind {
	case answer.Interval:
		if !e.Heads.Known {
			from := words.FirstHeads(e.High.Value)
			if from <= 1 {
				return fmt.Sprintf("It is %s that is quicker at every number of heads.", many)
			}
			return fmt.Sprintf("From %s on %s is quicker; for fewer no clear difference is seen.", words.WholeHeads(from), many)
		}
		from := fmt.Sprintf("%s is quicker from about %s on", many, words.Heads(e.Heads.Value))
		switch {
		case e.Low.Value == e.High.Value:
			return from + "."
		case e.Low.Value == 0:
			return fmt.Sprintf("%s (somewhere below %s).", from, words.Heads(e.High.Value))
		}
		return fmt.Sprintf("%s (somewhere between %s and %s).", from, words.HeadsAlone(e.Low.Value), words.HeadsAlone(e.High.Value))
	case answer.Outside:
		first, last := 1.0, words.LastHeads(e.High.Value)
		if e.Low.Known {
			first = words.FirstHeads(e.Low.Value)
		}
		switch {
		case first > last:
			return "No number of heads shows a clear difference."
		case first == last && e.Low.Known:
			return fmt.Sprintf("A clear difference is seen only for %s.", words.WholeHeads(first))
		case e.Low.Known:
			return fmt.Sprintf("A clear difference is seen only from %s to %s.", words.InFull(first), words.WholeHeads(last))
		}
		return fmt.Sprintf("For up to %s %s is quicker; for more no clear difference is seen.", words.WholeHeads(last), few)
	case answer.Everywhere:
		return "No number of heads shows a clear difference."
	case answer.Never:
		if p.Low.Known && !p.Clear() {
			return "Whichever is quicker is so at every number of heads."
		}
		if e.Fixed == 0 {
			few = many
		}
		return fmt.Sprintf("It is %s that is quicker at every number of heads.", few)
	}
	switch {
	case e.Heads.Known:
		return fmt.Sprintf("As far as can be told, %s is quicker from about %s on.", many, words.Heads(e.Heads.Value))
	}
	return "As far as can be told, that holds at every number of heads."
}
