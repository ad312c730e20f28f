package plots

import (
	"image/color"
	"math"
	"slices"
	"time"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const handicapName = "handicap"

// HandicapChart draws the estimated Handicap Index after each round over time,
// with the Score Differentials as points and the Low Handicap Index. It is an
// estimate, which the words say. Rows of other players are left out. Exactly
// one of the results is not nil.
func HandicapChart(season Season, rows []metrics.Handicap) (*Chart, *Missing) {
	words := handicapWords{season: season}
	for _, row := range rows {
		if row.Player == season.Player {
			words.rows = append(words.rows, row)
		}
	}
	picture := handicapPicture{}
	for _, row := range words.rows {
		if !math.IsNaN(row.Differential) {
			picture.scores = append(picture.scores, row)
		}
	}
	hasIndex := slices.ContainsFunc(picture.scores, func(s metrics.Handicap) bool { return !math.IsNaN(s.IndexAfter) })
	if !hasIndex {
		return nil, &Missing{handicapName, handicapMissing(words.rows, len(picture.scores))}
	}
	words.last = picture.scores[len(picture.scores)-1]
	picture.strokes = picture.scale()
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(handicapName, text, handicapHeight, picture.draw), nil
}

// handicapPicture is the layout of the chart: days from left to right, strokes
// up the side, the names of the lines at their ends.
type handicapPicture struct {
	scores  []metrics.Handicap // that count
	strokes scale              // from the upper edge of the picture
}

const (
	daysStart      = vg.Length(58)
	daysEnd        = chartWidth - margin - 72
	aboveStrokes   = vg.Length(20)
	strokesHeight  = vg.Length(230)
	handicapHeight = aboveStrokes + strokesHeight + 34
)

// scale holds every differential and every index.
func (p handicapPicture) scale() scale {
	low, high := math.Inf(1), math.Inf(-1)
	for _, score := range p.scores {
		for _, value := range []float64{score.Differential, score.IndexAfter, score.LowIndex} {
			if !math.IsNaN(value) {
				low, high = min(low, value), max(high, value)
			}
		}
	}
	room := max(0.5, 0.08*(high-low)) // also for the names at the ends of the lines
	return scale{from: low - room, to: high + room, start: aboveStrokes + strokesHeight, end: aboveStrokes}
}

// days is the scale of days, counted from the first.
func (p handicapPicture) days() scale {
	return scale{from: 0, to: max(1, p.daysIn(p.scores[len(p.scores)-1].Date)), start: daysStart + 6, end: daysEnd - 6}
}

// daysIn is how many days after the first score a day is.
func (p handicapPicture) daysIn(day time.Time) float64 {
	return day.Sub(p.scores[0].Date).Hours() / 24
}

func (p handicapPicture) draw(c *canvas, top vg.Length) {
	strokes := p.strokes
	strokes.start, strokes.end = strokes.start+top, strokes.end+top
	c.text(margin, top+aboveStrokes-10, fromLeft, quiet, "strokes, down is better")
	step := tickStep(strokes.to-strokes.from, 7)
	for _, tick := range strokes.ticks(step) {
		c.line(daysStart, strokes.at(tick), daysEnd, strokes.at(tick), 0.6, hairline)
		c.text(daysStart-8, strokes.at(tick)+quiet.middle(), fromRight, quiet, tickPrinted(tick, step, indexNumber))
	}
	p.drawDays(c, strokes.start)

	diameter := vg.Length(5)
	if many := 150; len(p.scores) > many {
		diameter = 3.4
	}
	for _, score := range p.scores {
		c.mark(circle, p.days().at(p.daysIn(score.Date)), strokes.at(score.Differential), diameter, tint(grey, 0.5), 0.5, hairline)
	}
	low := p.drawSteps(c, strokes, 1.1, vermilion, func(s metrics.Handicap) float64 { return s.LowIndex })
	index := p.drawSteps(c, strokes, 2, blue, func(s metrics.Handicap) float64 { return s.IndexAfter })

	const between = vg.Length(14) // the names at the ends of the lines
	if !math.IsNaN(low) {
		at := max(strokes.at(low), strokes.at(index)+between)
		if low > index {
			at = min(strokes.at(low), strokes.at(index)-between)
		}
		c.text(daysEnd+2, at+quiet.middle(), fromLeft, quiet.in(lossText), "low "+HandicapIndex(low))
	}
	c.text(daysEnd+2, strokes.at(index)+strong.middle(), fromLeft, strong.in(gainText), "index "+HandicapIndex(index))
}

// drawSteps draws a value that holds from a score to the next, and returns the
// last one, NaN where there is none.
func (p handicapPicture) drawSteps(c *canvas, strokes scale, width vg.Length, stroke color.Color, of func(metrics.Handicap) float64) float64 {
	var steps []vg.Point
	last := math.NaN()
	days := p.days()
	for _, score := range p.scores {
		value := of(score)
		if math.IsNaN(value) {
			continue
		}
		x := days.at(p.daysIn(score.Date))
		if !math.IsNaN(last) {
			steps = append(steps, vg.Point{X: x, Y: strokes.at(last)})
		}
		steps = append(steps, vg.Point{X: x, Y: strokes.at(value)})
		last = value
	}
	if math.IsNaN(last) {
		return last
	}
	steps = append(steps, vg.Point{X: daysEnd, Y: strokes.at(last)})
	c.polyline(steps, width, stroke)
	return last
}

// drawDays marks months, or years, under the picture, and the first and last
// day where less than two months begin between them.
func (p handicapPicture) drawDays(c *canvas, bottom vg.Length) {
	const mostTicks, yearBelow = 9, vg.Length(13)
	first, last := p.scores[0].Date, p.scores[len(p.scores)-1].Date
	days := p.days()
	c.line(daysStart, bottom, daysEnd, bottom, 0.9, paleGrey)
	mark := func(day time.Time, name string) {
		x := days.at(p.daysIn(day))
		c.line(x, bottom, x, bottom+3, 0.6, paleGrey)
		c.text(x, bottom+14, centred, quiet, name)
	}
	months := monthTicks(first, last, mostTicks)
	if len(months) < 2 {
		mark(first, first.Format("2 Jan"))
		if room := days.at(p.daysIn(last)) - days.at(0); room > 60 {
			mark(last, last.Format("2 Jan"))
		}
		c.text(days.start, bottom+14+yearBelow, centred, quiet, first.Format("2006"))
		return
	}
	for i, month := range months {
		name := month.Format("Jan")
		switch newYear := i == 0 || month.Year() != months[i-1].Year(); {
		case months[1].Sub(months[0]) > 360*24*time.Hour:
			name = month.Format("2006")
		case newYear:
			c.text(days.at(p.daysIn(month)), bottom+14+yearBelow, centred, quiet, month.Format("2006"))
		}
		mark(month, name)
	}
}

// monthTicks are the first days of months between two days, so many months
// apart that there are no more than most.
func monthTicks(first, last time.Time, most int) []time.Time {
	for _, step := range []int{1, 2, 3, 6, 12, 24, 60, 120, 600} {
		var months []time.Time
		for year := first.Year() / 100 * 100; year <= last.Year(); year++ {
			for month := range 12 {
				if (12*year+month)%step != 0 {
					continue
				}
				if day := time.Date(year, time.Month(1+month), 1, 0, 0, 0, 0, time.UTC); !day.Before(first) && !day.After(last) {
					months = append(months, day)
				}
			}
		}
		if len(months) <= most {
			return months
		}
	}
	return nil
}
