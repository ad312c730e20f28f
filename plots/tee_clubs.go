package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	teeClubsName = "tee-clubs"

	mostTeeClubs    = 8 // clubs drawn: those used most
	mostClubsPaired = 3 // pairs of clubs put into words
)

// teeClubRow is one club off the tee.
type teeClubRow struct {
	metrics.TeeClub
	gain // a tee shot
}

func newTeeClubRow(row metrics.TeeClub) teeClubRow {
	return teeClubRow{row, gainOf(row.StrokesGainedPer, row.StrokesGainedLo, row.StrokesGainedHi, row.N >= fewestSolid)}
}

func (r teeClubRow) few() bool { return r.N < fewestSolid }

// TeeClubsChart draws what each club does off the tee of par 4s and 5s:
// strokes gained a shot with its 90 % interval, distance, fairways and
// penalties, and in words how two clubs compare on holes of like length. Rows
// of other players are left out. Exactly one of the results is not nil.
func TeeClubsChart(season Season, rows []metrics.TeeClub, differences []metrics.TeeClubDifference) (*Chart, *Missing) {
	words := teeClubWords{season: season}
	for _, row := range rows {
		if row.Player == season.Player && row.N > 0 && !math.IsNaN(row.StrokesGainedPer) {
			words.clubs = append(words.clubs, newTeeClubRow(row))
		}
	}
	named := slices.ContainsFunc(rows, func(row metrics.TeeClub) bool { return row.Player == season.Player && row.N > 0 })
	switch {
	case len(words.clubs) == 0 && named:
		return nil, &Missing{teeClubsName, "What shots from the tee of par 4s and 5s gained or lost is not known: their distance, or that of the next shot, is missing."}
	case len(words.clubs) == 0:
		return nil, &Missing{teeClubsName, "No shot from the tee of a par 4 or 5 names its club: fill in the column club."}
	}
	if words.leftOut = max(0, len(words.clubs)-mostTeeClubs); words.leftOut > 0 {
		byUse := slices.Clone(words.clubs)
		slices.SortStableFunc(byUse, func(a, b teeClubRow) int { return cmp.Compare(b.N, a.N) })
		words.clubs = slices.DeleteFunc(words.clubs, func(r teeClubRow) bool {
			return !slices.ContainsFunc(byUse[:mostTeeClubs], func(used teeClubRow) bool { return used.Club == r.Club })
		})
	}
	for _, pair := range differences {
		if pair.Player == season.Player && min(pair.NLonger, pair.NShorter) >= fewestSolid && !math.IsNaN(pair.StrokesGained+pair.StrokesGainedLo+pair.StrokesGainedHi) {
			words.pairs = append(words.pairs, pair)
		}
	}
	slices.SortStableFunc(words.pairs, func(a, b metrics.TeeClubDifference) int {
		return cmp.Compare(min(b.NLonger, b.NShorter), min(a.NLonger, a.NShorter))
	})
	picture := teeClubPicture{words: words, pairs: words.pairs[:min(len(words.pairs), mostClubsPaired)]}
	picture.axis = picture.scale()
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(teeClubsName, text, picture.height(), picture.draw), nil
}

// teeClubPicture is the layout of the chart, from left to right: name, marks on
// one scale, distance, fairways, penalties, strokes; below, pairs in words.
type teeClubPicture struct {
	words teeClubWords
	pairs []metrics.TeeClubDifference
	axis  scale
}

const (
	teeClubStart    = vg.Length(104)
	teeClubEnd      = vg.Length(290)
	distanceMiddle  = vg.Length(346)
	fairwayMiddle   = vg.Length(418)
	penaltyMiddle   = vg.Length(482)
	teeClubHeight   = vg.Length(40)
	pairsHeadHeight = vg.Length(30)
	pairHeight      = vg.Length(16)
	pairTextStart   = vg.Length(160)
)

func (p teeClubPicture) height() vg.Length {
	height := gainHeads + teeClubHeight*vg.Length(len(p.words.clubs)) + gainAxisHeight
	if len(p.pairs) > 0 {
		height += pairsHeadHeight + pairHeight*vg.Length(len(p.pairs))
	}
	return height
}

// scale holds every estimate, every interval and zero.
func (p teeClubPicture) scale() scale {
	low, high := 0.0, 0.0
	for _, row := range p.words.clubs {
		low, high = min(low, slices.Min(row.drawn())), max(high, slices.Max(row.drawn()))
	}
	const sideShare = 0.1
	span := max(high-low, 0.05)
	low, high = min(low-0.08*span, -sideShare*span), max(high+0.08*span, sideShare*span)
	return scale{from: low, to: high, start: teeClubStart, end: teeClubEnd}
}

func (p teeClubPicture) draw(c *canvas, top vg.Length) {
	base := top + gainHeads - 8
	c.text(distanceMiddle, base, centred, quiet, "median "+p.words.season.Units.LongSymbol())
	c.text(fairwayMiddle, base, centred, quiet, "fairways, %")
	c.text(penaltyMiddle, base, centred, quiet, "penalties, %")
	c.text(strokesEnd, base, fromRight, quiet, "strokes")
	y := top + gainHeads
	bottom := y + teeClubHeight*vg.Length(len(p.words.clubs))
	c.uprightGrid(p.axis, y, y, bottom, Signed, "strokes gained a tee shot")
	for _, row := range p.words.clubs {
		p.drawRow(c, row, y+teeClubHeight/2)
		y += teeClubHeight
	}
	if len(p.pairs) == 0 {
		return
	}
	y = bottom + gainAxisHeight
	c.line(margin, y+6, chartWidth-margin, y+6, 0.6, paleGrey)
	c.text(margin, y+24, fromLeft, quiet, "On holes of one par and like length, tee shot and score of the hole:")
	for i, pair := range p.pairs {
		line := y + pairsHeadHeight + pairHeight*(vg.Length(i)+1) - 5
		c.text(margin, line, fromLeft, strong, shortened(againstPrinted(pair), strong.face(), pairTextStart-margin-6))
		c.text(pairTextStart, line, fromLeft, quiet, pairPrinted(pair))
	}
}

func (p teeClubPicture) drawRow(c *canvas, row teeClubRow, middle vg.Length) {
	fill, text := row.colours()
	name, value := strong, strong
	if row.few() {
		fill, name, value = paleGrey, body.in(grey), body.in(grey)
	}
	c.estimateMark(p.axis, middle+4, row.value, row.lo, row.hi, fill, row.clear())
	c.text(p.axis.at(row.value), middle-4, centred, strong.in(text).onWhite(), row.printed())
	c.text(margin, middle+4+strong.middle(), fromLeft, name, shortened(clubPrinted(row.Club), strong.face(), teeClubStart-margin-8))
	c.text(strokesEnd, middle+4+quiet.middle(), fromRight, quiet, Count(int(row.N)))
	for _, figure := range []struct {
		x               vg.Length
		value, interval string
	}{
		{distanceMiddle, p.words.distance(row), p.words.distanceInterval(row)},
		{fairwayMiddle, shareKnown(row.FairwayShare, row.NFairway), shareInterval(row.FairwayLo, row.FairwayHi, row.NFairway)},
		{penaltyMiddle, shareKnown(row.PenaltyShare, row.N), shareInterval(row.PenaltyLo, row.PenaltyHi, row.N)},
	} {
		if figure.interval == "" {
			c.text(figure.x, middle+4+value.middle(), centred, value, figure.value)
			continue
		}
		c.text(figure.x, middle, centred, value, figure.value)
		c.text(figure.x, middle+13, centred, quiet, figure.interval)
	}
}
