package plots

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// fewestSolid is how large a group has to be: one of fewer is drawn hollow and
// pale, its shares counted out.
const fewestSolid = 10

// groupMark is the estimate of a group as it is drawn: a mark on its interval,
// hollow and pale where the group is small.
type groupMark struct {
	value, lo, hi float64    // NaN for what is not known
	quartiles     [2]float64 // the middle half of the group, where it is drawn
	benchmark     float64    // what it is held against, NaN for nothing
	n             int64
	mark          shape
	fill          color.RGBA
	hollow        bool // also where the group is large: the interval spans zero
}

// differenceMark is a difference on a scale with zero: in a colour where its
// interval is clear of zero, hollow and grey where it is not.
func differenceMark(value, lo, hi float64, n int64, above, below color.RGBA) groupMark {
	mark := groupMark{value: value, lo: lo, hi: hi, benchmark: math.NaN(), n: n, fill: grey, hollow: true}
	switch {
	case lo > 0:
		mark.fill, mark.hollow = above, false
	case hi < 0:
		mark.fill, mark.hollow = below, false
	}
	return mark
}

func (m groupMark) few() bool { return m.n < fewestSolid }

func (m groupMark) hasInterval() bool { return !m.few() && !math.IsNaN(m.value+m.lo+m.hi) }

// drawn are the values that a scale has to hold.
func (m groupMark) drawn() []float64 {
	values := []float64{m.value, m.benchmark}
	if m.hasInterval() {
		values = append(values, m.lo, m.hi)
	}
	if !m.few() {
		values = append(values, m.quartiles[:]...)
	}
	return values
}

// draw draws the mark across (vertical is false) or along (true) the scale of
// its values, at a place in the other direction.
func (m groupMark) draw(c *canvas, axis scale, across vg.Length, vertical bool) {
	const (
		diameter, rim = vg.Length(7), vg.Length(1)
		barWidth      = vg.Length(9)
		dash          = vg.Length(8) // half of it: seen on both sides of the mark
	)
	clamped := func(value float64) vg.Length { return axis.at(min(max(value, axis.from), axis.to)) }
	span := func(from, to float64, shift vg.Length) (x0, y0, x1, y1 vg.Length) {
		if vertical {
			return across - shift, clamped(from), across + shift, clamped(to)
		}
		return clamped(from), across - shift, clamped(to), across + shift
	}
	if m.quartiles[0] != m.quartiles[1] && !m.few() {
		x0, y0, x1, y1 := span(m.quartiles[0], m.quartiles[1], barWidth/2)
		c.rectangle(x0, y0, x1, y1, tint(m.fill, 0.25))
	}
	if !math.IsNaN(m.benchmark) {
		x0, y0, x1, y1 := span(m.benchmark, m.benchmark, dash)
		c.line(x0, y0, x1, y1, 1.6, ink)
	}
	if m.hasInterval() {
		x0, y0, x1, y1 := span(m.lo, m.hi, 0)
		c.line(x0, y0, x1, y1, 2.4, tint(m.fill, 0.75))
	}
	if math.IsNaN(m.value) {
		return
	}
	x, y, _, _ := span(m.value, m.value, 0)
	switch {
	case m.few():
		c.mark(m.mark, x, y, diameter-1.8, color.White, 0.9, tint(m.fill, 0.7))
	case m.hollow:
		c.mark(m.mark, x, y, diameter-2.2, color.White, 1.3, m.fill)
	default:
		c.mark(m.mark, x, y, diameter, m.fill, rim, color.White)
	}
}

// marksShown are the kinds of marks among those of a chart, for the words on
// how to read it.
type marksShown struct{ hollow, withLine, bare bool }

// add takes in a group of n; the ends of its interval are NaN where it has none.
func (m *marksShown) add(n int64, lo, hi float64) {
	switch {
	case n < fewestSolid:
		m.hollow = true
	case math.IsNaN(lo + hi):
		m.bare = true
	default:
		m.withLine = true
	}
}

// lineReading explains the lines through marks, of which some may be bare.
func (m marksShown) lineReading() string {
	if m.bare {
		return fmt.Sprintf("Line: its 90"+NoBreak+"%% interval, from %s rounds on.", strings.ToLower(InWords(fewestRounds)))
	}
	return "Line: its 90" + NoBreak + "% interval."
}

// hollowUnder explains hollow marks, in a sentence that stays on one line.
func hollowUnder(things string) string {
	return fmt.Sprintf(" Hollow:"+NoBreak+"under"+NoBreak+"%d"+NoBreak+"%s.", fewestSolid, things)
}
