package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// aimed is the advice from a band with the hole on a side: how far towards the
// middle, strokes saved in 100 shots, and half the widths of both intervals.
func aimed(fromYd float64, side string, n int64, offset, halfOffset, saved, halfSaved float64) metrics.Aim {
	return metrics.Aim{
		Player: "A", BandFromYd: fromYd, BandToYd: fromYd + 25, Side: side, CutYd: 5, N: n, Rounds: 20,
		OffsetYd: offset, OffsetLoYd: offset - halfOffset, OffsetHiYd: offset + halfOffset,
		Saved: saved / 100, SavedLo: (saved - halfSaved) / 100, SavedHi: (saved + halfSaved) / 100,
	}
}

func TestStrokesSavedSayOnWhichSideOfZeroTheirIntervalEnds(t *testing.T) {
	for _, test := range []struct {
		row             metrics.Aim
		saved, interval string
	}{
		{aimed(150, "left", 169, 4.4, 1.9, 1.7, 1.5), "+1.7", "(+0.2 to +3.2)"},
		{aimed(150, "right", 169, 3.5, 1.9, 1.1, 1.14), "+1.10", "(−0.04 to +2.24)"},
	} {
		if saved, interval := savedPrinted(test.row), savedInterval(test.row); saved != test.saved || interval != test.interval {
			t.Errorf("%s %s, want %s %s", saved, interval, test.saved, test.interval)
		}
	}
}

func TestTheAimTitleGivesAdviceOnlyWhereItSurelySaves(t *testing.T) {
	var unsure []metrics.Aim
	for i := range 10 {
		unsure = append(unsure, aimed(75+25*float64(i), "left", 40, 3, 2, 1, 2))
	}
	for _, test := range []struct {
		what  string
		units Units
		rows  []metrics.Aim
		want  string
	}{
		{"one place", Yards, []metrics.Aim{aimed(150, "left", 169, 4.4, 1.9, 1.7, 1.5), aimed(150, "right", 169, 3.5, 1.9, 1.1, 1.2)},
			"From 150–175 yd with the hole 5 yd from the left, aim 4 yd right of it"},
		{"on the right the middle lies to the left", Yards, []metrics.Aim{aimed(150, "right", 169, 4.4, 1.9, 1.7, 1.5)},
			"From 150–175 yd with the hole 5 yd from the right, aim 4 yd left of it"},
		{"away from the middle", Yards, []metrics.Aim{aimed(150, "right", 169, -4.4, 1.9, 1.7, 1.5)},
			"From 150–175 yd with the hole 5 yd from the right, aim 4 yd right of it"},
		{"several places: that which saves the most", Yards,
			[]metrics.Aim{aimed(100, "left", 100, 3, 1, 5, 1), aimed(150, "left", 169, 4.4, 1.9, 1.7, 1.5), aimed(150, "right", 169, 5.5, 1.9, 2.7, 1.5)},
			"With the hole 5 yd from a side, aim towards the middle: by 3 yd from 100–125 yd with the hole on the left"},
		{"several places, the hole on one side", Yards, []metrics.Aim{aimed(100, "right", 100, 3, 1, 5, 1), aimed(150, "right", 169, 4.4, 1.9, 1.7, 1.5), aimed(150, "left", 169, 4.4, 1.9, 1.5, 1.6)},
			"With the hole 5 yd from the right, aim towards the middle: by 3 yd from 100–125 yd"},
		{"not all inwards", Yards, []metrics.Aim{aimed(100, "left", 100, -3, 1, 5, 1), aimed(150, "left", 169, 4.4, 1.9, 1.7, 1.5)},
			"From 100–125 yd with the hole 5 yd from the left, aim 3 yd left of it"},
		{"none", Yards, unsure, "Where to aim when the hole is 5 yd from a side? The model does not tell a better target than the flag"},
		{"an end at zero saves nothing", Yards, []metrics.Aim{aimed(150, "left", 169, 4.4, 1.9, 1.5, 1.5)},
			"Where to aim when the hole is 5 yd from a side? The model does not tell a better target than the flag"},
		{"no more than chance", Yards, append(unsure, aimed(50, "left", 40, 3, 2, 3, 2)),
			"Where to aim when the hole is 5 yd from a side? No more targets stand clear of the flag than by chance"},
		{"metres", Metres, []metrics.Aim{aimed(150, "left", 169, 4.4, 1.9, 1.7, 1.5)},
			"From 137–160 m with the hole 4.6 m from the left, aim 4 m right of it"},
	} {
		chart, missing := AimChart(Season{Player: "A", Units: test.units}, test.rows)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

// Whoever prints the advice has to print what it takes for granted, all of it.
func TestTheAimChartPrintsEveryAssumption(t *testing.T) {
	chart, _ := AimChart(Season{Player: "A"}, []metrics.Aim{aimed(150, "left", 169, 4.4, 1.9, 1.7, 1.5)})
	var drawn strings.Builder
	for _, label := range labelsOf(chart) {
		drawn.WriteString(label.text + " ")
	}
	if text := spaced(drawn.String()); !strings.Contains(text, metrics.AimAssumptions) {
		t.Errorf("the picture says %q", text)
	}
	words := aimWords{season: Season{Units: Metres}, bands: []aimBand{{}}}
	if text := strings.Join(words.source(), " "); !strings.Contains(text, "27 m deep and 23 m wide") {
		t.Errorf("in metres: %q", text)
	}
}

func TestTheAimAltTextGivesTheFigures(t *testing.T) {
	chart, _ := AimChart(Season{Player: "A"}, []metrics.Aim{aimed(150, "right", 169, 4.4, 1.9, 1.7, 1.5)})
	want := "From 150–175 yd with the hole 5 yd from the right, aim 4 yd left of it. A model of the best target for a hole 5 yd from the side of the green: " +
		"from 150–175 yd, hole on the right: 4 yd left of the flag, saves +1.7 (+0.2 to +3.2) in 100 shots."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestWithoutAdviceThereIsNoAimChart(t *testing.T) {
	other, cut, unknown := aimed(150, "left", 169, 4, 2, 2, 1), aimed(150, "left", 169, 4, 2, 2, 1), aimed(150, "left", 169, 4, math.NaN(), 2, 1)
	other.Player, cut.CutYd = "B", 3
	chart, missing := AimChart(Season{Player: "A"}, []metrics.Aim{other, cut, unknown})
	if chart != nil || missing == nil || !strings.Contains(missing.Reason, "long_short and left_right") {
		t.Errorf("got %v, %v", chart, missing)
	}
}
