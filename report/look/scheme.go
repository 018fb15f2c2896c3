package look

import "image/color"

// Scheme is what each colour is on one kind of ground.
type Scheme struct {
	Ground, Card                color.NRGBA // what lies behind words: the page, and what stands out from it
	Ink, Soft                   color.NRGBA // words, and words in the second row
	Edge, Rule                  color.NRGBA // about what is pressed, which has to be seen; between rows, which need not
	Leaf, OnLeaf                color.NRGBA // what leads on: links, buttons, the numbers that matter
	Straw, OnStraw, AroundStraw color.NRGBA // what is going on just now
	Bad                         color.NRGBA // what went wrong
	Chart                       color.NRGBA // behind a figure, whose inks are those of light
	Shade                       color.NRGBA // over a page that has to wait, half to be seen through
}

// Light, Dark and Paper are the schemes of a screen by day and by night, and of
// print.
var (
	Light = Scheme{
		Ground: rgb(0xf3f5f1), Card: white, Ink: rgb(0x1c211e), Soft: rgb(0x49514c), Edge: rgb(0x6d776f), Rule: rgb(0xdde0de),
		Leaf: deepGreen, OnLeaf: white, Straw: straw, OnStraw: rgb(0x1c211e), AroundStraw: rgb(0x7a5310), Bad: rgb(0x8a2318), Chart: white, Shade: shade,
	}
	dark = Scheme{
		Ground: rgb(0x111512), Card: rgb(0x1b211d), Ink: rgb(0xeef2ee), Soft: rgb(0xb9c3bb), Edge: rgb(0x8a958c), Rule: rgb(0x3a433e),
		Leaf: sage, OnLeaf: rgb(0x111512), Straw: straw, OnStraw: rgb(0x1c211e), AroundStraw: straw, Bad: rgb(0xff9d8f), Chart: white, Shade: shade,
	}
	paper = Scheme{
		Ground: white, Card: white, Ink: black, Soft: rgb(0x444444), Edge: rgb(0x6d776f), Rule: rgb(0xbbbbbb),
		Leaf: black, OnLeaf: white, Straw: straw, OnStraw: black, AroundStraw: rgb(0x7a5310), Bad: rgb(0x8a2318), Chart: white, Shade: shade,
	}
)

// property is a custom property of CSS, such as --ink: #1c211e.
type property struct{ name, value string }

// properties are a scheme's colours, by the names that pages use.
func (s Scheme) properties() []property {
	colours := []struct {
		name string
		is   color.NRGBA
	}{
		{"--ground", s.Ground}, {"--card", s.Card}, {"--ink", s.Ink}, {"--soft", s.Soft}, {"--edge", s.Edge}, {"--rule", s.Rule},
		{"--leaf", s.Leaf}, {"--on-leaf", s.OnLeaf}, {"--straw", s.Straw}, {"--on-straw", s.OnStraw}, {"--around-straw", s.AroundStraw},
		{"--bad", s.Bad}, {"--chart", s.Chart}, {"--shade", s.Shade},
	}
	list := make([]property, len(colours))
	for i, c := range colours {
		list[i] = property{c.name, css(c.is)}
	}
	return list
}
