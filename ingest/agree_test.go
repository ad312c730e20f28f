package ingest

import (
	"strings"
	"testing"
)

// What looks odd but may be true is noted, and stays.
func TestContradictionsAreNoted(t *testing.T) {
	tee := "2026-05-31,1,4,1,tee,350,,,"
	for _, c := range []struct{ name, records, notes string }{
		{"left and the next shot", tee + "140,fairway,,\n2026-05-31,1,4,2,fairway,120,,,,,yes,\n",
			"log.csv:2: left says 140.0 yd, but the next shot is from 120.0 yd; name the unit in the header (left_yd, left_ft) if one was misread"},
		{"left within 10 %", tee + "130,fairway,,\n2026-05-31,1,4,2,fairway,120,,,,,yes,\n", ""},
		{"left within 2 yd", tee + "5,rough,,\n2026-05-31,1,4,2,rough,3.5,,,,,,\n", ""},
		{"farther away than before", "2026-05-31,1,4,1,tee,150,,,,,,\n2026-05-31,1,4,2,rough,325,,,,,,\n2026-05-31,1,4,3,green,2,,,,,,\n",
			"log.csv:3: the ball is 325 yd from the hole after a stroke from 150 yd; a penalty or a unit may be missing"},
		{"farther away after a penalty", "2026-05-31,1,4,1,tee,150,,1,,,,\n2026-05-31,1,4,2,rough,325,,,,,,\n2026-05-31,1,4,3,green,2,,,,,,\n", ""},
		{"holed from afar", tee + ",,,\n2026-05-31,1,4,2,fairway,51,,,,,,\n",
			"log.csv:3: hole 1 ends with a stroke from 51 yd, read as holed; write holed = yes to confirm, or add the shots that are missing"},
		{"in the water for nothing", tee + ",water,,\n2026-05-31,1,4,2,rough,60,,,,,,\n2026-05-31,1,4,3,green,2,,,,,,\n",
			"log.csv:2: the ball finished out of play and no penalty is written; write it on this stroke if there was one"},
		{"in the water with a penalty", "2026-05-31,1,4,1,tee,350,,1,,water,,\n2026-05-31,1,4,2,rough,60,,,,,,\n2026-05-31,1,4,3,green,2,,,,,,\n", ""},
		{"holed from near", tee + ",,,\n2026-05-31,1,4,2,fairway,50,,,,,,\n", ""},
		{"holed from afar, and said so", tee + ",,,\n2026-05-31,1,4,2,fairway,120,,,,holed,,\n", ""},
	} {
		o := readLog(t, "log.csv", plainHeader+c.records, Options{})
		if notes := strings.Join(o.notes, "\n"); notes != c.notes || len(o.rejects) > 0 {
			t.Errorf("%s: %s\nexpected %s\n%q", c.name, notes, c.notes, o.rejects)
		}
	}
}

func TestAPuttThatIsSaidToBeHoledIsNotCountedAsOneThatMayLackItsTapIn(t *testing.T) {
	for _, end := range []string{",yes,", ",no,"} {
		o := readLog(t, "log.csv", plainHeader+"2026-05-31,1,4,1,tee,350,,,,,,\n2026-05-31,1,4,2,green,24,,,,"+end+"\n", Options{})
		if o.last.N() != 0 || o.putts.N() != 1 {
			t.Errorf("holed%s: %d last putts, %d first putts", end, o.last.N(), o.putts.N())
		}
	}
}

func TestFirstPuttsAreCountedInFeet(t *testing.T) {
	o := readLog(t, "log.csv", plainHeader+strings.ReplaceAll(goodHole, ",9,", ",1,")+goodHole+strings.NewReplacer(",9,", ",2,", "24", "30").Replace(goodHole), Options{})
	if feet, ok := o.putts.Median(); !ok || feet != 24 {
		t.Errorf("median first putt %d ft, %v", feet, ok)
	}
	if feet, ok := o.last.Median(); !ok || feet != 3 || o.last.N() != 3 {
		t.Errorf("median last putt %d ft of %d, %v", feet, o.last.N(), ok)
	}
	var none FeetCounts
	if _, ok := none.Median(); ok {
		t.Error("a median of no putts")
	}
	none.count(1000)
	if feet, _ := none.Median(); feet != 200 {
		t.Errorf("a putt beyond the last class is in that of %d ft", feet)
	}
}
