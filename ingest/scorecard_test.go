package ingest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// What is written in a field of a scorecard, what is stored, and what is said
// of a value that cannot be.
func TestScorecardFieldsAreTypedAndChecked(t *testing.T) {
	const number = "expected a number"
	for _, c := range []struct {
		field           field
		written, stored string
		bad             map[string]string
	}{
		{holeScore, "15", "15", map[string]string{"0": "expected 1 to 30", "31": "expected 1 to 30", "birdie": number, "4.5": "expected a whole number"}},
		{holePutts, "0", "0", map[string]string{"16": "expected 0 to 15", "-1": "expected 0 to 15", "two": number, "4": "expected fewer putts than the 4 strokes of the hole"}},
		{fairwayHit, "Y", "true", map[string]string{"left": "expected yes or no"}},
		{greenHit, "no", "false", map[string]string{"short": "expected yes or no"}},
	} {
		read := func(value string) outcome {
			header, record := "date,hole,par,"+c.field.String(), "2026-05-31,1,4,"+value
			if c.field != holeScore {
				header, record = header+",score", record+",4"
			}
			return readLog(t, "log.csv", header+"\n"+record+"\n", Options{})
		}
		if o := read(c.written); len(o.rejects) > 0 || o.column(c.field.String())[0] != c.stored || o.column("shot")[0] != "" {
			t.Errorf("%s %q: %q", c.field, c.written, o.rejects)
		}
		for value, want := range c.bad {
			want = fmt.Sprintf("log.csv:2: %s %q: %s", c.field, value, want)
			if o := read(value); len(o.rejects) != 1 || !strings.HasPrefix(o.rejects[0], want) || o.tally.Kept != 0 {
				t.Errorf("%s %q: %q, expected %s", c.field, value, o.rejects, want)
			}
		}
		if o := read(""); c.field != holeScore && (len(o.rejects) > 0 || o.column(c.field.String())[0] != "") {
			t.Errorf("%s left blank: %q", c.field, o.rejects)
		}
	}
}

// Columns of such names may hold anything beside strokes, as long as nothing
// else in the record is wrong.
func TestNoStrokeIsRefusedForWhatAScorecardWouldSay(t *testing.T) {
	for _, cells := range []string{",,,", "birdie,x,left,fast", "99,99,9,9", "-1,1.5,,", "3,2,yes,yes"} {
		o := readLog(t, "log.csv", "date,hole,par,score,putts,fairway,green,shot,lie,to_hole\n"+
			"2026-05-31,1,3,"+cells+",1,tee,150\n2026-05-31,1,3,"+cells+",2,green,20\n2026-05-31,1,3,"+cells+",3,green,2\n", Options{})
		if len(o.rejects)+len(o.notes) > 0 || o.tally.Kept != 3 || o.tally.Scorecards != 0 || slices.Contains(o.column("shot"), "") {
			t.Errorf("%s: %q, %q, %+v", cells, o.rejects, o.notes, o.tally)
		}
	}
}

func TestAScoreThatItsStrokesContradictIsNotedOnceARound(t *testing.T) {
	strokes := func(hole int, score, putts string) string {
		return fmt.Sprintf("2026-05-31,%d,3,%s,%s,tee,150,1\n2026-05-31,%d,3,%s,%s,green,20,\n", hole, score, putts, hole, score, putts)
	}
	for _, c := range []struct{ log, note string }{
		{strokes(1, "3", "1"), ""},
		{strokes(1, "2", "1"), "log.csv:3: score says 2, but the strokes of hole 1 make 3, which counts; other holes of the round may differ too"},
		{strokes(1, "3", "1") + strokes(2, "3", "2") + strokes(3, "4", ""), "log.csv:5: putts says 2, but the strokes of hole 2 make 1, which counts; other holes of the round may differ too"},
		{"2026-05-31,1,3,5,,tee,150,\n2026-05-31,1,3,5,,rough,20,no\n", ""},
	} {
		header := "date,hole,par,score,putts,lie,to_hole,penalty\n"
		if strings.Contains(c.log, "no\n") {
			header = "date,hole,par,score,putts,lie,to_hole,holed\n" // picked up: the score may be any
		}
		o := readLog(t, "log.csv", header+c.log, Options{})
		if want := []string{c.note}; len(o.rejects) > 0 || c.note == "" && len(o.notes) > 0 || c.note != "" && !slices.Equal(o.notes, want) {
			t.Errorf("%s: %q %q, expected %q", c.log, o.rejects, o.notes, c.note)
		}
	}
}

