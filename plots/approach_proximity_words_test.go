package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// cell is a row of the approach table with what its words are made of.
func cell(lie string, fromYd float64, n int64, median, lo, hi float64) metrics.ApproachProximity {
	return metrics.ApproachProximity{
		Player: "A", LieGroup: lie, BandFromYd: fromYd, BandToYd: fromYd + 25, N: n,
		GreenShare: 0.5, P25Ft: median / 2, MedianFt: median, MedianLoFt: lo, MedianHiFt: hi, P75Ft: median * 1.5,
		FinishesFt: []float64{median / 2, median / 2, median, median * 1.5, median * 1.5},
	}
}

func spaced(text string) string { return strings.ReplaceAll(text, NoBreak, " ") }

func TestTheApproachTitleSaysWhatTheIntervalsOfTheMediansCarry(t *testing.T) {
	unknown := math.NaN()
	for _, test := range []struct {
		what  string
		units Units
		rows  []metrics.ApproachProximity
		want  string
	}{
		{"rough farther in one band", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 66, 22, 19, 25), cell("rough", 100, 29, 38, 32, 45),
			cell("fairway", 125, 71, 27, 23, 30), cell("rough", 125, 31, 35, 28, 42),
		}, "From 100–125 yards the rough leaves the ball 38 ft away, the fairway 22 ft"},
		{"rough farther in two bands: the one with more shots is named", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 66, 22, 19, 25), cell("rough", 100, 29, 38, 32, 45),
			cell("fairway", 125, 71, 27, 23, 30), cell("rough", 125, 31, 40, 33, 47),
		}, "The rough leaves the ball farther from the hole: 40 ft against 27 ft from 125–150 yards"},
		{"as many shots in both: the nearer one is named", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 30, 22, 19, 25), cell("rough", 100, 30, 38, 32, 45),
			cell("fairway", 125, 30, 27, 23, 30), cell("rough", 125, 30, 40, 33, 47),
		}, "The rough leaves the ball farther from the hole: 38 ft against 22 ft from 100–125 yards"},
		{"fairway farther", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 30, 38, 32, 45), cell("rough", 100, 30, 22, 19, 25),
		}, "From 100–125 yards the fairway leaves the ball 38 ft away, the rough 22 ft"},
		{"one way in one band, the other way in the next: distance speaks", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 30, 22, 19, 25), cell("rough", 100, 30, 38, 32, 45),
			cell("fairway", 125, 30, 40, 34, 45), cell("rough", 125, 30, 22, 19, 25),
		}, "From the fairway the typical approach leaves 22 ft from 100–125 yards and 40 ft from 125–150 yards"},
		{"intervals that touch do not tell the lies apart", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 30, 22, 19, 32), cell("rough", 100, 30, 38, 32, 45),
		}, "Where do approaches finish? These shots do not yet tell fairway from rough"},
		{"only distance is clear", Yards, []metrics.ApproachProximity{
			cell("fairway", 50, 30, 15, 12, 18), cell("rough", 50, 30, 16, 12, 20),
			cell("fairway", 75, 30, 18, 14, 24), cell("fairway", 200, 12, 40, 29, 51),
		}, "From the fairway the typical approach leaves 15 ft from 50–75 yards and 40 ft from 200–225 yards"},
		{"few shots do not count", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 9, 22, 19, 25), cell("rough", 100, 9, 38, 32, 45),
		}, "Where do approaches finish? Too few shots to say"},
		{"nor do medians without an interval", Yards, []metrics.ApproachProximity{
			cell("fairway", 100, 40, 22, unknown, unknown), cell("rough", 100, 40, 38, unknown, unknown),
		}, "Where do approaches finish?"},
		{"metres", Metres, []metrics.ApproachProximity{
			cell("fairway", 100, 30, 22, 19, 25), cell("rough", 100, 30, 38, 32, 45),
		}, "From 91–114 metres the rough leaves the ball 12 m away, the fairway 6.7 m"},
	} {
		season := Season{Player: "A", Units: test.units}
		words := approachProximityWords{season: season, groups: approachGroups(test.rows, test.units)}
		if got := spaced(words.title()); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestTheCountingLineOfTheApproachChartSaysWhatIsShown(t *testing.T) {
	many, few := cell("fairway", 100, 30, 22, 19, 25), cell("rough", 100, 9, 38, 32, 45)
	for _, test := range []struct {
		what   string
		season Season
		rows   []metrics.ApproachProximity
		hills  bool
		want   []string
	}{
		{"enough shots", Season{Player: "Alex", Rounds: 46}, []metrics.ApproachProximity{many}, false, []string{
			"Alex · 46 rounds · 30 approaches",
			"Dot: one approach. Large mark: median; dark line: its 90 % interval; pale bar: middle half.",
		}},
		{"some groups with few", Season{Invented: true, Rounds: 1}, []metrics.ApproachProximity{many, few}, true, []string{
			"Invented demo data · 1 round · 39 approaches",
			"Dot: one approach; hill: 30 or more. Large mark: median; dark line: its 90 % interval; pale bar: middle half. Hollow: under 10 shots.",
		}},
		{"only few", Season{}, []metrics.ApproachProximity{few}, false, []string{
			"9 approaches",
			"Dot: one approach. Large mark: median. Hollow: under 10 shots.",
		}},
	} {
		words := approachProximityWords{season: test.season, groups: approachGroups(test.rows, Yards), hills: test.hills}
		if got, want := spaced(strings.Join(words.counted(), "\n")), strings.Join(test.want, "\n"); got != want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, want)
		}
	}
}

