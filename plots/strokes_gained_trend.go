package plots

import (
	"math"
	"slices"
	"time"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	strokesGainedTrendName = "strokes-gained-trend"

	fewestTrendRounds = metrics.TrendWindow + 2 // three windows: under this there is no line
)

// trendPanel is one class of strokes over the season.
type trendPanel struct {
	part   gamePart
	rounds []metrics.Trend // in order
	change *metrics.TrendChange
}

// last is the window that ends with the season.
func (p trendPanel) last() metrics.Trend { return p.rounds[len(p.rounds)-1] }

// StrokesGainedTrendChart draws rolling strokes gained by class over the
// rounds of a season, one panel above the other on a common scale: every
// round, the mean of the last ten with its 90 % interval, and in words what
// changed from before to after the split. Rows of other players are left out.
// Exactly one of the results is not nil.
func StrokesGainedTrendChart(season Season, rows []metrics.Trend, changes []metrics.TrendChange) (*Chart, *Missing) {
	words := trendWords{season: season}
	changeOf := func(class string) *metrics.TrendChange {
		i := slices.IndexFunc(changes, func(c metrics.TrendChange) bool { return c.Player == season.Player && c.Class == class })
		if i < 0 || math.IsNaN(changes[i].Change) {
			return nil
		}
		return &changes[i]
	}
	most := 0
	for _, part := range gameParts {
		panel := trendPanel{part: part, change: changeOf(part.class)}
		for _, row := range rows {
			if row.Player == season.Player && row.Class == part.class && !math.IsNaN(row.RoundGained) {
				panel.rounds = append(panel.rounds, row)
			}
		}
		most = max(most, len(panel.rounds))
		if len(panel.rounds) >= fewestTrendRounds {
			words.panels = append(words.panels, panel)
		}
	}
	words.all = changeOf("all")
	if len(words.panels) == 0 {
		return nil, &Missing{strokesGainedTrendName, trendMissing(most)}
	}
	picture := trendPicture{words: words}
	picture.low, picture.high = picture.reach()
	text := chartText{words.title(), words.counted(), words.source(picture.beyond()), words.alt()}
	return laidOut(strokesGainedTrendName, text, picture.height(), picture.draw), nil
}

// trendPicture is the layout of the chart, from left to right: name and the
// last window, the panel, before and after in words.
type trendPicture struct {
	words     trendWords
	low, high float64 // ends of the common scale
}

const (
	trendStart      = vg.Length(128)
	trendEnd        = vg.Length(396)
	changeStart     = vg.Length(408)
	trendHeads      = vg.Length(16)
	trendHeight     = vg.Length(78)
	trendGap        = vg.Length(16)
	trendAxisHeight = vg.Length(32)
	trendAllHeight  = vg.Length(30)
)

func (p trendPicture) height() vg.Length {
	n := vg.Length(len(p.words.panels))
	height := trendHeads + n*trendHeight + (n-1)*trendGap + trendAxisHeight
	if p.words.all != nil {
		height += trendAllHeight
	}
	return height
}

// reach is from where to where the common scale goes: over every interval and
// nine of ten rounds, and zero.
func (p trendPicture) reach() (low, high float64) {
	var rounds []float64
	for _, panel := range p.words.panels {
		for _, row := range panel.rounds {
			rounds = append(rounds, row.RoundGained)
			if !math.IsNaN(row.PerRoundLo + row.PerRoundHi) {
				low, high = min(low, row.PerRoundLo), max(high, row.PerRoundHi)
			}
		}
	}
	slices.Sort(rounds)
	low = min(low, rounds[len(rounds)*5/100])
	high = max(high, rounds[(len(rounds)-1)*95/100])
	margin := 0.04 * max(high-low, 0.5)
	return low - margin, high + margin
}

// beyond is how many rounds lie beyond the scale.
func (p trendPicture) beyond() (n int) {
	for _, panel := range p.words.panels {
		for _, row := range panel.rounds {
			if row.RoundGained < p.low || row.RoundGained > p.high {
				n++
			}
		}
	}
	return n
}

// across places round numbers.
func (p trendPicture) across() scale {
	last := p.words.panels[0].last().Number
	return scale{from: 0.5, to: float64(last) + 0.5, start: trendStart, end: trendEnd}
}