// A hole is either strokes or one record of a scorecard.
func TestAHoleThatStandsThereTwice(t *testing.T) {
	const header = "date,hole,par,shot,lie,to_hole,score,putts\n"
	const strokes = "2026-05-31,4,3,1,tee,150,,\n2026-05-31,4,3,2,green,20,,\n"
	const after = "2026-05-31,5,4,,,,4,1\n"
	for name, c := range map[string]struct {
		log, reject, note string
		kept, repeated    int64
		states            []string
	}{
		"alike":     {"2026-05-31,4,3,,,,3,1\n2026-05-31,4,3,,,,3,1\n" + after, "", "log.csv:3: the same records of this round also stand at log.csv:2: kept once", 2, 1, []string{"0", "0"}},
		"otherwise": {"2026-05-31,4,3,,,,3,1\n2026-05-31,4,3,,,,3,2\n" + after, `log.csv:3: score "3": another record of hole 4 says something else, at log.csv:2; the hole is left out of scores: remove the wrong one, or tell two rounds of a day apart in a column round`, "", 2, 0, []string{"1", "0"}},
		"strokes":   {strokes + "2026-05-31,4,3,,,,2,1\n" + after, `log.csv:4: score "2": hole 4 is there already with its strokes, at log.csv:2; keep the strokes or the score, or tell two rounds of a day apart in a column round`, "", 3, 0, []string{"0", "0", "0"}},
		"before":    {"2026-05-31,4,3,,,,2,1\n" + strokes + after, `log.csv:2: score "2": hole 4 is there already with its strokes, at log.csv:3; keep the strokes or the score, or tell two rounds of a day apart in a column round`, "", 3, 0, []string{"0", "0", "0"}},
	} {
		o := readLog(t, "log.csv", header+c.log, Options{})
		if got := strings.Join(o.rejects, "\n"); got != c.reject {
			t.Errorf("%s: %s\nexpected %s", name, got, c.reject)
		}
		if got := strings.Join(o.notes, "\n"); got != c.note {
			t.Errorf("%s: %s\nexpected %s", name, got, c.note)
		}
		if o.tally.Kept != c.kept || o.tally.Repeated != c.repeated || !slices.Equal(o.column(HoleState), c.states) {
			t.Errorf("%s: %+v, %q", name, o.tally, o.column(HoleState))
		}
	}
}

// What a round says, such as its own score, is not said of its holes.
func TestJSONHolesWithAScoreAndNoShots(t *testing.T) {
	for log, want := range map[string]struct {
		scores, shots string
		scorecards    int64
	}{
		`[{"date": "2026-05-31", "holes": [{"number": 1, "par": 4, "score": 5, "putts": 2}, {"number": 2, "par": 3, "score": 3}]}]`:                                                                            {"5 3", " ", 2},
		`{"date": "2026-05-31", "hole": 1, "par": 4, "score": 5}` + "\n" + `{"date": "2026-05-31", "hole": {"number": 2, "par": 3}, "score": 3}` + "\n":                                                        {"5 3", " ", 2},
		`[{"date": "2026-05-31", "score": 8, "holes": [{"number": 1, "par": 4, "score": 5, "shots": []}, {"number": 2, "par": 3, "score": 3}]}]`:                                                               {"5 3", " ", 2},
		`[{"date": "2026-05-31", "score": 8, "holes": [{"number": 1, "par": 3, "shots": [{"lie": "tee", "to_hole": 150}, {"lie": "green", "to_hole": 2}]}, {"number": 2, "par": 4, "score": 5}]}]`:             {"  5", "1 2 ", 1},
		`[{"date": "2026-05-31", "score": 8, "holes": [{"number": 1, "par": 3, "score": 2, "shots": [{"lie": "tee", "to_hole": 150}, {"lie": "green", "to_hole": 2}]}, {"number": 2, "par": 4, "score": 5}]}]`: {"2 2 5", "1 2 ", 1},
	} {
		o := readLog(t, "log.json", log, Options{})
		scores, shots := strings.Join(o.column("score"), " "), strings.Join(o.column("shot"), " ")
		if len(o.rejects)+len(o.notes) > 0 || scores != want.scores || shots != want.shots || o.tally.Scorecards != want.scorecards {
			t.Errorf("%s: scores %q, shots %q, %+v, %q %q", log, scores, shots, o.tally, o.rejects, o.notes)
		}
	}
}

// The batch without scorecards is that of the log without them.
func TestStrokesOfABatchAreThoseOfTheLogWithoutScorecards(t *testing.T) {
	const header = "date,hole,par,shot,lie,to_hole,score\n"
	const strokes = "2026-05-31,4,3,1,tee,150,\n2026-05-31,4,3,2,green,20,\n"
	const cards = "2026-05-31,3,3,,,,3\n2026-05-31,5,3,,,,3\n2026-06-01,1,4,,,,5\n"
	batchOf := func(log string) *Batch {
		reader, err := OpenText("log.csv", []byte(log), Options{Workers: 1, Gather: true})
		if err != nil {
			t.Fatal(err)
		}
		var all *Batch
		for rounds, err := range reader.Rounds(t.Context()) {
			if err != nil {
				t.Fatal(err)
			}
			if batch := rounds.Check(); batch.Record != nil && (all == nil || batch.Record.NumRows() > all.Record.NumRows()) {
				all = batch
			}
		}
		return all
	}
	plain, mixed, none := batchOf(header+strokes), batchOf(header+strokes+cards), batchOf(header+cards)
	if plain.Strokes != nil || none.Strokes.Record.NumRows() != 0 || len(none.Strokes.RoundRows) != 0 {
		t.Errorf("%v, %v", plain.Strokes, none.Strokes)
	}
	if got := fmt.Sprint(mixed.Strokes.Record); got != fmt.Sprint(plain.Record) || !slices.Equal(mixed.Strokes.RoundRows, plain.RoundRows) {
		t.Errorf("%s\n%v, expected\n%s\n%v", got, mixed.Strokes.RoundRows, plain.Record, plain.RoundRows)
	}
	if !slices.Equal(slices.Sorted(slices.Values(mixed.RoundRows)), []int{1, 4}) {
		t.Errorf("rounds of %v records", mixed.RoundRows)
	}
}
