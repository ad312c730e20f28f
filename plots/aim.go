package plots

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	aimName = "aim"

	shownCutYd = 5 // from the side of the green to the hole, of the cuts in the table
)

// aimBand is the advice from one yardage band; a side without a row is nil.
type aimBand struct{ left, right *metrics.Aim }

func (b aimBand) any() metrics.Aim {
	if b.left != nil {
		return *b.left
	}
	return *b.right
}

// rows are the advice for a hole on the left and on the right, where there is one.
func (b aimBand) rows() (rows []metrics.Aim) {
	for _, row := range []*metrics.Aim{b.left, b.right} {
		if row != nil {
			rows = append(rows, *row)
		}
	}
	return rows
}

// saves says whether the interval of the strokes saved is clear of zero.
func saves(row metrics.Aim) bool { return row.SavedLo > 0 }

// toTheRight is a value of the table, counted towards the middle of the green,
// counted from left to right as the golfer sees it.
func toTheRight(row metrics.Aim, yd float64) float64 {
	if row.Side == metrics.RightSide {
		return -yd
	}
	return yd
}

// AimChart draws where to aim when the hole is cut near a side of the green,
// band by band: the best target left or right of the flag with its 90 %
// interval, and the strokes that it saves. It is a model, and says so. Rows of
// other players are left out. Exactly one of the results is not nil.
func AimChart(season Season, rows []metrics.Aim) (*Chart, *Missing) {
	words := aimWords{season: season}
	for _, row := range rows {
		if row.Player != season.Player || row.CutYd != shownCutYd || math.IsNaN(row.OffsetYd+row.OffsetLoYd+row.OffsetHiYd+row.Saved+row.SavedLo+row.SavedHi) {
			continue
		}
		i := slices.IndexFunc(words.bands, func(b aimBand) bool { return b.any().BandFromYd == row.BandFromYd })
		if i < 0 {
			i = len(words.bands)
			words.bands = append(words.bands, aimBand{})
		}
		if row.Side == metrics.RightSide {
			words.bands[i].right = &row
		} else {
			words.bands[i].left = &row
		}
	}
	if len(words.bands) == 0 {
		return nil, &Missing{aimName, "No yardage band has the 20 approaches in 5 rounds with the miss logged that the model needs: fill in the columns long_short and left_right, or positions."}
	}
	slices.SortStableFunc(words.bands, func(a, b aimBand) int { return cmp.Compare(a.any().BandFromYd, b.any().BandFromYd) })
	picture := aimPicture{words: words}
	picture.axis = picture.scale()
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(aimName, text, picture.height(), picture.draw), nil
}

// aimPicture is the layout of the chart, from left to right: band, targets on
// one scale around the flag, strokes saved, shots.
type aimPicture struct {
	words aimWords
	axis  scale
}

const (
	aimStart     = vg.Length(100)
	aimEnd       = vg.Length(354)
	leftMiddle   = vg.Length(406)
	rightMiddle  = vg.Length(480)
	aimHeads     = vg.Length(36)
	aimRowHeight = vg.Length(36)
)

func (p aimPicture) height() vg.Length {
	return aimHeads + aimRowHeight*vg.Length(len(p.words.bands)) + gainAxisHeight
}

// scale holds every interval, and is as wide to the left of the flag as to the
// right.
func (p aimPicture) scale() scale {
	reach := 1.0
	for _, band := range p.words.bands {
		for _, row := range band.rows() {
			for _, yd := range []float64{row.OffsetLoYd, row.OffsetHiYd, row.OffsetYd} {
				reach = max(reach, math.Abs(p.words.season.Units.FromYards(yd)))
			}
		}
	}
	return scale{from: -1.05 * reach, to: 1.05 * reach, start: aimStart, end: aimEnd}
}

func (p aimPicture) draw(c *canvas, top vg.Length) {
	base := top + aimHeads - 8
	zero := p.axis.at(0)
	c.text(zero-7, base-13, fromRight, strong, "hole on the right")
	c.text(zero-7, base, fromRight, quiet, "the middle is left of it")
	c.text(zero+7, base-13, fromLeft, strong, "hole on the left")
	c.text(zero+7, base, fromLeft, quiet, "the middle is right of it")
	c.text((leftMiddle+rightMiddle)/2, base-13, centred, quiet, "saved in 100 shots")
	c.text(leftMiddle, base, centred, quiet, "hole right")
	c.text(rightMiddle, base, centred, quiet, "hole left")
	c.text(strokesEnd, base, fromRight, quiet, "shots")
	y := top + aimHeads
	bottom := y + aimRowHeight*vg.Length(len(p.words.bands))
	c.uprightGrid(p.axis, top+4, y, bottom, Signed, p.words.season.Units.Long()+" from the flag to the best target, right is +")
	for _, band := range p.words.bands {
		middle := y + aimRowHeight/2
		c.text(margin, middle+strong.middle(), fromLeft, strong, p.words.band(band.any()))
		c.text(strokesEnd, middle+quiet.middle(), fromRight, quiet, Count(int(band.any().N)))
		if band.left != nil {
			p.drawTarget(c, *band.left, middle-6, rightMiddle, middle)
		}
		if band.right != nil {
			p.drawTarget(c, *band.right, middle+7, leftMiddle, middle)
		}
		y += aimRowHeight
	}
}

func (p aimPicture) drawTarget(c *canvas, row metrics.Aim, markY, figures, middle vg.Length) {
	const diameter, rim = vg.Length(7.5), vg.Length(1.2)
	units := p.words.season.Units
	at := func(yd float64) vg.Length { return p.axis.at(units.FromYards(toTheRight(row, yd))) }
	fill, figure, form := grey, body.in(grey), circle
	if saves(row) {
		fill, figure = blue, strong.in(blue)
	}
	if row.Side == metrics.RightSide {
		form = diamond
	}
	c.line(at(row.OffsetLoYd), markY, at(row.OffsetHiYd), markY, 2.4, tint(fill, 0.75))
	if saves(row) {
		c.mark(form, at(row.OffsetYd), markY, diameter, fill, rim, color.White)
	} else {
		c.mark(form, at(row.OffsetYd), markY, diameter-2.4, color.White, 1.3, fill)
	}
	c.text(figures, middle-1, centred, figure, savedPrinted(row))
	c.text(figures, middle+12, centred, quiet, savedInterval(row))
}
