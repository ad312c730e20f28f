package plots

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"roundmill/metrics"
)

// labelsOf are the texts of a chart and the boxes they fill, which do not hang
// on the resolution of the picture.
func labelsOf(chart *Chart) []label {
	c := newCanvas(chart.widthPt, chart.heightPt, 9)
	chart.draw(c)
	return c.labels
}

type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func assertLabelsHaveTheirPlace(t failer, chart *Chart) {
	t.Helper()
	const edge = vg.Length(8)
	labels := labelsOf(chart)
	for i, a := range labels {
		if a.left < edge || a.top < edge || a.right > chart.widthPt-edge || a.bottom > chart.heightPt-edge {
			t.Errorf("%q goes out of the picture: %v to %v, %v to %v", a.text, a.left, a.right, a.top, a.bottom)
		}
		for _, b := range labels[i+1:] {
			if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
				t.Errorf("%q and %q overlap", a.text, b.text)
			}
		}
	}
}

func TestNoTextLeavesThePictureOrTouchesAnother(t *testing.T) {
	for _, s := range situations() {
		charts := s.charts()
		if len(charts) != 2 {
			t.Errorf("%s: %d charts, want 2", s.name, len(charts))
		}
		for _, chart := range charts {
			t.Run(s.name+"/"+chart.Name, func(t *testing.T) {
				assertLabelsHaveTheirPlace(t, chart)
			})
		}
	}
}

func TestNoTextTouchesAnotherWhateverTheFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := rapid.SampledFrom([]Units{Yards, Metres}).Draw(t, "units")
		season := Season{Player: rapid.String().Draw(t, "player"), Baseline: rapid.String().Draw(t, "baseline"), Rounds: 1_000_000, Units: units}

		var approaches []metrics.ApproachProximity
		width := rapid.SampledFrom([]float64{5, 10, 25, 50}).Draw(t, "band width")
		random := rapid.Uint64().Draw(t, "seed")
		for fromYd := 50.0; fromYd < 250; fromYd += width {
			for _, lie := range []string{"fairway", "rough", "sand"} {
				random = random*6364136223846793005 + 1442695040888963407
				finishes := make([]float64, int(random>>33)%[]int{1, 12, 80, 400}[random>>62])
				for i := range finishes {
					random = random*6364136223846793005 + 1442695040888963407
					finishes[i] = float64(random>>40) / (1 << 24) * fromYd
				}
				slices.Sort(finishes)
				row := metrics.ApproachProximity{
					Player: season.Player, LieGroup: lie, BandFromYd: fromYd, BandToYd: fromYd + width,
					N: int64(len(finishes)), GreenShare: 1, FinishesFt: finishes, P25Ft: quantile(finishes, 0.25),
					MedianFt: quantile(finishes, 0.5), P75Ft: quantile(finishes, 0.75),
				}
				row.MedianLoFt, row.MedianHiFt = medianInterval(finishes)
				if many := rapid.SampledFrom([]int64{1, 1, 1000}).Draw(t, "times"); many > 1 {
					row.N *= many
				}
				approaches = append(approaches, row)
			}
		}
		if chart, _ := ApproachProximityChart(season, approaches); chart != nil {
			assertLabelsHaveTheirPlace(t, chart)
		}

		var gains []metrics.StrokesGained
		size := rapid.SampledFrom([]float64{0.01, 1, 30}).Draw(t, "size")
		for _, class := range []string{"tee shot", "approach", "short game", "putt", "total"} {
			estimate := rapid.Float64Range(-size, size).Draw(t, "estimate")
			half := rapid.Float64Range(0, size).Draw(t, "half")
			row := metrics.StrokesGained{Player: season.Player, GroupKind: "class", Group: class, Rounds: 1_000_000, N: 34_000_000, PerRound: estimate, PerRoundLo: estimate - half, PerRoundHi: estimate + half}
			if class == "total" {
				row.GroupKind = "total"
			}
			gains = append(gains, row)
		}
		chart, missing := StrokesGainedChart(season, gains)
		if missing != nil {
			t.Fatal(missing.Reason)
		}
		assertLabelsHaveTheirPlace(t, chart)
	})
}

func TestTextIsLegibleWhereItIsUsed(t *testing.T) {
	// A4 (ISO 216) is 210 mm wide; the page keeps 15 mm on either side.
	const onPage = (210 - 2*15) / 25.4
	printed := float64(onPage) / float64(chartWidth/vg.Inch)
	for _, style := range []typeStyle{heading, body, strong, quiet, valueLabel} {
		if points := float64(style.size) * printed; points < 8 {
			t.Errorf("type of %v pt prints at %.1f pt", style.size, points)
		}
	}
}

// contrast is the contrast ratio of a colour on white, by WCAG 2.2.
func contrast(c color.RGBA) float64 {
	linear := func(channel uint8) float64 {
		v := float64(channel) / 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 1.05 / (0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B) + 0.05)
}

func TestColoursHaveContrastOnWhite(t *testing.T) {
	// WCAG 2.2: 4.5 for text (1.4.3), 3 for marks (1.4.11).
	text := []color.RGBA{ink, grey}
	for _, look := range lieLooks {
		text = append(text, look.text)
		if got := contrast(look.fill); got < 3 {
			t.Errorf("marks of %s have contrast %.1f", look.group, got)
		}
	}
	for _, c := range append(text, gainText, lossText) {
		if got := contrast(c); got < 4.5 {
			t.Errorf("text in %v has contrast %.1f", c, got)
		}
	}
}

func TestZeroIsAlwaysOnTheScaleOfStrokesGained(t *testing.T) {
	for _, perRound := range []float64{-3, 3} {
		row := newGainRow(gained("approach", perRound, perRound-0.5, perRound+0.5), gameParts[1])
		axis := gainPicture{classes: []gainRow{row}}.scale()
		if axis.from >= 0 || axis.to <= 0 || axis.from > row.PerRoundLo || axis.to < row.PerRoundHi {
			t.Errorf("%v a round: the scale runs from %v to %v", perRound, axis.from, axis.to)
		}
	}
}

func TestTheScaleOfDistancesStartsAtTheHole(t *testing.T) {
	for _, s := range situations() {
		groups := approachGroups(s.approaches, s.season.Units)
		finishes := allFinishes(groups)
		reach := approachReach(groups, finishes, s.season.Units)
		picture := newApproachProximityPicture(s.season.Units, groups, reach)
		if axis := picture.scaleFrom(0); axis.from != 0 || axis.at(0) != axis.start {
			t.Errorf("%s: the scale starts at %v", s.name, axis.from)
		}
		if out := beyond(finishes, reach); out*20 > len(finishes)+20 {
			t.Errorf("%s: %d of %d finishes lie beyond the scale", s.name, out, len(finishes))
		}
		for _, group := range groups {
			if !group.few() && s.season.Units.FromFeet(group.P75Ft) > reach {
				t.Errorf("%s: the middle half from %v yd (%s) goes beyond the scale", s.name, group.BandFromYd, group.LieGroup)
			}
		}
	}
}
