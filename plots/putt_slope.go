package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const puttSlopeName = "putt-slope"

// slopeLooks are the slopes that are drawn side by side.
var slopeLooks = [...]lieLook{
	{"uphill", circle, blue, blue},
	{"downhill", diamond, vermilion, lossText},
}

// PuttSlopeChart draws the share of putts made uphill beside downhill by
// length, and under it the differences at like length, by slope and by break as
// far as they are logged. Rows of other players are left out. Exactly one of the
// results is not nil.
func PuttSlopeChart(season Season, grounds []metrics.PuttingGround, differences []metrics.PuttingGroundDifference) (*Chart, *Missing) {
	words := puttSlopeWords{season: season}
	var lengths []puttLength
	for _, row := range grounds {
		switch look := slopeLook(row.Ground); {
		case row.Player != season.Player || row.Kind != metrics.BySlope:
		case math.IsNaN(row.FromFt):
			words.putts += int(row.N)
		case look != nil:
			words.rows = append(words.rows, row)
			lengths = append(lengths, puttLength{row.FromFt, row.ToFt})
		}
	}
	for _, row := range differences {
		if row.Player == season.Player {
			words.differences = append(words.differences, row)
		}
	}
	if reason := words.missing(); reason != "" {
		return nil, &Missing{puttSlopeName, reason}
	}
	words.columns = newPuttColumns(season.Units, lengths)
	picture := puttSlopePicture{columns: words.columns, rows: words.rows, differences: slopeDifferences(words.differences)}
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(puttSlopeName, text, picture.height(), picture.draw), nil
}

func slopeLook(ground string) *lieLook {
	for i := range slopeLooks {
		if slopeLooks[i].group == ground {
			return &slopeLooks[i]
		}
	}
	return nil
}

// puttSlopePicture is the layout of the chart: shares by length with figures
// for each slope, and the table of differences under them.
type puttSlopePicture struct {
	columns     puttColumns
	rows        []metrics.PuttingGround
	differences rowTable
}

const slopeFigureLines = 2 * len(slopeLooks)

func (p puttSlopePicture) height() vg.Length {
	return p.columns.height(slopeFigureLines) + p.differences.height()
}

func (p puttSlopePicture) draw(c *canvas, top vg.Length) {
	const fromMiddle, keyDiameter = vg.Length(5.5), vg.Length(7)
	p.columns.drawGround(c, top)
	axis := p.columns.shares(top)
	line := func(slope, part int) vg.Length {
		return axis.start + firstFigures + figureLine*vg.Length(2*slope+part)
	}
	for i, look := range slopeLooks {
		c.mark(look.mark, margin+keyDiameter/2, line(i, 0)-quiet.middle(), keyDiameter, look.fill, 0, nil)
		c.text(margin+keyDiameter+5, line(i, 0), fromLeft, quiet.in(look.text), look.group+", %")
		c.text(margin+keyDiameter+5, line(i, 1), fromLeft, quiet, "putts")
	}
	for _, row := range p.rows {
		look := slopeLook(row.Ground)
		i, shift := 0, -fromMiddle
		if look.mark == diamond {
			i, shift = 1, fromMiddle
		}
		x := p.columns.middle(row.FromFt)
		mark := groupMark{value: row.Made, lo: row.MadeLo, hi: row.MadeHi, benchmark: math.NaN(), n: row.N, mark: look.mark, fill: look.fill}
		mark.draw(c, axis, x+shift, true)
		figure := strong.in(look.text)
		if mark.few() {
			figure = body.in(grey)
		}
		c.text(x, line(i, 0), centred, figure, sharePrinted(row.NMade, row.N))
		c.text(x, line(i, 1), centred, quiet, compact(int(row.N), 4))
	}
	p.differences.draw(c, top+p.columns.height(slopeFigureLines))
}

// slopeDifferences is the table of differences at like length, slopes before
// breaks.
func slopeDifferences(rows []metrics.PuttingGroundDifference) rowTable {
	const puttsEnd, madeEnd, panelStart = vg.Length(278), vg.Length(340), vg.Length(362)
	t := rowTable{
		head: "at like distance", pitch: 22,
		columns: []rowColumn{{puttsEnd, "putts", false}, {madeEnd, "of 100", true}},
	}
	var ends []float64
	for i, row := range rows {
		mark := differenceMark(100*row.Made, 100*row.MadeLo, 100*row.MadeHi, min(row.N, row.NOther), blue, vermilion)
		t.rows = append(t.rows, tableRow{
			name:  fmt.Sprintf("%s against %s", Sentence(row.Ground), row.Other),
			apart: i > 0 && row.Kind != rows[i-1].Kind, few: mark.few(),
			cells: []string{compact(int(row.N), 4) + " and " + compact(int(row.NOther), 4), inHundred(row.Made, row.MadeLo, row.MadeHi)},
			marks: [][]groupMark{{mark}},
		})
		ends = append(ends, mark.drawn()...)
	}
	axis, step := spanning(panelStart, chartWidth-margin-8, 6, 5, ends...)
	t.panels = []rowPanel{{axis: axis, step: step, print: Signed, unit: "more or fewer of 100 putts made"}}
	return t
}

// inHundred is a difference of shares as so many in a hundred, signed, with the
// digits its interval supports.
func inHundred(value, lo, hi float64) string {
	return Signed(100*value, min(1, Decimals(100*value, 100*(hi-lo))))
}
