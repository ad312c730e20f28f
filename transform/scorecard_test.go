package transform_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"pgregory.net/rapid"

	"roundmill/ingest"
	"roundmill/transform"
)

// valueOf is a value of a table as text, "null" where it is absent.
func valueOf(record arrow.RecordBatch, column string, row int) string {
	values := record.Column(record.Schema().FieldIndices(column)[0])
	if values.IsNull(row) {
		return "null"
	}
	return values.ValueStr(row)
}

// A round by hand: nine holes of par 3, each a tee shot and two putts, and nine
// of which a scorecard gives the score, of some the putts, fairway and green.
func TestNineHolesOfStrokesAndNineOfAScorecard(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,score,putts,fairway,green\n"
	for hole := 1; hole <= 9; hole++ {
		log += fmt.Sprintf("2026-05-31,%d,3,1,tee,150,,,,\n2026-05-31,%d,3,2,green,20,,,,\n2026-05-31,%d,3,3,green,2,,,,\n", hole, hole, hole)
	}
	for hole := 10; hole <= 18; hole++ {
		said := map[int]string{10: "2,yes,no", 11: "3,no,yes", 12: "0,,"}[hole]
		log += fmt.Sprintf("2026-05-31,%d,4,,,,5,%s\n", hole, said)
	}
	s := enriched(t, log, transform.Options{})
	holes, rounds, shots := s.HolesRecord(), s.RoundsRecord(), s.ShotsRecord()
	if holes.NumRows() != 18 || rounds.NumRows() != 1 || shots.NumRows() != 27 {
		t.Fatalf("%d holes, %d rounds, %d shots", holes.NumRows(), rounds.NumRows(), shots.NumRows())
	}
	for _, c := range []struct {
		hole                                                               int
		strokes, score, putts, fairway, green, upAndDown, three, penalties string
	}{
		{9, "3", "3", "2", "null", "true", "null", "false", "0"},
		{10, "null", "5", "2", "true", "false", "null", "false", "null"},
		{11, "null", "5", "3", "false", "true", "null", "true", "null"},
		{12, "null", "5", "0", "null", "null", "null", "false", "null"},
		{13, "null", "5", "null", "null", "null", "null", "null", "null"},
	} {
		for column, want := range map[string]string{
			"strokes": c.strokes, "score": c.score, "putts": c.putts, "fairway_hit": c.fairway, "green_in_regulation": c.green,
			"up_and_down": c.upAndDown, "three_putt": c.three, "penalties": c.penalties, "hole_complete": "true",
		} {
			if got := valueOf(holes, column, c.hole-1); got != want {
				t.Errorf("hole %d: %s %s, expected %s", c.hole, column, got, want)
			}
		}
		if gained := s.Holes.StrokesGained[c.hole-1]; math.IsNaN(gained) != (c.hole > 9) {
			t.Errorf("hole %d gains %v strokes", c.hole, gained)
		}
	}
	for column, want := range map[string]string{
		"holes": "18", "holes_logged": "18", "par": "63", "score": "72", "to_par": "9", "complete": "true",
		"putts": "null", "penalties": "null", "greens_in_regulation": "null", "fairways": "2", "fairways_hit": "1",
		"strokes_gained": "null", "strokes_gained_tee_shot": "null", "strokes_gained_putt": "null",
	} {
		if got := valueOf(rounds, column, 0); got != want {
			t.Errorf("round: %s %s, expected %s", column, got, want)
		}
	}
}

// A par 3 has no fairway; a ball that was picked up has no score.
func TestWhatAScorecardCannotSay(t *testing.T) {
	s := enriched(t, "date,hole,par,score,fairway,holed\n2026-05-31,1,3,4,yes,\n2026-05-31,2,4,9,no,no\n", transform.Options{})
	holes, rounds := s.HolesRecord(), s.RoundsRecord()
	for row, want := range []string{"null 4 true", "null null false"} {
		if got := valueOf(holes, "fairway_hit", row) + " " + valueOf(holes, "score", row) + " " + valueOf(holes, "hole_complete", row); got != want {
			t.Errorf("hole %d: %s, expected %s", row+1, got, want)
		}
	}
	if got := valueOf(rounds, "holes", 0) + " " + valueOf(rounds, "fairways", 0) + " " + valueOf(rounds, "score", 0); got != "1 null 4" {
		t.Errorf("round: %s", got)
	}
	if s.ShotsRecord().NumRows() != 0 {
		t.Error("a hole of a scorecard stands in the shots table")
	}
}

// Beside any strokes, holes of a scorecard add their scores and change nothing
// else.
func TestScorecardsAddScoresAndLeaveStrokesAlone(t *testing.T) {
	mixed := 0
	rapid.Check(t, func(t *rapid.T) {
		header := strings.TrimSuffix(drawnHeader, "\n") + ",score\n"
		plain, with, extra := header, header, map[int]int32{}
		separators := strings.Count(header, ",")
		for number := range rapid.IntRange(1, 3).Draw(t, "rounds") {
			number++
			strokes := drawRound(t, number)
			plain, with = plain+strokes, with+strokes
			key := strings.Join(strings.SplitN(strokes, ",", 4)[:3], ",")
			for hole := range rapid.IntRange(0, 9).Draw(t, "scorecard holes") {
				score := rapid.IntRange(1, 9).Draw(t, "score")
				extra[number] += int32(score)
				with += fmt.Sprintf("%s,%d,4%s%d\n", key, 19+hole, strings.Repeat(",", separators-4), score)
			}
		}
		alone, both := enrichedLog(t, plain), enrichedLog(t, with)
		if both == nil || alone == nil {
			return
		}
		strokes := both.ShotsRecord()
		for i, field := range strokes.Schema().Fields() {
			if field.Name != ingest.SourceLine && fmt.Sprint(strokes.Column(i)) != fmt.Sprint(alone.ShotsRecord().Column(i)) {
				t.Fatalf("%s changes:\n%v\n%v", field.Name, strokes.Column(i), alone.ShotsRecord().Column(i))
			}
		}
		scoreOf := func(s *transform.Shots) map[string]int32 {
			scores := map[string]int32{}
			for round, from := range s.Rounds.From {
				scores[s.Round.At(int(from))] = s.Rounds.Score[round]
			}
			return scores
		}
		before := scoreOf(alone)
		for round, score := range scoreOf(both) {
			var number int
			fmt.Sscan(round, &number)
			if score != before[round]+extra[number] {
				t.Fatalf("round %s: %d, expected %d and %d", round, score, before[round], extra[number])
			}
			if extra[number] > 0 {
				mixed++
			}
		}
		for hole := range both.Holes.Len() {
			if from, to := both.RowRange(hole); both.Holes.IsScorecard(hole) && (to-from != 1 || both.Class[from] != transform.NoClass || !math.IsNaN(both.FinishYd[from])) {
				t.Fatalf("the hole of a scorecard has %d rows, class %d, finish %v", to-from, both.Class[from], both.FinishYd[from])
			}
		}
	})
	if mixed == 0 {
		t.Error("no round had both")
	}
}
