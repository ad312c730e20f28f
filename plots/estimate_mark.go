package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// estimateMark draws an estimate on a scale from left to right: its interval as
// a bar, unless an end is unknown (NaN), and the value as a mark, filled or
// hollow.
func (c *canvas) estimateMark(axis scale, middle vg.Length, value, lo, hi float64, fill color.RGBA, filled bool) {
	const diameter, rim = vg.Length(8.5), vg.Length(1.2)
	if !math.IsNaN(lo + hi) {
		c.line(axis.at(lo), middle, axis.at(hi), middle, 2.6, tint(fill, 0.75))
	}
	if filled {
		c.mark(circle, axis.at(value), middle, diameter, fill, rim, color.White)
	} else {
		c.mark(circle, axis.at(value), middle, diameter-2.6, color.White, 1.3, fill)
	}
}

// uprightGrid draws hairlines over the ticks of a scale from left to right, a
// dark one over zero that starts higher up, and figures and a caption below.
func (c *canvas) uprightGrid(axis scale, zeroTop, top, bottom vg.Length, print func(float64, int) string, caption string) {
	step := spacedStep(axis, print)
	for _, tick := range axis.ticks(step) {
		x := axis.at(tick)
		if tick == 0 {
			c.line(x, zeroTop, x, bottom, 1, ink)
		} else {
			c.line(x, top, x, bottom, 0.6, hairline)
		}
		c.text(x, bottom+13, centred, quiet, tickPrinted(tick, step, print))
	}
	c.text((axis.start+axis.end)/2, bottom+28, centred, quiet, caption)
}

// spacedStep is the step of at most seven ticks whose figures keep apart on a
// scale from left to right.
func spacedStep(axis scale, print func(float64, int) string) float64 {
	const most, apart = 7, vg.Length(6)
	f, step := quiet.face(), tickStep(axis.to-axis.from, most)
	for parts := most - 1; parts > 0; parts-- {
		widest := vg.Length(0)
		for _, tick := range axis.ticks(step) {
			widest = max(widest, f.Width(tickPrinted(tick, step, print)))
		}
		if axis.at(step)-axis.at(0) >= widest+apart {
			break
		}
		step = tickStep(axis.to-axis.from, parts)
	}
	return step
}
