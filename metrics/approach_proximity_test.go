package metrics

import (
	"fmt"
	"strings"
	"testing"
)

// holesFrom is a log of par 4s, each with an approach from a distance that
// finishes on the green or short of it in the rough.
func holesFrom(approaches ...float64) []byte {
	var log strings.Builder
	log.WriteString("date,player,hole,par,shot,lie,to_hole\n")
	for i, yd := range approaches {
		hole := fmt.Sprintf("2026-05-%02d,A,%d,4", i/18+1, i%18+1)
		fmt.Fprintf(&log, "%s,1,tee,%v\n%s,2,fairway,%v\n", hole, 150+max(yd, -yd), hole, max(yd, -yd))
		shot := 3
		if yd < 0 {
			fmt.Fprintf(&log, "%s,3,rough,40\n", hole)
			shot++
		}
		fmt.Fprintf(&log, "%s,%d,green,12\n", hole, shot)
	}
	return []byte(log.String())
}

func TestApproachesThatNeverReachTheGreenAreDoubted(t *testing.T) {
	repeated := func(yd float64, times int) (all []float64) {
		for range times {
			all = append(all, yd)
		}
		return all
	}
	short := append(repeated(-180, 12), repeated(-230, 8)...) // below zero: not reached
	metres := testOptions()
	metres.Metres = true
	for _, c := range []struct {
		what       string
		options    Options
		approaches []float64
		want       string
	}{
		{"20 not reached", testOptions(), append(repeated(160, 3), short...),
			"none of 20 approaches from 175 yd and farther finished on the green; if it cannot be reached from there, --reach 175 leaves them out"},
		{"in metres", metres, append(repeated(160, 3), short...),
			"none of 20 approaches from 160 m and farther finished on the green; if it cannot be reached from there, --reach 160 leaves them out"},
		{"19 not reached", testOptions(), append(repeated(160, 3), short[1:]...), ""},
		{"one reached from afar", testOptions(), append(repeated(230, 1), short...), ""},
		{"a miss nearer than one reached", testOptions(), append(repeated(190, 1), repeated(-180, 20)...), ""},
	} {
		got := ""
		for _, warning := range addTo(t, newApproachFigures(c.options), holesFrom(c.approaches...)).warnings() {
			got += warning.Text
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}
