package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

// puttColumns is the ground of charts of the share made by length of putt: a
// column as wide as the next for each length, with its edges under it, and a
// share from none to all up the side.
type puttColumns struct {
	units   Units
	columns []puttLength
	pitch   vg.Length
}

// puttLength is a column: lengths from one edge to another in feet, NaN for
// none. It takes part even where nothing was putted from there.
type puttLength struct{ fromFt, toFt float64 }

const (
	puttsStart   = vg.Length(104)
	puttsEnd     = chartWidth - margin
	widestColumn = vg.Length(46)
	sharesHeight = vg.Length(190)
	sharesAbove  = vg.Length(20) // over the scale
	firstFigures = vg.Length(36)
)

// newPuttColumns lines up lengths, and fills the gaps between them.
func newPuttColumns(units Units, lengths []puttLength) puttColumns {
	lengths = slices.Clone(lengths)
	slices.SortFunc(lengths, func(a, b puttLength) int { return int(math.Copysign(1, a.fromFt-b.fromFt)) })
	lengths = slices.CompactFunc(lengths, func(a, b puttLength) bool { return a.fromFt == b.fromFt })
	p := puttColumns{units: units}
	for i, length := range lengths {
		if i > 0 && lengths[i-1].toFt < length.fromFt {
			p.columns = append(p.columns, puttLength{lengths[i-1].toFt, length.fromFt})
		}
		p.columns = append(p.columns, length)
	}
	p.pitch = min(widestColumn, (puttsEnd-puttsStart)/vg.Length(len(p.columns)))
	return p
}

// end is the right edge of the last column.
func (p puttColumns) end() vg.Length { return puttsStart + p.pitch*vg.Length(len(p.columns)) }

// middle is the middle of the column of a length.
func (p puttColumns) middle(fromFt float64) vg.Length {
	i := slices.IndexFunc(p.columns, func(l puttLength) bool { return l.fromFt == fromFt })
	return puttsStart + p.pitch*(vg.Length(i)+0.5)
}

// shares is the scale of shares of a picture that starts at top.
func (p puttColumns) shares(top vg.Length) scale {
	return scale{from: 0, to: 1, start: top + sharesAbove + sharesHeight, end: top + sharesAbove}
}

func (p puttColumns) height(figureLines int) vg.Length {
	return sharesAbove + sharesHeight + firstFigures + figureLine*vg.Length(figureLines)
}

// edgePrinted is an edge in feet, or in metres with the digits that keep edges
// apart.
func (p puttColumns) edgePrinted(feet float64) string {
	value := p.units.FromFeet(feet)
	decimals := 0
	if p.units == Metres && feet > 0 && value < 10 {
		decimals = 1
	}
	return Number(value, decimals)
}

// edgesPrinted names a length by its edges: 12–15, or 50+.
func (p puttColumns) edgesPrinted(l puttLength) string {
	if math.IsNaN(l.toFt) {
		return p.edgePrinted(l.fromFt) + "+"
	}
	return p.edgePrinted(l.fromFt) + "–" + p.edgePrinted(l.toFt)
}

// lengthPrinted is edgesPrinted with the unit: 12–15 feet.
func (p puttColumns) lengthPrinted(l puttLength) string {
	return p.edgesPrinted(l) + NoBreak + p.units.Short()
}

func (p puttColumns) drawGround(c *canvas, top vg.Length) {
	axis := p.shares(top)
	c.text(margin, axis.end-9, fromLeft, quiet, "share made")
	for _, tick := range axis.ticks(0.2) {
		width, stroke := vg.Length(0.6), hairline
		if tick == 0 {
			width, stroke = 0.9, paleGrey
		}
		c.line(puttsStart, axis.at(tick), p.end(), axis.at(tick), width, stroke)
		c.text(puttsStart-8, axis.at(tick)+quiet.middle(), fromRight, quiet, Percent(tick))
	}
	base := axis.start + 14
	c.text(margin, base, fromLeft, quiet, p.units.Short()+" to hole")
	for i, length := range p.columns {
		x := puttsStart + p.pitch*vg.Length(i)
		c.line(x, axis.start, x, axis.start+3, 0.6, paleGrey)
		c.text(x, base, centred, quiet, p.edgePrinted(length.fromFt))
	}
	last := p.columns[len(p.columns)-1]
	c.line(p.end(), axis.start, p.end(), axis.start+3, 0.6, paleGrey)
	if math.IsNaN(last.toFt) {
		c.text(p.end(), base, fromRight, quiet, "more")
	} else {
		c.text(p.end(), base, centred, quiet, p.edgePrinted(last.toFt))
	}
}

// drawCurve draws a share that follows the length, straight in feet within
// each column, as far as the columns have edges.
func (p puttColumns) drawCurve(c *canvas, top vg.Length, share func(feet float64) float64) {
	const steps = 12
	axis := p.shares(top)
	var points []vg.Point
	for i, length := range p.columns {
		if math.IsNaN(length.toFt) {
			break
		}
		for step := range steps + 1 {
			part := float64(step) / steps
			points = append(points, vg.Point{
				X: puttsStart + p.pitch*(vg.Length(i)+vg.Length(part)),
				Y: axis.at(share(length.fromFt + part*(length.toFt-length.fromFt))),
			})
		}
	}
	c.polyline(points, 1.2, tint(vermilion, 0.8))
}
