package plots

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	scoringName = "scoring"

	fewestHoles = 9 // under this there is no picture
	mostPars    = 4 // panels of pars; those with the fewest holes are left to all holes
)

// ScoringChart draws how holes are scored, from eagle or better to worse than a
// double, by par and in all, with the average to par a hole; under it, which
// part of the game starts the doubles and what it loses in them. Rows of other
// players and other kinds of group are left out. Exactly one of the results is
// not nil.
func ScoringChart(season Season, rows []metrics.Scoring, causes []metrics.DoubleCause) (*Chart, *Missing) {
	words := scoringWords{season: season}
	for _, row := range rows {
		switch {
		case row.Player != season.Player || row.N == 0:
		case row.GroupKind == metrics.ByTotal:
			words.all = row
		case row.GroupKind == metrics.ByPar:
			words.pars = append(words.pars, row)
		}
	}
	if words.all.N < fewestHoles {
		return nil, &Missing{scoringName, holesMissing(int(words.all.N))}
	}
	for len(words.pars) > mostPars {
		rarest := 0
		for i, row := range words.pars {
			if row.N < words.pars[rarest].N {
				rarest = i
			}
		}
		words.pars = slices.Delete(words.pars, rarest, rarest+1)
	}
	for _, row := range causes {
		if row.Player == season.Player && row.N > 0 {
			words.addCause(row)
		}
	}
	picture := newScoringPicture(words)
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(scoringName, text, picture.height(), picture.draw), nil
}

// doubleCause is a row of the causes of doubles: a part of the game, or
// strokes with a penalty.
type doubleCause struct {
	metrics.DoubleCause
	part gamePart
}

func (c doubleCause) hasInterval() bool {
	return c.N >= fewestSolid && !math.IsNaN(c.StartedLo+c.StartedHi)
}

func (w *scoringWords) addCause(row metrics.DoubleCause) {
	switch row.GroupKind {
	case metrics.ByClass:
		for _, part := range gameParts {
			if part.class == row.Group {
				w.causes = append(w.causes, doubleCause{row, part})
			}
		}
	case metrics.ByPenalty:
		w.penalties = append(w.penalties, doubleCause{row, gamePart{name: "With a penalty"}})
	}
}

// scoringPicture is the layout of the chart: a panel a par side by side, with
// scores from the best down, and the causes of doubles under them.
type scoringPicture struct {
	groups []scoringGroup
	reach  float64 // longest share of all
	pitch  vg.Length
	causes rowTable
}

// scoringGroup is a panel.
type scoringGroup struct {
	metrics.Scoring
	name string
}

// scores are how many holes were scored how, from eagle or better on.
func (g scoringGroup) scores() [6]int64 {
	return [...]int64{g.EaglesOrBetter, g.Birdies, g.Pars, g.Bogeys, g.Doubles, g.Worse}
}

var scoreNames = [...]string{"Eagle or better", "Birdie", "Par", "Bogey", "Double bogey", "Worse"}

var scoreFills = [len(scoreNames)]struct {
	color    color.RGBA
	strength float64
}{{blue, 1}, {blue, 0.65}, {paleGrey, 0.8}, {vermilion, 0.5}, {vermilion, 0.75}, {vermilion, 1}}

const (
	panelsStart  = vg.Length(116)
	panelHeads   = vg.Length(24)
	scorePitch   = vg.Length(19)
	belowScores  = vg.Length(20)
	scoringLines = 4
	aboveCauses  = vg.Length(10)
)

func newScoringPicture(w scoringWords) scoringPicture {
	p := scoringPicture{causes: causesTable(append(slices.Clone(w.causes), w.penalties...))}
	for _, row := range w.pars {
		p.groups = append(p.groups, scoringGroup{row, "Par " + row.Group})
	}
	p.groups = append(p.groups, scoringGroup{w.all, "All holes"})
	for _, group := range p.groups {
		for _, n := range group.scores() {
			p.reach = max(p.reach, float64(n)/float64(group.N))
		}
	}
	p.pitch = (chartWidth - margin - panelsStart) / vg.Length(len(p.groups))
	return p
}

func (p scoringPicture) scoresHeight() vg.Length {
	return panelHeads + scorePitch*vg.Length(len(scoreNames)) + belowScores + figureLine*(scoringLines-1)
}

