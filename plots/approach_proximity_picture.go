package plots

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

// approachProximityPicture is the layout of the approach chart: bands from left to right
// over a scale of distances, three lines of figures under it. More bands than
// fit go on in further tiers below, on the same scale.
type approachProximityPicture struct {
	units    Units
	tiers    [][]approachBand
	to       float64   // end of the scale, in the units seen
	start    vg.Length // left edge of the first band
	pitch    vg.Length // from band to band
	lies     int       // distributions side by side in a band
	diameter vg.Length // of a dot
	hills    bool      // large groups are drawn as densities
	peak     float64   // highest density of all
}

type approachBand []approachGroup

const (
	bandsStart        = vg.Length(94)
	bandsEnd          = chartWidth - margin
	widestStrip       = vg.Length(64)
	mostBandsInTier   = 9
	bandGap           = vg.Length(8)
	barWidth          = vg.Length(5)
	besideBar         = vg.Length(1) // between a bar and the spine, and the dots
	lieNames          = vg.Length(13)
	beyondLine        = vg.Length(15)
	figureLine        = vg.Length(14)
	figuresHeight     = vg.Length(20) + 3*figureLine
	tierGap           = vg.Length(16)
	mostApproachTicks = 6
)

func newApproachProximityPicture(units Units, groups []approachGroup, to float64) approachProximityPicture {
	p := approachProximityPicture{units: units, to: to, lies: 2}
	var bands []approachBand
	for i, group := range groups {
		if i == 0 || group.BandFromYd != groups[i-1].BandFromYd {
			bands = append(bands, nil)
		}
		bands[len(bands)-1] = append(bands[len(bands)-1], group)
		if group.look.mark == square {
			p.lies = 3
		}
	}
	tiers := (len(bands) + mostBandsInTier - 1) / mostBandsInTier
	p.tiers = slices.Collect(slices.Chunk(bands, (len(bands)+tiers-1)/tiers))
	columns := vg.Length(len(p.tiers[0]))
	p.pitch = min(widestStrip*vg.Length(p.lies)+bandGap, (bandsEnd-bandsStart)/columns)
	p.start = bandsStart + (bandsEnd-bandsStart-columns*p.pitch)/2

	p.hills = slices.ContainsFunc(groups, func(g approachGroup) bool {
		return tooManyForDots(g.finishes, p.scaleFrom(0), p.room())
	})
	var dotted [][]float64
	for _, group := range groups {
		if p.asHill(group) {
			p.peak = max(p.peak, slices.Max(smoothed(group.finishes, to)))
		} else {
			dotted = append(dotted, group.finishes)
		}
	}
	p.diameter = dotDiameter(dotted, p.scaleFrom(0), p.room())
	return p
}

// scaleHeight is the height of the scale of one tier.
func (p approachProximityPicture) scaleHeight() vg.Length {
	if len(p.tiers) > 1 {
		return 150
	}
	return 212
}

func (p approachProximityPicture) tierHeight() vg.Length {
	return beyondLine + p.scaleHeight() + figuresHeight
}

func (p approachProximityPicture) height() vg.Length {
	n := vg.Length(len(p.tiers))
	return lieNames + n*p.tierHeight() + (n-1)*tierGap
}

// scaleFrom is the scale of a tier whose upper edge is at y.
func (p approachProximityPicture) scaleFrom(top vg.Length) scale {
	return scale{from: 0, to: p.to, start: top + beyondLine + p.scaleHeight(), end: top + beyondLine}
}

// strip is the width of one distribution with its bar.
func (p approachProximityPicture) strip() vg.Length { return (p.pitch - bandGap) / vg.Length(p.lies) }

// room is what dots or a density may take of a strip.
func (p approachProximityPicture) room() vg.Length { return p.strip() - barWidth - 3*besideBar }

// bar is the middle of a group's bar in the band that starts at left, and the
// way in which its dots go from there.
func (p approachProximityPicture) bar(left vg.Length, look lieLook) (x, way vg.Length) {
	spine := left + bandGap/2 + p.strip()
	switch look.mark {
	case circle:
		return spine - besideBar - barWidth/2, -1
	case diamond:
		return spine + besideBar + barWidth/2, 1
	default:
		return spine + p.strip() + 2*besideBar + barWidth/2, 1
	}
}

// figuresAt is the middle of a group's figures: under its dots, and not far
// from its bar.
func (p approachProximityPicture) figuresAt(left vg.Length, look lieLook) vg.Length {
	const farthest = vg.Length(28)
	bar, way := p.bar(left, look)
	return bar + way*min(farthest, p.strip()/2-barWidth/2+besideBar)
}

// asHill says whether a group is drawn as a density: where one group has to be,
// all are that are large enough for an outline to be trusted.
func (p approachProximityPicture) asHill(group approachGroup) bool {
	return p.hills && len(group.finishes) >= fewestForHill
}

func (p approachProximityPicture) draw(c *canvas, top vg.Length) {
	c.text(margin, top+lieNames-4, fromLeft, quiet, p.units.Short()+" from")
	c.text(margin, top+lieNames+beyondLine-6, fromLeft, quiet, "the hole")
	p.nameLies(c, top+lieNames-3)
	top += lieNames
	for _, bands := range p.tiers {
		axis := p.scaleFrom(top)
		p.drawGrid(c, axis)
		for j, band := range bands {
			left := p.start + p.pitch*vg.Length(j)
			for _, group := range band {
				p.drawGroup(c, axis, group, left)
			}
		}
		p.drawFigures(c, bands, axis.start)
		top += p.tierHeight() + tierGap
	}
}

