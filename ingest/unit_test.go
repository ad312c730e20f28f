package ingest

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// 1 yd = 0.9144 m and 1 ft = 0.3048 m exactly: international yard and pound
// agreement, 1959. 1 mile = 1,609.344 m follows.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		header, options string
		putt            Unit
		want            [2]string // from the tee, on the green
	}{
		{"to_hole", "", NoUnit, [2]string{"150", "3"}},
		{"To hole (yd)", "", NoUnit, [2]string{"150", "9"}},
		{"to_hole_ft", "", NoUnit, [2]string{"50", "3"}},
		{"to_hole_m", "", NoUnit, [2]string{num(150 / 0.9144), num(9 / 0.9144)}},
		{"to_hole", "", Yards, [2]string{"150", "9"}},
		{"to_hole", "", Metres, [2]string{"150", num(9 / 0.9144)}},
		{"to_hole_yd", "", Feet, [2]string{"150", "3"}},
		{"TOHOLE", "", NoUnit, [2]string{"150", "3"}},
		{"Yards to hole", "", NoUnit, [2]string{"150", "3"}},
	} {
		o := readLog(t, "log.csv", "date,hole,par,lie,"+c.header+"\n2026-05-31,1,3,tee,150\n2026-05-31,1,3,green,9\n", Options{PuttUnit: c.putt})
		if got := o.column("to_hole_yd"); len(got) != 2 || got[0] != c.want[0] || got[1] != c.want[1] {
			t.Errorf("%s, putts in %v: %v, expected %v (%v)", c.header, c.putt, got, c.want, o.rejects)
		}
	}
	for header, want := range map[string]string{"headwind": "10", "headwind_mph": "10", "Headwind (km/h)": num(10 / 1.609344), "headwind_m/s": num(10 / (1609.344 / 3600))} {
		o := readLog(t, "log.csv", "date,hole,par,lie,to_hole,"+header+"\n2026-05-31,1,3,tee,150,10\n", Options{})
		if got := o.column("headwind_mph"); len(got) != 1 || !near(got[0], want) {
			t.Errorf("%s: %v, expected %s (%v)", header, got, want, o.rejects)
		}
	}
}

func num(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func near(a, b string) bool {
	x, _ := strconv.ParseFloat(a, 64)
	y, _ := strconv.ParseFloat(b, 64)
	return math.Abs(x-y) < 1e-12*math.Abs(y)
}

// left without a unit is in feet where the ball ends on the green, as finish_lie
// or the next shot tells, and in yards elsewhere.
func TestLeftIsInFeetOnTheGreen(t *testing.T) {
	o := readLog(t, "log.csv", `date,hole,par,shot,lie,to_hole,left,finish_lie
2026-05-31,1,5,1,tee,500,240,fairway
2026-05-31,1,5,2,fairway,240,30,
2026-05-31,1,5,3,rough,30,12,
2026-05-31,1,5,4,green,12,3,green
2026-05-31,1,5,5,green,3,0,holed
`, Options{})
	if got := strings.Join(o.column("left_yd"), " "); got != "240 30 4 1 0" {
		t.Errorf("left %s (%v %v)", got, o.rejects, o.notes)
	}
}

// A longer putt takes the place of to_hole on the green.
func TestPuttLengthIsInFeet(t *testing.T) {
	o := readLog(t, "log.csv", "date,hole,par,lie,to_hole,putt_length\n2026-05-31,1,3,tee,150,\n2026-05-31,1,3,green,5,12\n2026-05-31,1,3,green,,3\n", Options{})
	if got := strings.Join(o.column("to_hole_yd"), " "); got != "150 4 1" {
		t.Errorf("%s (%v)", got, o.rejects)
	}
}
