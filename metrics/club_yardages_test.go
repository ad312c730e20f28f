package metrics

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func yardagesOf(t testing.TB, log string) *ClubYardageFigures {
	t.Helper()
	figures := newClubYardageFigures(Options{Baseline: "test", Seed: 1})
	for _, batch := range enriched(t, []byte(log)) {
		figures.Add(batch)
	}
	return figures
}

const yardageHeader = "date,hole,par,shot,lie,to_hole,club,left,finish_lie,long_short,aim_long_short,headwind,elevation,penalty,intent\n"

// approachLog is a log of approaches on holes of their own, each what follows
// the shot number, with a putt to end the hole.
func approachLog(approaches ...string) string {
	var log strings.Builder
	log.WriteString(yardageHeader)
	for i, approach := range approaches {
		date, hole, par, shot := fmt.Sprintf("2026-05-%02d", 1+i/18), 1+i%18, 3, 1
		if !strings.HasPrefix(approach, "tee") {
			par, shot = 4, 2
			fmt.Fprintf(&log, "%s,%d,4,1,tee,400,driver,,,,,,,,\n", date, hole)
		}
		fmt.Fprintf(&log, "%s,%d,%d,%d,%s\n%s,%d,%d,%d,green,5,putter,,,,,,,,\n", date, hole, par, shot, approach, date, hole, par, shot+1)
	}
	return log.String()
}

func TestDistanceOfAnApproachByHand(t *testing.T) {
	for approach, want := range map[string]float64{
		"fairway,150,7i,6,green,-4,,,,,":        146,               // along the line of play
		"fairway,150,7i,6,green,5,-3,,,,":       152,               // 5 yd past a target 3 yd short of the hole
		"fairway,150,7i,6,fairway,,,,,,":        144,               // nothing but what is left
		"fairway,150,7i,6,green,0,,10,,,":       165,               // 10 mph into the wind
		"fairway,150,7i,6,green,0,,-10,4,,":     150*0.95 + 4,      // 10 mph down it, 4 yd up
		"tee,150,7i,6,green,2,,,-6,,attack":     150 - 6 + 2,       // the tee of a par 3
		"fairway,150,7i,160,rough,10,,5,,,":     (150 + 10) * 1.05, // a long way past
		"rough,150,7i,6,green,-4,,,,,":          math.NaN(),
		"trees,150,7i,6,green,-4,,,,,":          math.NaN(),
		"fairway,150,7i,6,green,-4,,,,1,":       math.NaN(),
		"fairway,150,7i,6,green,-4,,,,,lay up":  math.NaN(),
		"fairway,150,7i,6,green,-4,,,,,get out": math.NaN(),
		"fairway,40,7i,6,green,-4,,,,,":         math.NaN(), // short game
		"fairway,150,,6,green,-4,,,,,":          math.NaN(), // no club
	} {
		rows := yardagesOf(t, approachLog(approach)).Rows()
		switch {
		case math.IsNaN(want) && len(rows) > 0:
			t.Errorf("%s counts: %+v", approach, rows)
		case math.IsNaN(want):
		case len(rows) != 1:
			t.Errorf("%s does not count", approach)
		default:
			mustBe(t, approach, rows[0].MedianYd, want)
		}
	}
}

