// Package plots draws answers as figures: the readings of each step with the
// fitted line, minutes and cost per head, hours against heads. It computes no
// statistic: every figure's numbers come with the answer.
//
// Figures are drawn with gonum.org/v1/plot, as SVG, PNG or PDF, and the same
// answer gives the same bytes. They are as wide as a phone shows with letters
// of a readable size, and as tall as they need to be. Colours differ in
// lightness too, so that they stay apart in grey print and for colour-blind
// readers, and whatever a colour says is also said in words or by a shape.
package plots
