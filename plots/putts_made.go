package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
	"roundmill/metrics/estimate"
)

const (
	puttsMadeName = "putts-made"

	fewestPutts = 5 // under this there is no picture of putts
)

// PuttsMadeChart draws the share of putts made by length with 90 % intervals
// beside the benchmark's share from the same lengths, the curve of the player's
// start line and pace through them, and under it what line and pace cost
// against the benchmark's; neither is drawn of so few rounds that there is no
// interval. Rows of other players are left out. Exactly one of the results is not
// nil.
func PuttsMadeChart(season Season, rows []metrics.Putting, models []metrics.PuttingModel) (*Chart, *Missing) {
	picture := puttsMadePicture{}
	words := puttsMadeWords{season: season}
	var lengths []puttLength
	for _, row := range rows {
		switch {
		case row.Player != season.Player || row.N == 0:
		case math.IsNaN(row.FromFt):
			words.all = row
		default:
			picture.rows = append(picture.rows, row)
			lengths = append(lengths, puttLength{row.FromFt, row.ToFt})
		}
	}
	if words.all.N < fewestPutts {
		return nil, &Missing{puttsMadeName, puttsMissing(int(words.all.N))}
	}
	picture.columns = newPuttColumns(season.Units, lengths)
	words.columns, words.rows = picture.columns, picture.rows
	for _, model := range models {
		if model.Player == season.Player && !season.fewRounds() && !math.IsNaN(model.StartLineDeg+model.PacePct) {
			words.parts = puttParts(model)
			words.fitted = true
			picture.curve = estimate.LineAndPacePutting{
				StartLineRad: model.StartLineDeg * math.Pi / 180, PaceError: model.PacePct / 100,
			}.ShareMade
		}
	}
	picture.costs = puttCosts(words.parts)
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(puttsMadeName, text, picture.height(), picture.draw), nil
}

// puttPart is start line, pace, or both: what it is, and what it costs a round
// that it is not the benchmark's.
type puttPart struct {
	name           string
	own, benchmark string // as printed
	cost, lo, hi   float64
}

func (p puttPart) hasInterval() bool { return !math.IsNaN(p.cost + p.lo + p.hi) }
func (p puttPart) costs() bool       { return p.hasInterval() && p.lo > 0 }
func (p puttPart) saves() bool       { return p.hasInterval() && p.hi < 0 }

func (p puttPart) decimals() int {
	return max(1, IntervalDecimals(p.cost, p.lo, p.hi))
}

// amount is what the part costs or saves, for sentences that say which.
func (p puttPart) amount() string {
	return putts(Number(math.Abs(p.cost), p.decimals()))
}

func puttParts(m metrics.PuttingModel) []puttPart {
	measured := func(value, lo, hi float64, unit string) string {
		decimals := min(1, Decimals(value, hi-lo))
		if math.IsNaN(lo + hi) {
			return Number(value, 1) + unit
		}
		return fmt.Sprintf("%s%s (%s to %s)", Number(value, decimals), unit, Number(lo, decimals), Number(hi, decimals))
	}
	other := func(value float64, unit string) string {
		if math.IsNaN(value) {
			return "–"
		}
		return Number(value, 1) + unit
	}
	return []puttPart{
		{"Start line", measured(m.StartLineDeg, m.StartLineLoDeg, m.StartLineHiDeg, "°"), other(m.BaselineLineDeg, "°"), m.LineGain, m.LineGainLo, m.LineGainHi},
		{"Pace", measured(m.PacePct, m.PaceLoPct, m.PaceHiPct, NoBreak+"%"), other(m.BaselinePacePct, NoBreak+"%"), m.PaceGain, m.PaceGainLo, m.PaceGainHi},
		{"Both", "", "", m.BothGain, m.BothGainLo, m.BothGainHi},
	}
}

// puttCosts is the table of what line and pace are and cost; it has no rows
// where the putts do not tell them apart.
func puttCosts(parts []puttPart) rowTable {
	const ownEnd, benchmarkEnd, costEnd, panelStart = vg.Length(206), vg.Length(286), vg.Length(348), vg.Length(370)
	t := rowTable{
		pitch:   24,
		columns: []rowColumn{{ownEnd, "player's spread", true}, {benchmarkEnd, "benchmark's", false}, {costEnd, "costs", true}},
	}
	var ends []float64
	for _, part := range parts {
		t.rows = append(t.rows, tableRow{
			name: part.name, cells: []string{part.own, part.benchmark, Signed(part.cost, part.decimals())},
			marks: [][]groupMark{{differenceMark(part.cost, part.lo, part.hi, math.MaxInt64, vermilion, blue)}},
		})
		ends = append(ends, part.cost, part.lo, part.hi)
	}
	axis, step := spanning(panelStart, chartWidth-margin-8, 4, 0.2, ends...)
	t.panels = []rowPanel{{axis: axis, step: step, print: Signed, unit: "putts a round against the benchmark"}}
	return t
}

// puttsMadePicture is the layout of the chart: shares by length with their
// figures, and the table of line and pace under them.
type puttsMadePicture struct {
	columns puttColumns
	rows    []metrics.Putting
	curve   func(feet float64) float64 // nil for none
	costs   rowTable
}

const puttFigureLines = 3

func (p puttsMadePicture) height() vg.Length {
	height := p.columns.height(puttFigureLines)
	if len(p.costs.rows) > 0 {
		height += p.costs.height()
	}
	return height
}

func (p puttsMadePicture) draw(c *canvas, top vg.Length) {
	p.columns.drawGround(c, top)
	if p.curve != nil {
		p.columns.drawCurve(c, top, p.curve)
	}
	axis := p.columns.shares(top)
	base := axis.start + firstFigures
	for i, head := range []string{"made, %", "benchmark, %", "putts"} {
		c.text(margin, base+figureLine*vg.Length(i), fromLeft, quiet, head)
	}
	for _, row := range p.rows {
		x := p.columns.middle(row.FromFt)
		mark := groupMark{value: row.Made, lo: row.MadeLo, hi: row.MadeHi, benchmark: row.BaselineMade, n: row.N, fill: blue}
		mark.draw(c, axis, x, true)
		figure := strong.in(gainText)
		if mark.few() {
			figure = body.in(grey)
		}
		c.text(x, base, centred, figure, sharePrinted(row.NMade, row.N))
		c.text(x, base+figureLine, centred, quiet, wholePercent(row.BaselineMade))
		c.text(x, base+2*figureLine, centred, quiet, compact(int(row.N), 4))
	}
	if len(p.costs.rows) > 0 {
		p.costs.draw(c, top+p.columns.height(puttFigureLines))
	}
}
