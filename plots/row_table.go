package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// rowTable is a picture of rows: names at the left, columns of figures, and
// panels in which the rows' estimates lie on a scale of the panel's own.
type rowTable struct {
	head    string // over the names
	columns []rowColumn
	panels  []rowPanel
	rows    []tableRow
	pitch   vg.Length // from row to row
}

type rowColumn struct {
	end    vg.Length // right edge
	head   string
	strong bool
}

type rowPanel struct {
	axis  scale
	step  float64 // from tick to tick
	print func(float64, int) string
	head  string
	unit  string // under the ticks
}

type tableRow struct {
	name  string
	apart bool // from the row above
	few   bool // its figures are set quietly
	cells []string
	marks [][]groupMark // of each panel, upper first
}

const (
	tableHeads    = vg.Length(22)
	tableApart    = vg.Length(12)
	tableAxis     = vg.Length(16)
	tableAxisUnit = vg.Length(14)
)

func (t rowTable) height() vg.Length {
	height := tableHeads + t.rowsHeight() + tableAxis
	for _, panel := range t.panels {
		if panel.unit != "" {
			return height + tableAxisUnit
		}
	}
	return height
}

func (t rowTable) rowsHeight() vg.Length {
	height := t.pitch * vg.Length(len(t.rows))
	for _, row := range t.rows {
		if row.apart {
			height += tableApart
		}
	}
	return height
}

func (t rowTable) draw(c *canvas, top vg.Length) {
	base := top + tableHeads - 9
	c.text(margin, base, fromLeft, quiet, t.head)
	for _, column := range t.columns {
		c.text(column.end, base, fromRight, quiet, column.head)
	}
	top += tableHeads
	bottom := top + t.rowsHeight()
	for _, panel := range t.panels {
		c.text((panel.axis.start+panel.axis.end)/2, base, centred, quiet, panel.head)
		panel.drawGrid(c, top, bottom)
	}
	for _, row := range t.rows {
		if row.apart {
			c.line(margin, top+tableApart/2, chartWidth-margin, top+tableApart/2, 0.6, paleGrey)
			top += tableApart
		}
		t.drawRow(c, row, top+t.pitch/2)
		top += t.pitch
	}
}

func (p rowPanel) drawGrid(c *canvas, top, bottom vg.Length) {
	for _, tick := range p.axis.ticks(p.step) {
		x := p.axis.at(tick)
		width, stroke := vg.Length(0.6), hairline
		if tick == 0 {
			width, stroke = 0.9, paleGrey
			if p.axis.from < 0 {
				width, stroke = 1, ink
			}
		}
		c.line(x, top, x, bottom, width, stroke)
		c.text(x, bottom+13, centred, quiet, tickPrinted(tick, p.step, p.print))
	}
	c.text((p.axis.start+p.axis.end)/2, bottom+27, centred, quiet, p.unit)
}

func (t rowTable) drawRow(c *canvas, row tableRow, middle vg.Length) {
	c.text(margin, middle+strong.middle(), fromLeft, strong, row.name)
	for i, cell := range row.cells {
		style := quiet
		switch {
		case t.columns[i].strong && row.few:
			style = body.in(grey)
		case t.columns[i].strong:
			style = strong
		}
		c.text(t.columns[i].end, middle+style.middle(), fromRight, style, cell)
	}
	for i, marks := range row.marks {
		const apart = vg.Length(9)
		y := middle - apart*vg.Length(len(marks)-1)/2
		for _, mark := range marks {
			mark.draw(c, t.panels[i].axis, y, false)
			y += apart
		}
	}
}

// spanning is a panel's scale and step that hold zero and all of the values
// with a little room, over no less than least; NaN is no value.
func spanning(start, end vg.Length, most int, least float64, values ...float64) (axis scale, step float64) {
	low, high := 0.0, 0.0
	for _, value := range values {
		if !math.IsNaN(value) {
			low, high = min(low, value), max(high, value)
		}
	}
	if short := least - (high - low); short > 0 {
		if low < 0 {
			low -= short / 2
			short /= 2
		}
		high += short
	}
	room := 0.04 * (high - low)
	if low < 0 {
		low -= room
	}
	if high > 0 {
		high += room
	}
	return scale{from: low, to: high, start: start, end: end}, tickStep(high-low, most)
}