func (p approachProximityPicture) drawGrid(c *canvas, axis scale) {
	step := tickStep(p.to, mostApproachTicks)
	for _, tick := range axis.ticks(step) {
		y := axis.at(tick)
		width, stroke := vg.Length(0.6), hairline
		if tick == 0 {
			width, stroke = 0.9, paleGrey
		}
		c.line(bandsStart, y, bandsEnd, y, width, stroke)
		c.text(bandsStart-6, y+quiet.middle(), fromRight, quiet, tickPrinted(tick, step, Number))
	}
}

func (p approachProximityPicture) drawGroup(c *canvas, axis scale, group approachGroup, left vg.Length) {
	bar, way := p.bar(left, group.look)
	edge := bar + way*(barWidth/2+besideBar)
	if p.asHill(group) {
		p.drawHill(c, axis, group, edge, way)
	} else {
		p.drawDots(c, axis, group, edge, way)
	}
	p.drawSummary(c, axis, group, bar)
	if n := beyond(group.finishes, p.to); n > 0 {
		c.text(p.figuresAt(left, group.look), axis.end-6, centred, quiet.in(group.look.text), "▲"+compact(n, 3))
	}
}

func (p approachProximityPicture) drawDots(c *canvas, axis scale, group approachGroup, edge, way vg.Length) {
	stack := stacked(group.finishes, axis, p.diameter)
	step := stack.step(p.diameter, p.room())
	for i, place := range stack.places {
		y := axis.at(place)
		for level := range stack.heights[i] {
			x := edge + way*(p.diameter/2+vg.Length(level)*step)
			if group.few() {
				c.ring(group.look.mark, x, y, p.diameter, 0.6, tint(group.look.fill, 0.66))
			} else {
				c.mark(group.look.mark, x, y, p.diameter-0.4, tint(group.look.fill, 0.66), 0, nil)
			}
		}
	}
}

// drawHill draws a density from its nearest to its farthest finish, at least as
// thick as a hairline there, so that lone shots are seen.
func (p approachProximityPicture) drawHill(c *canvas, axis scale, group approachGroup, edge, way vg.Length) {
	const hair = vg.Length(0.5)
	nearest, farthest := group.finishes[0], min(group.finishes[len(group.finishes)-1], p.to)
	corners := []vg.Point{{X: edge, Y: axis.at(nearest)}}
	for i, share := range smoothed(group.finishes, p.to) {
		if v := float64(i) * p.to / densitySteps; nearest <= v && v <= farthest {
			thickness := max(hair, vg.Length(share/p.peak)*p.room())
			corners = append(corners, vg.Point{X: edge + way*thickness, Y: axis.at(v)})
		}
	}
	corners = append(corners, vg.Point{X: edge, Y: axis.at(farthest)})
	c.polygon(corners, tint(group.look.fill, 0.45))
}

// drawSummary draws the middle half, the median's interval and the median, as
// far as the scale reaches.
func (p approachProximityPicture) drawSummary(c *canvas, axis scale, group approachGroup, bar vg.Length) {
	at := func(ft float64) vg.Length { return axis.at(min(p.units.FromFeet(ft), p.to)) }
	const diameter, rim = vg.Length(6.2), vg.Length(1)
	visible := p.units.FromFeet(group.MedianFt) <= p.to
	if group.few() {
		if visible {
			c.mark(group.look.mark, bar, at(group.MedianFt), diameter-1, color.White, 0.9, tint(group.look.fill, 0.7))
		}
		return
	}
	if !math.IsNaN(group.P25Ft + group.P75Ft) {
		c.rectangle(bar-barWidth/2, at(group.P25Ft), bar+barWidth/2, at(group.P75Ft), tint(group.look.fill, 0.3))
	}
	if group.hasInterval() {
		c.line(bar, at(group.MedianLoFt), bar, at(group.MedianHiFt), 2.2, group.look.fill)
	}
	if visible {
		c.mark(group.look.mark, bar, at(group.MedianFt), diameter, group.look.fill, rim, color.White)
	}
}

// nameLies writes the name of each lie once, over the first band.
func (p approachProximityPicture) nameLies(c *canvas, base vg.Length) {
	const fromSpine = vg.Length(2)
	for _, look := range lieLooks[:p.lies] {
		bar, way := p.bar(p.start, look)
		a := fromLeft
		if way < 0 {
			a = fromRight
		}
		c.text(bar-way*(barWidth/2+besideBar-fromSpine), base, a, strong.in(look.text), look.group)
	}
}

func (p approachProximityPicture) drawFigures(c *canvas, bands []approachBand, bottom vg.Length) {
	bandBase := bottom + 15
	medianBase := bandBase + figureLine + 3
	greenBase, shotsBase := medianBase+figureLine, medianBase+2*figureLine
	green := "on the green"
	if slices.ContainsFunc(slices.Concat(bands...), func(g approachGroup) bool { return !g.few() }) {
		green += ", %"
	}
	for _, head := range []struct {
		base vg.Length
		text string
	}{
		{bandBase, p.units.Long() + " out"},
		{medianBase, "median, " + p.units.ShortSymbol()},
		{greenBase, green},
		{shotsBase, "shots"},
	} {
		c.text(margin, head.base, fromLeft, quiet, head.text)
	}
	for i, band := range bands {
		left := p.start + p.pitch*vg.Length(i)
		c.text(left+p.pitch/2, bandBase, centred, strong, p.units.Band(band[0].BandFromYd, band[0].BandToYd))
		for _, group := range band {
			x := p.figuresAt(left, group.look)
			figure := strong.in(group.look.text)
			if group.few() {
				figure = body.in(grey)
			}
			c.text(x, medianBase, centred, figure, medianPrinted(group.ApproachProximity, p.units))
			c.text(x, greenBase, centred, quiet, greenPrinted(group.ApproachProximity))
			c.text(x, shotsBase, centred, quiet, compact(int(group.N), 4))
		}
	}
}
