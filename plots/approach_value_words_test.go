package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// worth is a cell of the approach table with what its strokes gained are made of.
func worth(lie string, fromYd float64, n int64, gained, half float64) metrics.ApproachProximity {
	return metrics.ApproachProximity{
		Player: "A", LieGroup: lie, BandFromYd: fromYd, BandToYd: fromYd + 25, N: n,
		StrokesGainedPer: gained, StrokesGainedLo: gained - half, StrokesGainedHi: gained + half,
	}
}

func TestTheValueTitleSaysWhatTheIntervalsCarry(t *testing.T) {
	unknown := math.NaN()
	for _, test := range []struct {
		what   string
		season Season
		rows   []metrics.ApproachProximity
		want   string
	}{
		{"one group loses", Season{}, []metrics.ApproachProximity{worth("fairway", 150, 131, -0.17, 0.05), worth("rough", 150, 37, -0.1, 0.2)},
			"Approaches from fairway, 150–175 yd, lose 0.17 strokes each"},
		{"many small losses are more than a large one of few", Season{}, []metrics.ApproachProximity{worth("fairway", 150, 131, -0.17, 0.05), worth("rough", 150, 20, -0.4, 0.2)},
			"Approaches from fairway, 150–175 yd, lose 0.17 strokes each; one other group loses too"},
		{"three lose", Season{}, []metrics.ApproachProximity{worth("fairway", 150, 131, -0.17, 0.05), worth("fairway", 175, 100, -0.17, 0.05), worth("rough", 150, 20, -0.4, 0.2)},
			"Approaches from fairway, 150–175 yd, lose 0.17 strokes each; two other groups lose too"},
		{"all lies together are no group", Season{}, []metrics.ApproachProximity{worth("all", 150, 168, -0.17, 0.05), worth("fairway", 150, 131, -0.04, 0.05)},
			"Where do approaches lose strokes? No group stands clear of the benchmark"},
		{"an interval that touches zero is not clear", Season{}, []metrics.ApproachProximity{worth("fairway", 150, 131, -0.25, 0.25)},
			"Where do approaches lose strokes? No group stands clear of the benchmark"},
		{"only a gain is clear", Season{}, []metrics.ApproachProximity{worth("rough", 50, 40, 1, 0.4), worth("fairway", 150, 131, -0.04, 0.05)},
			"Approaches from rough, 50–75 yd, gain 1.0 strokes each; no group clearly loses"},
		{"nine shots do not count", Season{Rounds: 46}, []metrics.ApproachProximity{worth("fairway", 150, 9, -0.5, 0.05)},
			"Where do approaches lose strokes? Too few shots to say"},
		{"four rounds", Season{Rounds: 4}, []metrics.ApproachProximity{worth("fairway", 150, 12, -0.5, unknown)},
			"Where do approaches lose strokes? Four rounds are too few to say"},
		{"one round", Season{Rounds: 1}, []metrics.ApproachProximity{worth("fairway", 150, 1, -0.5, unknown)},
			"Where do approaches lose strokes? One round is too few to say"},
		{"metres", Season{Units: Metres}, []metrics.ApproachProximity{worth("fairway", 150, 131, -0.17, 0.05)},
			"Approaches from fairway, 137–160 m, lose 0.17 strokes each"},
	} {
		test.season.Player = "A"
		chart, missing := ApproachValueChart(test.season, test.rows)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestTheValueGridExplainsOnlyWhatItShows(t *testing.T) {
	losing, grey, few := worth("fairway", 150, 131, -0.17, 0.05), worth("rough", 150, 37, -0.1, 0.2), worth("sand", 150, 1, -0.1, 0.2)
	unknown := worth("fairway", 150, 12, -0.17, math.NaN())
	for _, test := range []struct {
		rows []metrics.ApproachProximity
		want string
	}{
		{[]metrics.ApproachProximity{losing}, "Orange loses, blue gains: the 90 % interval is clear of zero."},
		{[]metrics.ApproachProximity{losing, grey, few}, "Orange loses, blue gains: the 90 % interval is clear of zero. Grey: it spans zero. Hollow: under 10 shots."},
		{[]metrics.ApproachProximity{unknown}, "Grey: no interval under five rounds."},
	} {
		words := approachValueWords{approaches: 1}
		for _, row := range test.rows {
			words.cells = append(words.cells, newValueCell(row))
		}
		lines := words.counted()
		want := "In a square: strokes gained an approach, and how many there are. " + test.want
		if got := spaced(lines[len(lines)-1]); got != want {
			t.Errorf("got %q\nwant %q", got, want)
		}
		if got := spaced(lines[0]); got != "1 approach" {
			t.Errorf("counted %q", got)
		}
	}
}

func TestTheValueGridSaysHowManyGroupsChanceMakesClear(t *testing.T) {
	var words approachValueWords
	for i := range 13 {
		words.cells = append(words.cells, newValueCell(worth("fairway", 25*float64(i), 40, -0.1, 0.05)))
	}
	if got := spaced(words.source()[0]); !strings.Contains(got, "Of 13 groups about one would be clear of zero by chance.") {
		t.Errorf("got %q", got)
	}
	words.cells = words.cells[:3]
	if got := words.source()[0]; strings.Contains(got, "chance") {
		t.Errorf("three groups: %q", got)
	}
}

func TestTheValueAltTextGivesTheFigures(t *testing.T) {
	chart, _ := ApproachValueChart(Season{Player: "A"}, []metrics.ApproachProximity{worth("rough", 150, 1, -0.1, math.NaN()), worth("fairway", 150, 131, -0.17, 0.05)})
	want := "Approaches from fairway, 150–175 yd, lose 0.17 strokes each. Strokes gained an approach by lie and distance, " +
		"with 90 % interval where there is one: fairway, 150–175 yd −0.17 (−0.22 to −0.12) of 131 shots; rough, 150–175 yd −0.1 of 1 shot."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestWithoutAnApproachThereIsNoValueGrid(t *testing.T) {
	other := worth("fairway", 150, 131, -0.17, 0.05)
	other.Player = "B"
	chart, missing := ApproachValueChart(Season{Player: "A"}, []metrics.ApproachProximity{other, worth("fairway", 150, 5, math.NaN(), 0)})
	if chart != nil || missing == nil || missing.Name != "approach-value" {
		t.Errorf("got %v, %v", chart, missing)
	}
}

// The figures in a cell are read on its fill: WCAG 2.2 asks for 4.5 to 1.
func TestTheFullestFillsOfTheValueGridLeaveTextLegible(t *testing.T) {
	for _, gained := range []float64{-0.2, 0.2} {
		cell := newValueCell(worth("fairway", 150, 131, gained, 0.05))
		fill := valuePicture{most: 0.2}.fill(cell)
		if got := contrast(ink) / contrast(fill); got < 4.5 {
			t.Errorf("%v: contrast %.1f", gained, got)
		}
	}
}
