package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	prioritiesName = "priorities"

	mostPriorities = 8 // ranked parts drawn
	mostUnranked   = 2 // parts of few shots drawn below them
)

// PrioritiesChart draws what each part of the game would give in strokes a
// round if it were played at the benchmark: the ranked parts that give the
// most, with 90 % intervals and the chance that they really are below it;
// below a rule, hollow, parts with too few shots to rank that lost the most.
// Rows of other players are left out. Exactly one of the results is not nil.
func PrioritiesChart(season Season, rows []metrics.Priority) (*Chart, *Missing) {
	words := priorityWords{season: season}
	for _, row := range rows {
		switch {
		case row.Player != season.Player:
		case row.Rank > 0 && !math.IsNaN(row.StrokesToGain+row.StrokesLo+row.StrokesHi):
			words.ranked = append(words.ranked, row)
		case row.Rank == 0 && row.PerRoundRaw < 0:
			words.unranked = append(words.unranked, row)
		}
	}
	if len(words.ranked) == 0 {
		return nil, &Missing{prioritiesName, "No part of the game has the 10 strokes in 5 rounds of complete holes that a rank needs."}
	}
	slices.SortStableFunc(words.ranked, func(a, b metrics.Priority) int { return cmp.Compare(a.Rank, b.Rank) })
	slices.SortStableFunc(words.unranked, func(a, b metrics.Priority) int { return cmp.Compare(a.PerRoundRaw, b.PerRoundRaw) })
	picture := priorityPicture{
		words:    words,
		ranked:   words.ranked[:min(len(words.ranked), mostPriorities)],
		unranked: words.unranked[:min(len(words.unranked), mostUnranked)],
	}
	picture.axis = picture.scale()
	text := chartText{words.title(), words.counted(len(picture.ranked), len(picture.unranked)), words.source(), words.alt(picture.ranked)}
	return laidOut(prioritiesName, text, picture.height(), picture.draw), nil
}

// priorityPicture is the layout of the chart, from left to right: name, marks
// on one scale, chance, strokes.
type priorityPicture struct {
	words            priorityWords
	ranked, unranked []metrics.Priority
	axis             scale
}

const (
	priorityStart     = vg.Length(238)
	priorityEnd       = vg.Length(436)
	chanceEnd         = vg.Length(508)
	priorityRowHeight = vg.Length(28)
)

func (p priorityPicture) height() vg.Length {
	height := gainHeads + priorityRowHeight*vg.Length(len(p.ranked)+len(p.unranked)) + gainAxisHeight
	if len(p.unranked) > 0 {
		height += totalSetApart
	}
	return height
}

// scale holds every mark, every interval and zero.
func (p priorityPicture) scale() scale {
	low, high := 0.0, 0.1
	for _, row := range p.ranked {
		low, high = min(low, row.StrokesLo), max(high, row.StrokesHi)
	}
	for _, row := range p.unranked {
		high = max(high, -row.PerRoundRaw)
	}
	margin := 0.04 * (high - low)
	return scale{from: low - margin, to: high + margin, start: priorityStart, end: priorityEnd}
}

func (p priorityPicture) draw(c *canvas, top vg.Length) {
	base := top + gainHeads - 8
	c.text(chanceEnd, base, fromRight, quiet, "really below")
	c.text(strokesEnd, base, fromRight, quiet, "strokes")
	bottom := top + p.height() - gainAxisHeight
	top += gainHeads
	c.uprightGrid(p.axis, top, top, bottom, Signed, "strokes a round if played at the benchmark")
	for _, row := range p.ranked {
		p.drawRanked(c, row, top+priorityRowHeight/2)
		top += priorityRowHeight
	}
	if len(p.unranked) > 0 {
		c.line(margin, top+totalSetApart/2, strokesEnd, top+totalSetApart/2, 0.6, paleGrey)
		top += totalSetApart
	}
	for _, row := range p.unranked {
		p.drawUnranked(c, row, top+priorityRowHeight/2)
		top += priorityRowHeight
	}
}

func (p priorityPicture) drawRanked(c *canvas, row metrics.Priority, middle vg.Length) {
	fill, text := grey, grey
	if row.StrokesLo > 0 {
		fill, text = vermilion, lossText
	} else if row.StrokesHi < 0 {
		fill, text = blue, gainText
	}
	c.estimateMark(p.axis, middle+4, row.StrokesToGain, row.StrokesLo, row.StrokesHi, fill, fill != grey)
	c.text(p.axis.at(row.StrokesToGain), middle-3.5, centred, strong.in(text).onWhite(), strokesToGain(row))
	p.nameRow(c, row, middle+4, body)
	c.text(chanceEnd, middle+4+quiet.middle(), fromRight, quiet, Chance(row.ChanceBelow))
}

func (p priorityPicture) drawUnranked(c *canvas, row metrics.Priority, middle vg.Length) {
	c.ring(circle, p.axis.at(-row.PerRoundRaw), middle+4, 8.5, 1, paleGrey)
	p.nameRow(c, row, middle+4, body.in(grey))
	c.text(chanceEnd, middle+4+quiet.middle(), fromRight, quiet, "not ranked")
}

func (p priorityPicture) nameRow(c *canvas, row metrics.Priority, middle vg.Length, style typeStyle) {
	c.text(margin, middle+style.middle(), fromLeft, style, Sentence(partOfGame(row, p.words.season.Units)))
	c.text(strokesEnd, middle+quiet.middle(), fromRight, quiet, Count(int(row.N)))
}
