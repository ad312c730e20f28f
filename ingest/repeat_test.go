package ingest

import (
	"strings"
	"testing"
)

const unnumbered = "date,hole,par,lie,to_hole,penalty\n" +
	"2026-05-31,1,4,tee,350,\n2026-05-31,1,4,fairway,120,\n2026-05-31,1,4,green,20,\n2026-05-31,1,4,green,2,\n"

func TestShotsWithoutNumbersAreNumberedByTheirOrder(t *testing.T) {
	o := readLog(t, "log.csv", unnumbered, Options{})
	if got := strings.Join(o.column("shot"), ""); got != "1234" || len(o.rejects) > 0 {
		t.Errorf("shots %s, %q", got, o.rejects)
	}
}

func TestTheSameUnnumberedRoundInTwoFilesIsKeptOnce(t *testing.T) {
	o := readAll(t, openFiles(t, Options{}, map[string]string{"a.csv": unnumbered, "b.csv": unnumbered}))
	if o.tally.Kept != 4 || o.tally.Repeated != 4 || len(o.rejects) > 0 {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
	o = readAll(t, openFiles(t, Options{}, map[string]string{"a.csv": unnumbered, "b.csv": strings.Replace(unnumbered, "120", "121", 1)}))
	if o.tally.Kept != 4 || o.tally.Repeated != 3 || len(o.rejects) != 1 || !strings.Contains(o.rejects[0], "b.csv:3: shot \"2\": shot 2 of hole 1 is there already, at ") {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
}

// Without numbers, two rounds of a day run together; the second tee shot shows
// it, unless the first was lost.
func TestASecondTeeShotWithoutAPenaltyIsNoticed(t *testing.T) {
	twice := unnumbered + strings.SplitN(unnumbered, "\n", 2)[1]
	o := readLog(t, "log.csv", twice, Options{})
	want := `log.csv:6: lie "tee": expected one stroke from the tee, found another without a penalty before it; number the shots, or tell two rounds of a day apart in a column round (hole 1 of 2026-05-31 is left out of scores)`
	if len(o.rejects) != 1 || o.rejects[0] != want || strings.Join(o.column(HoleState), "") != "11111111" {
		t.Errorf("%q, hole states %v", o.rejects, o.column(HoleState))
	}
	again := strings.Replace(unnumbered, "tee,350,\n", "tee,350,1\n2026-05-31,1,4,tee,350,\n", 1)
	if o := readLog(t, "log.csv", again, Options{}); len(o.rejects) > 0 || strings.Join(o.column("shot"), "") != "12345" {
		t.Errorf("played again after a penalty: %q", o.rejects)
	}
}

func TestTheSameLineTwiceInOneFileIsRefused(t *testing.T) {
	o := readLog(t, "log.csv", plainHeader+goodHole+strings.SplitAfter(goodHole, "\n")[3], Options{})
	if o.tally.Kept != 4 || o.tally.Refused != 1 || len(o.rejects) != 1 {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
}

func TestPenaltyStrokesMayCountInTheNumbering(t *testing.T) {
	for _, numbers := range []string{"1 2 3 4", "1 3 4 5"} {
		text := "date,hole,par,shot,lie,to_hole,penalty\n"
		for i, rest := range []string{",tee,350,1\n", ",rough,180,\n", ",green,20,\n", ",green,2,\n"} {
			text += "2026-05-31,1,4," + strings.Fields(numbers)[i] + rest
		}
		if o := readLog(t, "log.csv", text, Options{}); len(o.rejects) > 0 || strings.Join(o.column(HoleState), "") != "0000" {
			t.Errorf("%s: %q", numbers, o.rejects)
		}
	}
}

func TestTheLengthOfAHoleIsConstantWhereItIsWritten(t *testing.T) {
	text := "date,hole,par,shot,lie,to_hole,hole_length\n2026-05-31,1,3,1,tee,150,\n2026-05-31,1,3,2,green,20,160\n2026-05-31,1,3,3,green,2,%\n"
	if o := readLog(t, "log.csv", strings.Replace(text, "%", "160", 1), Options{}); len(o.rejects) > 0 {
		t.Errorf("%q", o.rejects)
	}
	o := readLog(t, "log.csv", strings.Replace(text, "%", "161", 1), Options{})
	if len(o.rejects) != 1 || o.rejects[0] != `log.csv:4: hole_length "161": expected 160 yd as for the shots before (hole 1 of 2026-05-31 is left out of scores)` || o.tally.Kept != 3 {
		t.Errorf("%q", o.rejects)
	}
}

// A hole that stands twice in a file, each record the same, is a copy. Of a record
// alone that is not said, and a copy that differs is none.
func TestAHoleCopiedInItsFileIsKeptOnce(t *testing.T) {
	hole := []string{"2026-05-31,1,4,1,tee,400\n", "2026-05-31,1,4,2,fairway,150\n", "2026-05-31,1,4,3,green,9\n"}
	whole := strings.Join(hole, "")
	const header = "date,hole,par,shot,lie,to_hole\n"
	for what, c := range map[string]struct {
		log                        string
		repeated, refused, leftOut int64
	}{
		"twice":           {whole + whole, 3, 0, 0},
		"three times":     {whole + whole + whole, 6, 0, 0},
		"a record":        {whole + hole[1], 0, 1, 1},
		"all but one":     {whole + hole[0] + hole[1], 0, 2, 1},
		"another at last": {whole + hole[0] + hole[1] + "2026-05-31,1,4,3,green,8\n", 0, 3, 1},
	} {
		o := readLog(t, "log.csv", header+c.log, Options{})
		if o.tally.Kept != 3 || o.tally.Repeated != c.repeated || o.tally.Refused != c.refused || o.tally.LeftOut != c.leftOut {
			t.Errorf("%s: %+v, %q", what, o.tally, o.rejects)
		}
	}
}

// A record whose day cannot be read may be of the hole before it or of the one
// after it.
func TestHolesBesideARecordThatNamesNoneAreCounted(t *testing.T) {
	const header, one, other = "date,hole,par,shot,lie,to_hole\n", "2026-05-30,1,3,1,tee,150\n2026-05-30,1,3,2,green,9\n", "2026-06-06,1,3,1,tee,150\n2026-06-06,1,3,2,green,9\n"
	for log, want := range map[string]int64{
		one + other: 0,
		one + "2026-06-31,1,3,3,green,2\n" + other: 2,
		one + "2026-05-30,two,3,1,tee,150\n":       1,
		one + "2026-05-30,1,3,3,green,-2\n":        1,
	} {
		if o := readLog(t, "log.csv", header+log, Options{}); o.tally.LeftOut != want {
			t.Errorf("%d holes left out, expected %d: %q of\n%s", o.tally.LeftOut, want, o.rejects, log)
		}
	}
}
