package plots

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const missPatternName = "miss-pattern"

// The green that is drawn where the log names no size.
const (
	usualGreenDepthYd = 30
	usualGreenWidthYd = 25
)

// missPanel is one yardage band with logged misses.
type missPanel struct{ metrics.MissPattern }

func (p missPanel) few() bool { return p.N < fewestSolid }

func (p missPanel) hasInterval() bool {
	return !p.few() && !math.IsNaN(p.RightLoYd+p.RightHiYd+p.LongLoYd+p.LongHiYd)
}

// green is the depth and width drawn, and whether both are from the log.
func (p missPanel) green() (depthYd, widthYd float64, logged bool) {
	depthYd, widthYd = p.GreenDepthYd, p.GreenWidthYd
	logged = depthYd > 0 && widthYd > 0
	if !(depthYd > 0) {
		depthYd = usualGreenDepthYd
	}
	if !(widthYd > 0) {
		widthYd = usualGreenWidthYd
	}
	return depthYd, widthYd, logged
}

// MissPatternChart draws where approaches finish around the hole, a small panel
// for each yardage band, all on one scale that is the same along and across:
// every shot, the ellipses that hold half and 90 % of such shots, their mean,
// and a green to scale. Rows of other players are left out.
// Exactly one of the results is not nil.
func MissPatternChart(season Season, rows []metrics.MissPattern) (*Chart, *Missing) {
	words := missPatternWords{season: season}
	shots := 0
	for _, row := range rows {
		if row.Player == season.Player && row.N > 0 {
			words.panels = append(words.panels, missPanel{row})
			shots += int(row.N)
		}
	}
	if shots < fewestApproaches {
		return nil, &Missing{missPatternName, missesMissing(shots)}
	}
	picture := newMissPicture(season.Units, words.panels)
	text := chartText{words.title(), words.counted(), words.source(picture.beyond), words.alt()}
	return laidOut(missPatternName, text, picture.height(), picture.draw), nil
}

// missPicture is the layout of the chart: panels in rows of as many as fit.
type missPicture struct {
	units   Units
	panels  []missPanel
	reach   float64 // from the hole to the edge of a panel, in the units seen
	beyond  int     // shots that lie beyond it
	columns int
	side    vg.Length // of a panel
}

const (
	missStart       = vg.Length(52)
	missGap         = vg.Length(12)
	mostMissColumns = 4
	widestMissPanel = vg.Length(210)
	missHeads       = vg.Length(34)
	missTicksHeight = vg.Length(18)
	missAxisHeight  = vg.Length(16)
)

func newMissPicture(units Units, panels []missPanel) missPicture {
	p := missPicture{units: units, panels: panels, columns: min(len(panels), mostMissColumns)}
	if len(panels) > mostMissColumns && len(panels)%mostMissColumns == 1 && len(panels)%3 != 1 {
		p.columns = 3
	}
	p.side = min(widestMissPanel, (bandsEnd-missStart+missGap)/vg.Length(p.columns)-missGap)
	var farthest []float64 // of each shot, along or across
	for _, panel := range panels {
		for _, miss := range panel.Misses {
			farthest = append(farthest, units.FromYards(max(math.Abs(miss.RightYd), math.Abs(miss.LongYd))))
		}
	}
	slices.Sort(farthest)
	p.reach = farthest[(len(farthest)-1)*97/100]
	for _, panel := range panels {
		depth, width, _ := panel.green()
		p.reach = max(p.reach, units.FromYards(max(depth, width)/2))
		if !panel.few() {
			for _, place := range ellipse(panel, panel.Most, panel.MostMinor) {
				p.reach = max(p.reach, units.FromYards(math.Abs(place.RightYd)), units.FromYards(math.Abs(place.LongYd)))
			}
		}
	}
	p.reach *= 1.06
	p.beyond = beyond(farthest, p.reach)
	return p
}

// ellipse is the outline of a panel's ellipse with these half-axes.
func ellipse(panel missPanel, major, minor float64) []metrics.Miss {
	const corners = 72
	places := make([]metrics.Miss, corners)
	sin, cos := math.Sincos(panel.TurnDeg * math.Pi / 180)
	for i := range places {
		y, x := math.Sincos(2 * math.Pi * float64(i) / corners)
		places[i] = metrics.Miss{
			RightYd: panel.RightMeanYd + cos*major*x - sin*minor*y,
			LongYd:  panel.LongMeanYd + sin*major*x + cos*minor*y,
		}
	}
	return places
}

