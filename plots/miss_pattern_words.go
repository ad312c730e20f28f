package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// missPatternWords makes the sentences of the miss pattern from its figures.
type missPatternWords struct {
	season Season
	panels []missPanel
}

func missesMissing(shots int) string {
	said := "No approach has"
	if shots > 0 {
		said = Sentence(Counted(shots, "approach has", "approaches have"))
	}
	return fmt.Sprintf("%s the miss logged both ways, and %d are needed: fill in the columns long_short and left_right, or positions.", said, fewestApproaches)
}

// lean is a mean of a band whose interval is clear of the hole.
type lean struct {
	panel missPanel
	side  string  // long, short, left or right
	mean  float64 // how far, in the units seen
	far   string  // the same in words
}

// leans are the leans of a band, along the line of play before across it.
func (w missPatternWords) leans(panel missPanel) (leans []lean) {
	if !panel.hasInterval() {
		return nil
	}
	add := func(mean, lo, hi float64, more, less string) {
		side := more
		if hi < 0 {
			side = less
		} else if lo <= 0 {
			return
		}
		units := w.season.Units
		mean, width := units.FromYards(math.Abs(mean)), units.FromYards(hi-lo)
		leans = append(leans, lean{panel, side, mean, Number(mean, Decimals(mean, width))})
	}
	add(panel.LongMeanYd, panel.LongLoYd, panel.LongHiYd, "long", "short")
	add(panel.RightMeanYd, panel.RightLoYd, panel.RightHiYd, "right", "left")
	return leans
}

// leaning says over a panel what its mean tells.
func (w missPatternWords) leaning(panel missPanel) string {
	leans := w.leans(panel)
	switch {
	case !panel.hasInterval():
		return "too few to say"
	case len(leans) == 0:
		return "no clear lean"
	}
	var said []string
	for _, l := range leans {
		said = append(said, l.far+NoBreak+l.side)
	}
	return "mean " + strings.Join(said, ", ")
}

// all are the leans of all bands, and of how many means they are.
func (w missPatternWords) all() (leans []lean, means int) {
	for _, panel := range w.panels {
		leans = append(leans, w.leans(panel)...)
		if panel.hasInterval() {
			means += 2
		}
	}
	return leans, means
}

// title names the side that the most bands lean to, unless no more lean than
// chance would have.
func (w missPatternWords) title() string {
	const question = "Which way do approaches miss?"
	leans, means := w.all()
	switch {
	case means == 0 && w.season.fewRounds():
		return question + " " + tooFewRounds(w.season.Rounds)
	case means == 0:
		return question + " Too few shots to say"
	case len(leans) == 0:
		return question + " No band leans clearly to one side"
	case len(leans) <= clearByChance(means):
		return question + " No more bands lean to one side than by chance"
	}
	var best []lean
	for _, side := range []string{"short", "long", "left", "right"} {
		var one []lean
		for _, l := range leans {
			if l.side == side {
				one = append(one, l)
			}
		}
		if len(one) > len(best) {
			best = one
		}
	}
	most := slices.MaxFunc(best, func(a, b lean) int { return cmp.Compare(a.mean, b.mean) })
	by := most.far + NoBreak + w.season.Units.LongSymbol()
	band := w.band(most.panel)
	if len(best) == 1 {
		return fmt.Sprintf("From %s approaches finish %s %s of the hole on average", band, by, most.side)
	}
	return fmt.Sprintf("Approaches finish %s of the hole in %d of %d bands, most from %s: by %s",
		most.side, len(best), len(w.panels), band, by)
}

func (w missPatternWords) band(panel missPanel) string {
	return w.season.Units.Band(panel.BandFromYd, panel.BandToYd) + NoBreak + w.season.Units.LongSymbol()
}

func (w missPatternWords) counted() []string {
	shots := 0
	few, enough := false, false
	for _, panel := range w.panels {
		shots += int(panel.N)
		few, enough = few || panel.few(), enough || !panel.few()
	}
	reading := "Dot: one approach, seen from above, played upwards; the lines cross at the hole."
	if enough {
		reading += " Ellipses: half and 90" + NoBreak + "% of such shots. Diamond: mean."
	}
	if few {
		reading += fmt.Sprintf(" Hollow: under %d"+NoBreak+"shots.", fewestSolid)
	}
	return []string{w.season.counted(Counted(shots, "approach", "approaches")), reading}
}

func (w missPatternWords) source(beyond int) []string {
	logged, usual := false, false
	for _, panel := range w.panels {
		_, _, known := panel.green()
		logged, usual = logged || known, usual || !known
	}
	size := fmt.Sprintf("%s deep and %s wide", w.length(usualGreenDepthYd), w.length(usualGreenWidthYd))
	var text string
	switch {
	case logged && usual:
		text = "Green: an ellipse of the median logged depth and width, " + size + " where none is logged."
	case logged:
		text = "Green: an ellipse of the median logged depth and width."
	default:
		text = "Green: an ellipse " + size + "; no size is logged."
	}
	text += " It is drawn around the hole, wherever that was cut. The ellipses take misses as normal; penalties are left out."
	if _, means := w.all(); clearByChance(means) > 0 {
		text += fmt.Sprintf(" Of %d means about %s would lie clear of the hole by chance.", means, strings.ToLower(InWords(clearByChance(means))))
	}
	if beyond > 0 {
		text += fmt.Sprintf(" Square at the edge: beyond the scale (%s).", Counted(beyond, "shot", "shots"))
	}
	return []string{text, drawnFrom}
}

func (w missPatternWords) length(yd float64) string {
	return Number(w.season.Units.FromYards(yd), 0) + NoBreak + w.season.Units.LongSymbol()
}

// alt says what the picture shows, band by band.
func (w missPatternWords) alt() string {
	var bands []string
	for _, panel := range w.panels {
		said := fmt.Sprintf("from %s %s", w.band(panel), Counted(int(panel.N), "shot", "shots"))
		if !panel.few() {
			said += fmt.Sprintf(", %s, spread (standard deviation) %s in length and %s to the sides", w.leaning(panel), w.length(panel.LongSdYd), w.length(panel.RightSdYd))
		}
		bands = append(bands, said)
	}
	return fmt.Sprintf("Where approaches finish around the hole: %s.", strings.Join(bands, "; "))
}
