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
	part gamePart
}

// hasInterval says whether the row has an interval that may be drawn.
func (r gainRow) hasInterval() bool {
	return r.Rounds >= fewestRounds && !math.IsNaN(r.PerRoundLo+r.PerRoundHi)
}

func (r gainRow) loses() bool { return r.hasInterval() && r.PerRoundHi < 0 }
func (r gainRow) gains() bool { return r.hasInterval() && r.PerRoundLo > 0 }

// printed is strokes a round, signed, with the digits the interval supports.
func (r gainRow) printed() string { return Signed(r.PerRound, r.decimals()) }

// amount is printed without the sign, for sentences that say it in words.
func (r gainRow) amount() string { return Number(math.Abs(r.PerRound), r.decimals()) }

func (r gainRow) decimals() int {
	if !r.hasInterval() {
		return 1
	}
	return Decimals(r.PerRound, r.PerRoundHi-r.PerRoundLo)
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
			if row.Player == season.Player && row.GroupKind == "class" && row.Group == part.class && drawable(row) {
				picture.classes = append(picture.classes, gainRow{row, part})
			}
		}
	}
	for _, row := range rows {
		if row.Player == season.Player && row.GroupKind == "total" && drawable(row) {
			picture.total = append(picture.total, gainRow{row, gamePart{name: "All strokes", plural: true}})
		}
	}
	if len(picture.classes) == 0 {
		return nil, &Missing{strokesGainedName, "No hole is complete with its strokes, so no strokes gained can be counted."}
	}
	picture.axis = picture.scale()
	words := gainWords{season: season, classes: picture.classes, total: picture.total}
	title := words.title()
	around := framed(title, words.counted(), words.source())
	return laidOut(strokesGainedName, words.alt(), title, around, picture.height(), picture.draw), nil
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
		low, high = min(low, row.PerRound), max(high, row.PerRound)
		if row.hasInterval() {
			low, high = min(low, row.PerRoundLo), max(high, row.PerRoundHi)
		}
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
	fill, text := grey, grey
	switch {
	case row.loses():
		fill, text = vermilion, lossText
	case row.gains():
		fill, text = blue, gainText
	}
	lo, hi := math.NaN(), math.NaN()
	if row.hasInterval() {
		lo, hi = row.PerRoundLo, row.PerRoundHi
	}
	c.estimateMark(p.axis, middle, row.PerRound, lo, hi, fill, row.loses() || row.gains())
	c.text(p.axis.at(row.PerRound), middle-8.5, centred, valueLabel.in(text), row.printed())

	c.text(margin, middle+strong.middle(), fromLeft, strong, row.part.name)
	c.text(roundsEnd, middle+quiet.middle(), fromRight, quiet, Count(int(row.Rounds)))
	c.text(strokesEnd, middle+quiet.middle(), fromRight, quiet, Count(int(row.N)))
}