func (p scoringPicture) height() vg.Length {
	height := p.scoresHeight()
	if len(p.causes.rows) > 0 {
		height += aboveCauses + p.causes.height()
	}
	return height
}

func (p scoringPicture) draw(c *canvas, top vg.Length) {
	rows := top + panelHeads
	for i, name := range scoreNames {
		c.text(margin, rows+scorePitch*(vg.Length(i)+0.5)+strong.middle(), fromLeft, strong, name)
	}
	lines := rows + scorePitch*vg.Length(len(scoreNames)) + belowScores
	for i, head := range []string{"holes", "to par a hole", "90" + NoBreak + "% interval", "double or worse"} {
		c.text(margin, lines+figureLine*vg.Length(i), fromLeft, quiet, head)
	}
	for i, group := range p.groups {
		left := panelsStart + p.pitch*vg.Length(i)
		c.text(left, top+panelHeads-10, fromLeft, strong, group.name)
		p.drawScores(c, group, left, rows)
		figures := []string{Count(int(group.N)), group.toPar(), group.toParInterval(), group.doubles()}
		for line, figure := range figures {
			style := quiet
			if line == 1 && !group.few() {
				style = strong
			}
			c.text(left, lines+figureLine*vg.Length(line), fromLeft, style, figure)
		}
	}
	if len(p.causes.rows) > 0 {
		p.causes.draw(c, top+p.scoresHeight()+aboveCauses)
	}
}

func (p scoringPicture) drawScores(c *canvas, group scoringGroup, left, top vg.Length) {
	const labelRoom, barHeight = vg.Length(40), vg.Length(11)
	axis := scale{from: 0, to: p.reach, start: left, end: left + p.pitch - labelRoom}
	c.line(left, top, left, top+scorePitch*vg.Length(len(scoreNames)), 0.9, paleGrey)
	for i, n := range group.scores() {
		middle := top + scorePitch*(vg.Length(i)+0.5)
		end := axis.at(float64(n) / float64(group.N))
		strength := scoreFills[i].strength
		if group.few() {
			strength /= 2
		}
		c.rectangle(left, middle-barHeight/2, end, middle+barHeight/2, tint(scoreFills[i].color, strength))
		c.text(end+5, middle+body.middle(), fromLeft, body, scoreShare(n, group.N))
	}
}

// causesTable is the table of what starts doubles: classes, then penalties.
func causesTable(causes []doubleCause) rowTable {
	const (
		startedEnd             = vg.Length(158)
		sharesFrom, sharesTo   = vg.Length(176), vg.Length(332)
		lostEnd                = vg.Length(398)
		lossesFrom, lossesTo   = vg.Length(416), chartWidth - margin - 8
		mostShares, mostLosses = 4, 4
	)
	t := rowTable{
		pitch:   22,
		columns: []rowColumn{{startedEnd, "started", true}, {lostEnd, "lost a round", true}},
	}
	if len(causes) > 0 {
		t.columns[0].head = "started, of " + compact(int(causes[0].N), 4) + " " + PluralOf(int(causes[0].N), "double", "doubles")
	}
	decimals := lossDecimals(causes)
	var shares, losses []float64
	for _, cause := range causes {
		share := groupMark{value: cause.StartedShare, lo: cause.StartedLo, hi: cause.StartedHi, benchmark: math.NaN(), n: cause.N, fill: blue}
		lost := groupMark{value: cause.LostPerRound, lo: cause.LostPerRoundLo, hi: cause.LostPerRoundHi, benchmark: math.NaN(), n: cause.N, mark: diamond, fill: vermilion}
		t.rows = append(t.rows, tableRow{
			name: cause.part.name, apart: cause.GroupKind == metrics.ByPenalty, few: share.few(),
			cells: []string{compact(int(cause.Started), 4), Number(cause.LostPerRound, decimals)},
			marks: [][]groupMark{{share}, {lost}},
		})
		shares, losses = append(shares, share.drawn()...), append(losses, lost.drawn()...)
	}
	shareAxis, shareStep := spanning(sharesFrom, sharesTo, mostShares, 0.1, shares...)
	lossAxis, lossStep := spanning(lossesFrom, lossesTo, mostLosses, 0.1, losses...)
	t.panels = []rowPanel{
		{axis: shareAxis, step: shareStep, print: percentTick, unit: "of doubles or worse started"},
		{axis: lossAxis, step: lossStep, print: Number, unit: "strokes lost in them a round"},
	}
	return t
}