func (p missPicture) rows() int { return (len(p.panels) + p.columns - 1) / p.columns }

func (p missPicture) height() vg.Length {
	return vg.Length(p.rows())*(missHeads+p.side+missTicksHeight) + missAxisHeight
}

func (p missPicture) draw(c *canvas, top vg.Length) {
	for i, panel := range p.panels {
		left := missStart + vg.Length(i%p.columns)*(p.side+missGap)
		y := top + vg.Length(i/p.columns)*(missHeads+p.side+missTicksHeight) + missHeads
		across := scale{from: -p.reach, to: p.reach, start: left, end: left + p.side}
		along := scale{from: -p.reach, to: p.reach, start: y + p.side, end: y}
		p.drawPanel(c, panel, across, along)
		p.drawTicks(c, across, along, i%p.columns == 0)
	}
	c.text(margin, top+p.height()-4, fromLeft, quiet, p.units.Long()+" from the hole: right (+) or left ("+minus+") along the foot, long (+) or short ("+minus+") up the side")
}

func (p missPicture) drawTicks(c *canvas, across, along scale, first bool) {
	step := tickStep(2*p.reach, 6)
	for _, tick := range across.ticks(step) {
		if across.at(tick) > across.start+8 && across.at(tick) < across.end-8 {
			c.text(across.at(tick), along.start+12, centred, quiet, tickPrinted(tick, step, Signed))
		}
	}
	if !first {
		return
	}
	for _, tick := range along.ticks(step) {
		c.text(across.start-6, along.at(tick)+quiet.middle(), fromRight, quiet, tickPrinted(tick, step, Signed))
	}
}

func (p missPicture) drawPanel(c *canvas, panel missPanel, across, along scale) {
	at := func(miss metrics.Miss) vg.Point {
		return vg.Point{X: across.at(p.units.FromYards(miss.RightYd)), Y: along.at(p.units.FromYards(miss.LongYd))}
	}
	outline := func(places []metrics.Miss) []vg.Point {
		var points []vg.Point
		for _, place := range places {
			points = append(points, at(place))
		}
		return append(points, points[0])
	}
	words := missPatternWords{season: Season{Units: p.units}}
	c.text(across.start, along.end-20, fromLeft, strong, p.units.Band(panel.BandFromYd, panel.BandToYd)+NoBreak+p.units.LongSymbol())
	c.text(across.end, along.end-20, fromRight, quiet, Counted(int(panel.N), "shot", "shots"))
	c.text(across.start, along.end-6, fromLeft, quiet, words.leaning(panel))

	depth, width, _ := panel.green()
	green := missPanel{metrics.MissPattern{TurnDeg: 0}}
	c.polygon(outline(ellipse(green, width/2, depth/2)), tint(bluishGreen, 0.16))
	c.line(across.start, along.at(0), across.end, along.at(0), 0.6, paleGrey)
	c.line(across.at(0), along.start, across.at(0), along.end, 0.6, paleGrey)
	c.polyline(outline(ellipse(green, width/2, depth/2)), 0.7, bluishGreen)

	diameter, fill := vg.Length(2.6), translucent(blue, 0.6)
	if len(panel.Misses) > 300 {
		diameter, fill = 1.8, translucent(blue, 0.4)
	}
	for _, miss := range panel.Misses {
		place := at(miss)
		x, y := min(max(place.X, across.start), across.end), min(max(place.Y, along.end), along.start)
		switch {
		case x != place.X || y != place.Y:
			c.ring(square, x, y, 3.4, 0.7, grey)
		case panel.few():
			c.ring(circle, x, y, 3.4, 0.7, tint(blue, 0.66))
		default:
			c.mark(circle, x, y, diameter, fill, 0, nil)
		}
	}
	mean := at(metrics.Miss{RightYd: panel.RightMeanYd, LongYd: panel.LongMeanYd})
	if panel.few() {
		return
	}
	c.polyline(outline(ellipse(panel, panel.Half, panel.HalfMinor)), 1.5, blue)
	c.polyline(outline(ellipse(panel, panel.Most, panel.MostMinor)), 0.9, blue)
	c.mark(diamond, mean.X, mean.Y, 6, vermilion, 1, color.White)
}