func (p trendPicture) draw(c *canvas, top vg.Length) {
	x := p.across()
	c.text(margin, top+trendHeads-6, fromLeft, quiet, "last 10 rounds")
	bottom := top + trendHeads + vg.Length(len(p.words.panels))*(trendHeight+trendGap) - trendGap
	if change := p.words.panels[0].change; change != nil {
		split := x.at(float64(change.BeforeRounds) + 0.5)
		c.line(split, top+trendHeads-14, split, bottom, 0.8, paleGrey)
		c.text(split-5, top+trendHeads-6, fromRight, quiet, "before")
		c.text(split+5, top+trendHeads-6, fromLeft, quiet, "after")
	}
	y := top + trendHeads
	for _, panel := range p.words.panels {
		p.drawPanel(c, panel, x, scale{from: p.low, to: p.high, start: y + trendHeight, end: y})
		y += trendHeight + trendGap
	}
	p.drawRounds(c, x, bottom)
	if p.words.all != nil {
		y = bottom + trendAxisHeight
		c.line(margin, y+8, chartWidth-margin, y+8, 0.6, paleGrey)
		c.text(margin, y+25, fromLeft, strong, "All strokes")
		c.text(trendStart, y+25, fromLeft, quiet, beforeAndAfter(*p.words.all)+"; change "+changed(*p.words.all)+", "+byChance(*p.words.all))
	}
}

func (p trendPicture) drawPanel(c *canvas, panel trendPanel, x, y scale) {
	step := tickStep(y.to-y.from, 4)
	for _, tick := range y.ticks(step) {
		width, stroke := vg.Length(0.6), hairline
		if tick == 0 {
			width, stroke = 1, ink
		}
		c.line(x.start, y.at(tick), x.end, y.at(tick), width, stroke)
		c.text(x.start-6, y.at(tick)+quiet.middle(), fromRight, quiet, tickPrinted(tick, step, Signed))
	}
	var line, upper, lower []vg.Point
	for _, row := range panel.rounds {
		at := x.at(float64(row.Number))
		gained := min(max(row.RoundGained, y.from), y.to)
		if gained == row.RoundGained {
			c.mark(circle, at, y.at(gained), 2.6, paleGrey, 0, nil)
		} else {
			c.ring(circle, at, y.at(gained), 3.4, 0.7, paleGrey)
		}
		if math.IsNaN(row.PerRound + row.PerRoundLo + row.PerRoundHi) {
			continue
		}
		line = append(line, vg.Point{X: at, Y: y.at(row.PerRound)})
		upper = append(upper, vg.Point{X: at, Y: y.at(row.PerRoundHi)})
		lower = append(lower, vg.Point{X: at, Y: y.at(row.PerRoundLo)})
	}
	slices.Reverse(lower)
	c.polygon(slices.Concat(upper, lower), translucent(blue, 0.24))
	c.polyline(line, 1.8, blue)

	top := y.end + 11
	c.text(margin, top, fromLeft, strong, panel.part.name)
	if last := panel.last(); !math.IsNaN(last.PerRound) {
		c.text(margin, top+16, fromLeft, valueLabel.in(blue), lastWindow(last))
		c.text(margin, top+30, fromLeft, quiet, windowInterval(last))
	}
	if panel.change != nil {
		c.text(changeStart, top, fromLeft, quiet, beforeAndAfter(*panel.change))
		c.text(changeStart, top+14, fromLeft, quiet.in(ink), "change "+changed(*panel.change))
		c.text(changeStart, top+28, fromLeft, quiet, byChance(*panel.change))
	}
}

// drawRounds writes round numbers under the last panel, and when the first and
// the last were played.
func (p trendPicture) drawRounds(c *canvas, x scale, bottom vg.Length) {
	rounds := p.words.panels[0].rounds
	step := max(1, tickStep(x.to-x.from, 7))
	for _, tick := range x.ticks(step) {
		if tick > 0 {
			c.text(x.at(tick), bottom+13, centred, quiet, Count(int(tick)))
		}
	}
	c.text(margin, bottom+13, fromLeft, quiet, "round")
	c.text(x.start, bottom+28, fromLeft, quiet, day(rounds[0].Date))
	c.text(x.end, bottom+28, fromRight, quiet, day(rounds[len(rounds)-1].Date))
}

// day is a day as people write it.
func day(date time.Time) string { return date.Format("2" + NoBreak + "Jan" + NoBreak + "2006") }
