package plots

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

// leant are misses from a band, with their mean to the right and long, and half
// the width of both intervals.
func leant(fromYd float64, n int64, right, long, half float64) metrics.MissPattern {
	row := metrics.MissPattern{
		Player: "A", BandFromYd: fromYd, BandToYd: fromYd + 25, N: n, Rounds: 46,
		RightMeanYd: right, RightLoYd: right - half, RightHiYd: right + half, RightSdYd: 8,
		LongMeanYd: long, LongLoYd: long - half, LongHiYd: long + half, LongSdYd: 10,
		Half: 12, HalfMinor: 9, Most: 22, MostMinor: 17, TurnDeg: 80, GreenDepthYd: 32, GreenWidthYd: 27,
	}
	for i := range n {
		row.Misses = append(row.Misses, metrics.Miss{RightYd: right + float64(i%5) - 2, LongYd: long + float64(i%7) - 3})
	}
	return row
}

func withoutGreen(row metrics.MissPattern) metrics.MissPattern {
	row.GreenDepthYd, row.GreenWidthYd = math.NaN(), math.NaN()
	return row
}

func TestTheMissTitleNamesALeanThatIsMoreThanLuck(t *testing.T) {
	level := func(fromYd float64) metrics.MissPattern { return leant(fromYd, 40, 0.5, -0.5, 1) }
	for _, test := range []struct {
		what   string
		season Season
		rows   []metrics.MissPattern
		want   string
	}{
		{"one band", Season{}, []metrics.MissPattern{leant(150, 40, 0, -4.2, 1)},
			"From 150–175 yd approaches finish 4 yd short of the hole on average"},
		{"to the right", Season{}, []metrics.MissPattern{leant(150, 40, 4.2, 0, 1), level(175)},
			"From 150–175 yd approaches finish 4 yd right of the hole on average"},
		{"the side that most bands lean to, in the band that leans most", Season{},
			[]metrics.MissPattern{leant(100, 40, 0, -2, 1), leant(125, 50, 0, -3, 1), leant(150, 90, 9, 0, 1), level(175)},
			"Approaches finish short of the hole in 2 of 4 bands, most from 125–150 yd: by 3 yd"},
		{"no more than chance", Season{}, []metrics.MissPattern{leant(150, 40, 0, -4.2, 1), level(25), level(50), level(75), level(100)},
			"Which way do approaches miss? No more bands lean to one side than by chance"},
		{"none", Season{}, []metrics.MissPattern{level(150)}, "Which way do approaches miss? No band leans clearly to one side"},
		{"an end at the hole is not clear", Season{}, []metrics.MissPattern{leant(150, 40, 0, -1, 1)},
			"Which way do approaches miss? No band leans clearly to one side"},
		{"nine shots", Season{Rounds: 46}, []metrics.MissPattern{leant(150, 9, 0, -9, 1)}, "Which way do approaches miss? Too few shots to say"},
		{"four rounds", Season{Rounds: 4}, []metrics.MissPattern{leant(150, 40, 0, -9, math.NaN())}, "Which way do approaches miss? Four rounds are too few to say"},
		{"one round", Season{Rounds: 1}, []metrics.MissPattern{leant(150, 6, 0, -9, math.NaN())}, "Which way do approaches miss? One round is too few to say"},
		{"metres", Season{Units: Metres}, []metrics.MissPattern{leant(150, 40, 0, -4.2, 1)},
			"From 137–160 m approaches finish 3.8 m short of the hole on average"},
	} {
		test.season.Player = "A"
		chart, missing := MissPatternChart(test.season, test.rows)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestTheMissPatternSaysWhichGreenItDraws(t *testing.T) {
	logged, not := missPanel{leant(150, 40, 0, -4, 1)}, missPanel{withoutGreen(leant(175, 40, 0, -4, 1))}
	for _, test := range []struct {
		units  Units
		panels []missPanel
		want   string
	}{
		{Yards, []missPanel{logged}, "Green: an ellipse of the median logged depth and width. It"},
		{Yards, []missPanel{logged, not}, "Green: an ellipse of the median logged depth and width, 30 yd deep and 25 yd wide where none is logged. It"},
		{Yards, []missPanel{not}, "Green: an ellipse 30 yd deep and 25 yd wide; no size is logged. It"},
		{Metres, []missPanel{not}, "Green: an ellipse 27 m deep and 23 m wide; no size is logged. It"},
	} {
		words := missPatternWords{season: Season{Units: test.units}, panels: test.panels}
		if got := spaced(words.source(0)[0]); !strings.HasPrefix(got, test.want) {
			t.Errorf("got %q\nwant %q", got, test.want)
		}
	}
	words := missPatternWords{panels: []missPanel{logged}}
	if got := spaced(words.source(1)[0]); !strings.Contains(got, "beyond the scale (1 shot).") {
		t.Errorf("got %q", got)
	}
}

func TestTheMissPatternIsAsFarAcrossAsAlong(t *testing.T) {
	for _, rows := range [][]metrics.MissPattern{{leant(150, 40, 0, -4, 1)}, {leant(25, 40, 0, 0, 1), leant(50, 40, 0, 0, 1), leant(75, 40, 0, 0, 1), leant(100, 40, 0, 0, 1), leant(125, 40, 0, 0, 1)}} {
		var panels []missPanel
		for _, row := range rows {
			panels = append(panels, missPanel{row})
		}
		picture := newMissPicture(Yards, panels)
		if right := missStart + vg.Length(picture.columns)*(picture.side+missGap) - missGap; right > bandsEnd+0.01 {
			t.Errorf("%d panels reach to %v", len(rows), right)
		}
		for _, place := range ellipse(panels[0], panels[0].Most, panels[0].MostMinor) {
			if math.Abs(place.RightYd) > picture.reach || math.Abs(place.LongYd) > picture.reach {
				t.Errorf("the ellipse goes out of the panel at %v", place)
			}
		}
	}
}

func TestTheMissAltTextGivesTheFigures(t *testing.T) {
	chart, _ := MissPatternChart(Season{Player: "A"}, []metrics.MissPattern{leant(150, 40, 0, -4.2, 1), leant(175, 5, 0, -4.2, 1)})
	want := "From 150–175 yd approaches finish 4 yd short of the hole on average. Where approaches finish around the hole: " +
		"from 150–175 yd 40 shots, mean 4 short, spread (standard deviation) 10 yd in length and 8 yd to the sides; from 175–200 yd 5 shots."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestWithoutMissesTheColumnsAreNamed(t *testing.T) {
	for _, test := range []struct {
		rows []metrics.MissPattern
		want string
	}{
		{nil, "No approach has the miss logged both ways, and 5 are needed: fill in the columns long_short and left_right, or positions."},
		{[]metrics.MissPattern{leant(150, 1, 0, 0, 1)}, "1 approach has the miss logged both ways, and 5 are needed: fill in the columns long_short and left_right, or positions."},
		{[]metrics.MissPattern{leant(150, 4, 0, 0, 1)}, "4 approaches have the miss logged both ways, and 5 are needed: fill in the columns long_short and left_right, or positions."},
	} {
		chart, missing := MissPatternChart(Season{Player: "A"}, test.rows)
		if chart != nil || missing == nil || spaced(missing.Reason) != test.want {
			t.Errorf("got %v, %v, want %q", chart, missing, test.want)
		}
	}
}
