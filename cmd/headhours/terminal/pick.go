package terminal

import (
	"fmt"

	"headhours/timing/stopwatch"
)

// pick is the mode in which one of several things is chosen: by its key, or with
// the arrows and space or enter.
type pick struct {
	question string
	items    []item
	at       int
	leave    func(s *screen) outcome // on escape; nil: back to work
	stay     bool                    // escape does nothing
}

// item is a thing to choose. One without a key is given a digit.
type item struct {
	key, text string
	do        func(s *screen, at stopwatch.Instant) outcome
}

// numbered gives the items that lack a key one of the digits 1 to 9.
func numbered(items []item) []item {
	n := 0
	for i := range items {
		if items[i].key == "" && n < 9 {
			n++
			items[i].key = fmt.Sprint(n)
		}
	}
	return items
}

func (p pick) key(s *screen, k keystroke, at stopwatch.Instant) outcome {
	switch k.name {
	case "up", "down":
		by := 1
		if k.name == "up" {
			by = -1
		}
		p.at = min(max(0, p.at+by), len(p.items)-1)
		s.mode = p
		return outcome{}
	case "space", "enter":
		return p.choose(s, p.at, at)
	case "esc":
		if p.stay {
			return outcome{}
		}
		s.mode = workMode{}
		if p.leave != nil {
			return p.leave(s)
		}
		return outcome{}
	}
	for i, item := range p.items {
		if item.key != "" && item.key == k.name {
			return p.choose(s, i, at)
		}
	}
	if k.name == "q" {
		return s.quit()
	}
	return outcome{}
}

func (p pick) choose(s *screen, i int, at stopwatch.Instant) outcome {
	s.mode = workMode{}
	return p.items[i].do(s, at)
}

func (p pick) legend(*screen, stopwatch.Instant) []hint {
	hints := []hint{{"↑↓", "choose", ""}, {"space", "take it", ""}}
	if !p.stay {
		hints = append(hints, hint{"esc", "leave it", ""})
	}
	return append(hints, hint{"q", "quit", ""})
}

func (p pick) body(_ *screen, width, height int) []painted {
	lines := wrapped(printable(p.question), bold, width-1)
	room := max(1, height-len(lines))
	from, to := window(p.at, len(p.items), room)
	var shownItems []painted
	for i := from; i < to; i++ {
		mark, as := "  ", plain
		if i == p.at {
			mark, as = "> ", bold
		}
		key := "   "
		if p.items[i].key != "" {
			key = "[" + p.items[i].key + "]"
		}
		shownItems = append(shownItems, styled(mark+key+" "+printable(p.items[i].text), as))
	}
	return append(lines, marked(shownItems, from, len(p.items)-to, room)...)
}