// By hand: ten shots with the 7 iron, 165 to 174 yd, median 169.5; ten with the
// 8 iron, 156 to 174 yd by twos, median 165, of which 170, 172 and 174 go past
// 169.5; the 4 iron was hit nine times only, the 9 iron twelve times to 150.
func TestGapsAndOverlapsByHand(t *testing.T) {
	var approaches []string
	hit := func(club string, yards float64) {
		approaches = append(approaches, fmt.Sprintf("fairway,160,%s,,,%v,,,,,", club, yards-160))
	}
	for i := range 10 {
		hit("7i", 165+float64(i))
		hit("8i", 156+2*float64(i))
	}
	for range 9 {
		hit("4i", 200)
	}
	for range 12 {
		hit("9i", 150)
	}
	rows := yardagesOf(t, approachLog(approaches...)).Rows()
	if len(rows) != 4 {
		t.Fatalf("%+v", rows)
	}
	for i, want := range []struct {
		club, longer         string
		n                    int64
		median, gap, overlap float64
	}{
		{"4i", "", 9, 200, math.NaN(), math.NaN()},
		{"7i", "", 10, 169.5, math.NaN(), math.NaN()},
		{"8i", "7i", 10, 165, 4.5, 0.3},
		{"9i", "8i", 12, 150, 15, 0},
	} {
		row := rows[i]
		if row.Club != want.club || row.LongerClub != want.longer || row.N != want.n || row.NAlong != want.n || row.NPlaysLike != 0 {
			t.Errorf("%+v, expected %+v", row, want)
		}
		mustBe(t, want.club+" median", row.MedianYd, want.median)
		mustBe(t, want.club+" gap", row.GapYd, want.gap)
		mustBe(t, want.club+" overlap", row.Overlap, want.overlap)
		mustBe(t, want.club+" interval of three rounds", row.GapLoYd, math.NaN())
		mustBe(t, want.club+" interval beside a median without one", row.OverlapLo, math.NaN())
	}
	// Hyndman and Fan, definition 7, on 165 ... 174.
	mustBe(t, "quartile", rows[1].P25Yd, 167.25)
	mustBe(t, "90th percentile", rows[1].P90Yd, 173.1)
}

// Known truth: a player who never mishits, always makes a full swing and whose
// ball obeys the rule of thumb hits every club its stock distance.
func TestYardagesFindTheStockDistances(t *testing.T) {
	player := steady()
	player.MishitShare, player.StockPull, player.FormSpread = 0, 1, 0
	player.Weather.IntoPct, player.Weather.DownPct, player.Weather.RiseYd = 1, 0.5, 1
	stock := map[string]float64{}
	for _, club := range player.Clubs {
		stock[club.Name] = club.StockYd
	}
	found := 0
	for _, row := range yardagesOf(t, string(simulated(t, 8, player, 300))).Rows() {
		if row.N < 100 || row.Club == "3 wood" || row.Club == "58" {
			continue // the longest is hit at holes out of reach, the shortest at less than its distance
		}
		found++
		// A shot that starts at an angle of 4 degrees gains a quarter of a per cent less than it goes.
		if math.Abs(row.MedianYd-stock[row.Club]) > 0.01*stock[row.Club] {
			t.Errorf("%s goes %.1f yd, its stock is %v", row.Club, row.MedianYd, stock[row.Club])
		}
	}
	if found < 9 {
		t.Errorf("only %d clubs", found)
	}
}

// By hand: 100, 104 and 108 yd, finishing 5 short, on the hole and 7 past: mean
// 2/3; 5 yd are 5 % of 100, 7 are more than 5 % of 108.
func TestDistanceControlByHand(t *testing.T) {
	rows := yardagesOf(t, approachLog(
		"fairway,100,54,5,green,-5,,,,,", "tee,104,54,1,green,0,,,,,", "fairway,108,50,7,green,7,,,,,",
		"fairway,110,50,7,green,1,,,,,", "fairway,120,50,7,green,1,,,,,", "rough,104,54,7,green,1,,,,,", "fairway,104,,3,green,,,,,,",
	))
	control := rows.ControlRows()
	if len(control) != 2 || control[0].FromYd != 100 || control[0].ToYd != 110 || control[0].N != 3 || control[1].FromYd != 110 || control[1].N != 1 {
		t.Fatalf("%+v", control)
	}
	mustBe(t, "mean", control[0].LongMeanYd, 2.0/3)
	mustBe(t, "spread", control[0].LongSdYd, math.Sqrt((5.0/3+4)*(5.0/3+4)/2+(2.0/3)*(2.0/3)/2+(7-2.0/3)*(7-2.0/3)/2))
	mustBe(t, "within 5 %", control[0].Within, 2.0/3)
	mustBe(t, "spread of one", control[1].LongSdYd, math.NaN())
	mustBe(t, "interval of one round", control[0].LongLoYd, math.NaN())
	var said []string
	for _, warning := range rows.warnings() {
		said = append(said, warning.Figure+": "+warning.Text)
	}
	if all := strings.Join(said, "\n"); !strings.Contains(all, "distance_control: 1 of 5 shots") || !strings.Contains(all, "club_yardages: 1 of 6 approaches") {
		t.Errorf("warnings:\n%s", all)
	}
}