func TestTheSourceLineCountsWhatIsNotSeen(t *testing.T) {
	penalties := cell("rough", 100, 30, 38, 32, 45)
	penalties.NPenalty = 1
	rows := []metrics.ApproachProximity{cell("fairway", 100, 30, 22, 19, 25), penalties, cell("sand", 100, 2, 50, 40, 60)}
	words := approachProximityWords{groups: approachGroups(rows, Yards), all: rows, to: 50}
	want := "Fairway takes in the tee of a par 3. ▲: beyond the scale, counted in every figure. " +
		"1 approach ended in a penalty: in the shots, without a distance. Not drawn: 2 approaches from sand. " +
		"Drawn by roundmill from the player's shot log."
	if got := spaced(words.source()[0]); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
	words.to, words.all, words.groups = 100, rows[:1], words.groups[:1]
	want = "Fairway takes in the tee of a par 3. Drawn by roundmill from the player's shot log."
	if got := spaced(words.source()[0]); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestTheApproachAltTextGivesTheFigures(t *testing.T) {
	rows := []metrics.ApproachProximity{
		cell("rough", 100, 1, 38, 32, 45), cell("fairway", 100, 66, 22, 19, 25), cell("fairway", 125, 71, 27, 23, 30),
	}
	chart, missing := ApproachProximityChart(Season{Player: "A"}, rows)
	if missing != nil {
		t.Fatal(missing.Reason)
	}
	want := "Where do approaches finish. Median distance from the hole in feet: from 100–125 yards " +
		"fairway 22 of 66 shots, rough 38 of 1 shot; from 125–150 fairway 27 of 71 shots."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestTooFewApproachesAreNotDrawn(t *testing.T) {
	four := cell("fairway", 100, 4, 22, 19, 25)
	four.FinishesFt = four.FinishesFt[:4]
	one := four
	one.N, one.FinishesFt = 1, one.FinishesFt[:1]
	someoneElse := cell("fairway", 100, 40, 22, 19, 25)
	someoneElse.Player = "B"
	for _, test := range []struct {
		what string
		rows []metrics.ApproachProximity
		want string
	}{
		{"no rows", nil, "No approach from the fairway or the rough has a known finish."},
		{"another player's rows", []metrics.ApproachProximity{someoneElse}, "No approach from the fairway or the rough has a known finish."},
		{"only the sum of all lies", []metrics.ApproachProximity{cell("all", 100, 40, 22, 19, 25)}, "No approach from the fairway or the rough has a known finish."},
		{"one finish", []metrics.ApproachProximity{one}, "1 approach from the fairway and the rough is too few to draw."},
		{"four finishes", []metrics.ApproachProximity{four}, "4 approaches from the fairway and the rough are too few to draw."},
	} {
		chart, missing := ApproachProximityChart(Season{Player: "A"}, test.rows)
		if chart != nil || missing == nil {
			t.Errorf("%s: a chart was drawn", test.what)
			continue
		}
		if got := spaced(missing.Reason); got != test.want || missing.Name != "approach-proximity" {
			t.Errorf("%s: %q is missing because %q, want %q", test.what, missing.Name, got, test.want)
		}
	}
}

func TestSandIsDrawnWhereThereIsRoomAndEnoughOfIt(t *testing.T) {
	lies := func(rows []metrics.ApproachProximity) (sand int) {
		for _, group := range approachGroups(rows, Yards) {
			if group.LieGroup == "sand" {
				sand++
			}
		}
		return sand
	}
	band := func(fromYd float64, sand int64) []metrics.ApproachProximity {
		return []metrics.ApproachProximity{cell("fairway", fromYd, 30, 22, 19, 25), cell("sand", fromYd, sand, 30, 20, 40)}
	}
	if got := lies(append(band(100, 10), band(125, 3)...)); got != 2 {
		t.Errorf("two bands, one with enough sand: %d groups of sand, want 2", got)
	}
	if got := lies(append(band(100, 9), band(125, 3)...)); got != 0 {
		t.Errorf("two bands with little sand: %d groups of sand, want 0", got)
	}
	var many []metrics.ApproachProximity
	for i := range 6 {
		many = append(many, band(50+25*float64(i), 20)...)
	}
	if got := lies(many); got != 0 {
		t.Errorf("six bands leave no room: %d groups of sand, want 0", got)
	}
}
