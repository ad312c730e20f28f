package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const strokesGainedName = "strokes-gained"

// gameParts are the classes of strokes in the order they are played: the name
// at the row, and the name inside a sentence with the verb it takes.
var gameParts = []gamePart{
	{class: "tee shot", name: "Tee shots", plural: true},
	{class: "approach", name: "Approach play"},
	{class: "short game", name: "Short game"},
	{class: "putt", name: "Putting"},
}

type gamePart struct {
	class  string // metrics.StrokesGained.Group
	name   string
	plural bool
}

// gainRow is one row of the picture.
type gainRow struct {
	metrics.StrokesGained
	gain // a round
	part gamePart
}

func newGainRow(row metrics.StrokesGained, part gamePart) gainRow {
	return gainRow{row, gainOf(row.PerRound, row.PerRoundLo, row.PerRoundHi, row.Rounds >= fewestRounds), part}
}

// StrokesGainedChart draws strokes gained a round by class of stroke, and in
// all, with 90 % intervals: in colour where the interval is clear of zero,
// hollow and grey where it is not, without intervals under five rounds.
// Rows of other players and other kinds of group are left out.
// Exactly one of the results is not nil.
func StrokesGainedChart(season Season, rows []metrics.StrokesGained) (*Chart, *Missing) {
	picture := gainPicture{}
	for _, part := range gameParts {
		for _, row := range rows {
			if row.Player == season.Player && row.GroupKind == metrics.ByClass && row.Group == part.class && drawable(row) {
				picture.classes = append(picture.classes, newGainRow(row, part))
			}
		}
	}
	for _, row := range rows {
		if row.Player == season.Player && row.GroupKind == metrics.ByTotal && drawable(row) {
			picture.total = append(picture.total, newGainRow(row, gamePart{name: "All strokes", plural: true}))
		}
	}
	if len(picture.classes) == 0 {
		return nil, &Missing{strokesGainedName, "No hole is complete with its strokes, so no strokes gained can be counted."}
	}
	picture.axis = picture.scale()
	words := gainWords{season: season, classes: picture.classes, total: picture.total}
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(strokesGainedName, text, picture.height(), picture.draw), nil
}

func drawable(row metrics.StrokesGained) bool { return row.N > 0 && !math.IsNaN(row.PerRound) }

// gainPicture is the layout of the chart, from left to right: name, marks on
// one scale, rounds, strokes.
type gainPicture struct {
	classes []gainRow
	total   []gainRow // one row or none
	axis    scale
}

const (
	gainStart      = vg.Length(124)
	gainEnd        = vg.Length(446)
	roundsEnd      = vg.Length(508)
	strokesEnd     = chartWidth - margin
	gainHeads      = vg.Length(22)
	gainRowHeight  = vg.Length(36)
	totalSetApart  = vg.Length(12)
	gainAxisHeight = vg.Length(32)
)

func (p gainPicture) height() vg.Length {
	height := gainHeads + gainRowHeight*vg.Length(len(p.classes)+len(p.total)) + gainAxisHeight
	if len(p.total) > 0 {
		height += totalSetApart
	}
	return height
}

// scale holds every estimate, every interval and zero, with room on both sides
// of zero for the words there.
func (p gainPicture) scale() scale {
	low, high := 0.0, 0.0
	for _, row := range slices.Concat(p.classes, p.total) {
		low, high = min(low, slices.Min(row.drawn())), max(high, slices.Max(row.drawn()))
	}
	const sideShare = 0.14
	span := max(high-low, 0.5)
	low, high = min(low-0.04*span, -sideShare*span), max(high+0.04*span, sideShare*span)
	return scale{from: low, to: high, start: gainStart, end: gainEnd}
}

func (p gainPicture) draw(c *canvas, top vg.Length) {
	base := top + gainHeads - 8
	zero := p.axis.at(0)
	c.text(zero-7, base, fromRight, quiet, "loses")
	c.text(zero+7, base, fromLeft, quiet, "gains")
	c.text(roundsEnd, base, fromRight, quiet, "rounds")
	c.text(strokesEnd, base, fromRight, quiet, "strokes")

	top += gainHeads
	p.drawGrid(c, top, top+p.height()-gainHeads-gainAxisHeight)
	for _, row := range p.classes {
		p.drawRow(c, row, top+gainRowHeight/2)
		top += gainRowHeight
	}
	for _, row := range p.total {
		c.line(margin, top+totalSetApart/2, strokesEnd, top+totalSetApart/2, 0.6, paleGrey)
		p.drawRow(c, row, top+totalSetApart+gainRowHeight/2)
	}
}

func (p gainPicture) drawGrid(c *canvas, top, bottom vg.Length) {
	c.uprightGrid(p.axis, top-gainHeads+6, top, bottom, Signed, "strokes a round against the benchmark")
}

func (p gainPicture) drawRow(c *canvas, row gainRow, middle vg.Length) {
	middle += 4 // the value stands above the mark
	fill, text := row.colours()
	c.estimateMark(p.axis, middle, row.value, row.lo, row.hi, fill, row.clear())
	c.text(p.axis.at(row.PerRound), middle-8.5, centred, valueLabel.in(text), row.printed())

	c.text(margin, middle+strong.middle(), fromLeft, strong, row.part.name)
	c.text(roundsEnd, middle+quiet.middle(), fromRight, quiet, Count(int(row.Rounds)))
	c.text(strokesEnd, middle+quiet.middle(), fromRight, quiet, Count(int(row.N)))
}
