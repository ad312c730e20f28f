package metrics

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"roundmill/testdata/reference"
)

func inTenths(strokes float64) tenths { return tenths(math.Round(10 * strokes)) }

// Published: USGA Handicap System Manual 10-1, the same formula: 95 on 67.3/111
// is 28.199, so 28.2.
func TestTheDifferentialOfThePublishedExample(t *testing.T) {
	if got := ratedAs(67.3, 111).differential(95); got != 282 {
		t.Errorf("95 on 67.3/111 is %v", got.strokes())
	}
}

// Rule 5.1 (from memory): a plus value is rounded towards zero at the half,
// -1.55 to -1.5.
func TestHalvesOfPlusValuesAreRoundedTowardsZero(t *testing.T) {
	for _, want := range []struct{ hundredths, tenths int }{
		{-154, -15}, {-155, -15}, {-156, -16}, {-5, 0}, {-4, 0}, {154, 15}, {155, 16}, {156, 16}, {5, 1}, {0, 0},
	} {
		if got := roundedUp(want.hundredths, 10); got != want.tenths {
			t.Errorf("%v becomes %v", float64(want.hundredths)/100, float64(got)/10)
		}
	}
	// 113/113 x (70 - 71.55): a Course Rating to a hundredth, to hit the half.
	if got := ratedAs(71.55, 113).differential(70); got != -15 {
		t.Errorf("a differential of -1.55 becomes %v", got.strokes())
	}
}

// Rule 5.2a (testdata/reference/handicap-differentials-counted.csv, from
// memory), held against sequences made by hand: differentials that fall by 1.3
// a round from 40.0, so that the lowest are the last ones.
func TestEachRowOfTheTableOfDifferentials(t *testing.T) {
	rows := reference.Numbers(t, "handicap-differentials-counted.csv")
	if len(rows) != 18 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		scores, lowest, adjustment := int(row[0]), int(row[1]), row[2]
		var record scoringRecord
		var last posted
		differential := func(i int) float64 { return 40 - 1.3*float64(i) }
		for i := range scores {
			last = record.post(int32(i), inTenths(differential(i)))
		}
		mean := 0.0
		for i := scores - lowest; i < scores; i++ {
			mean += differential(i) / float64(lowest)
		}
		want := tenths(math.Floor(10*(mean+adjustment) + 0.5 + 1e-9))
		if !last.hasIndex || last.index != want || last.counted != lowest {
			t.Errorf("%d scores: index %v of %d differentials, expected %v of %d", scores, last.index.strokes(), last.counted, want.strokes(), lowest)
		}
	}
	var record scoringRecord
	for i := range 2 {
		if p := record.post(int32(i), 100); p.hasIndex {
			t.Errorf("an index after %d scores", i+1)
		}
	}
}

// Only the 20 most recent scores count: a low one drops out after 20 more. The
// scores are over a year apart, so that no low index holds the rise back.
func TestOnlyTheLastTwentyCount(t *testing.T) {
	var record scoringRecord
	record.post(0, 100)
	for i := range int32(19) {
		record.post(400*(i+1), 160)
	}
	if p := record.post(400*20, 160); p.index != 160 || p.hasLow {
		t.Errorf("20 differentials of 16.0 give %v", p.index.strokes())
	}
}

// Published examples (testdata/reference/handicap-caps.csv: USGA).
func TestCapsOfThePublishedExamples(t *testing.T) {
	want := []string{SoftCap, HardCap, SoftCap}
	for i, row := range reference.Numbers(t, "handicap-caps.csv") {
		index, capped := cappedIndex(inTenths(row[0]), inTenths(row[1]))
		if index != inTenths(row[2]) || capped != want[i] {
			t.Errorf("average %v over a low index of %v: %v, cap %q; expected %v", row[0], row[1], index.strokes(), capped, row[2])
		}
	}
	for _, free := range []tenths{-20, 100, 130} {
		if index, capped := cappedIndex(free, 100); index != free || capped != "" {
			t.Errorf("%v over 10.0 is capped to %v", free.strokes(), index.strokes())
		}
	}
	if index, capped := cappedIndex(170, 100); index != 150 || capped != SoftCap {
		t.Errorf("7.0 over the low index is where the soft cap meets the hard one: %v, %q", index.strokes(), capped)
	}
}

// Twenty differentials of 6.5, one a week, then of 16.0. The low index is the
// 6.5 - 2.0 after the third. Worked by hand: of the last 20 the best eight are
// seven of 6.5 and one of 16.0 after 13 of 16.0, and so on.
func TestARecordIsCappedFromTwentyScoresOn(t *testing.T) {
	var record scoringRecord
	week := int32(0)
	post := func(differential tenths) posted {
		week++
		return record.post(7*week, differential)
	}
	for i := range 20 {
		if p := post(65); p.hasLow != (i == 19) {
			t.Errorf("%d scores: %+v", i+1, p)
		}
	}
	for i := range 17 {
		p := post(160)
		want := posted{counted: 8, hasIndex: true, index: 65, hasLow: true, low: 45}
		switch i + 1 {
		case 13: // mean 7.6875, so 7.7: half of 0.2 over 7.5
			want.index, want.capped = 76, SoftCap
		case 14: // 8.875, so 8.9: half of 1.4
			want.index, want.capped = 82, SoftCap
		case 15: // 10.0625, so 10.1: half of 2.6
			want.index, want.capped = 88, SoftCap
		case 16: // 11.25, so 11.3: half of 3.8
			want.index, want.capped = 94, SoftCap
		case 17: // 12.4375, so 12.4: half of 4.9 would be 9.95
			want.index, want.capped = 95, HardCap
		}
		if p != want {
			t.Errorf("%d scores of 16.0: %+v, expected %+v", i+1, p, want)
		}
	}
}

// Rule 5.7: the lowest in the 365 days before the day of the most recent score.
func TestTheLowIndexLooksBack365Days(t *testing.T) {
	record := scoringRecord{
		differentials: make([]tenths, recordLength),
		indexes:       []datedIndex{{100, 50}, {200, 60}, {465, 40}, {466, 90}},
	}
	for _, want := range []struct {
		day int32
		low tenths
	}{
		{465, 50}, // day 100 is 365 days before, day 465 itself does not count
		{466, 40},
		{831, 90}, // day 465 is 366 days before, day 466 is 365
	} {
		if low, known := record.low(want.day); !known || low != want.low {
			t.Errorf("day %d: %v, expected %v", want.day, low.strokes(), want.low.strokes())
		}
	}
	if _, known := record.low(832); known {
		t.Error("a low index after a year without a score")
	}
	// The index between two rounds of one day was never in force.
	record.keep(datedIndex{900, 20})
	record.keep(datedIndex{900, 80})
	if low, known := record.low(901); !known || low != 80 {
		t.Errorf("after two rounds on day 900: %v", low.strokes())
	}
	record.differentials = record.differentials[1:]
	if _, known := record.low(466); known {
		t.Error("a low index from 19 scores")
	}
}

// Rule 5.9: 7.0 to 9.9 better than the index in force takes 1 off each of the
// last 20 differentials, 10.0 or more 2.
func TestExceptionalScoresReduceEveryDifferential(t *testing.T) {
	for _, want := range []struct {
		differential, reduction, index tenths
	}{
		{131, 0, 191},  // 6.9 better: 13.1 and seven of 20.0, 19.1375
		{130, 10, 181}, // 7.0 better: 12.0 and seven of 19.0
		{101, 10, 178}, // 9.9 better: 9.1 and seven of 19.0, 17.7625
		{100, 20, 168}, // 10.0 better: 8.0 and seven of 18.0, 16.75
	} {
		var record scoringRecord
		for day := range int32(20) {
			record.post(day, 200)
		}
		// The first indexes were lower, and would hold a rise back for a year.
		for day := int32(400); day < 420; day++ {
			record.post(day, 200)
		}
		p := record.post(421, want.differential)
		if p.reduction != want.reduction || p.index != want.index {
			t.Errorf("%v after an index of 20.0: reduction %v, index %v; expected %v and %v", want.differential.strokes(),
				p.reduction.strokes(), p.index.strokes(), want.reduction.strokes(), want.index.strokes())
		}
		// What came off stays off: the next ordinary score takes nothing more.
		if next := record.post(422, 250); next.reduction != 0 || next.index != want.index {
			t.Errorf("the next score: %+v", next)
		}
	}
}

func TestNoIndexIsAbove54(t *testing.T) {
	var record scoringRecord
	var p posted
	for day := range int32(5) {
		p = record.post(day, 600)
	}
	if p.index != 540 || p.capped != MaximumCap {
		t.Errorf("%+v", p)
	}
}

// Rule 6.1: Handicap Index x Slope / 113 + (Course Rating - par). Worked by
// hand: 15.4 x 125 / 113 + (72.1 - 72) = 17.14; +2.0 on 68.0/100, par 72:
// -1.77 - 4 = -5.77; 10.0 x 113/113 + 0.5 = 10.5, so 11; -10.5, so -10.
func TestCourseHandicaps(t *testing.T) {
	for _, want := range []struct {
		index         float64
		rating, slope float64
		par, handicap int
	}{
		{15.4, 72.1, 125, 72, 17}, {-2, 68, 100, 72, -6}, {10, 72.5, 113, 72, 11}, {-10, 71.5, 113, 72, -10}, {0, 72, 130, 72, 0},
	} {
		if got := ratedAs(want.rating, want.slope).courseHandicap(inTenths(want.index), want.par); got != want.handicap {
			t.Errorf("index %v on %v/%v, par %d: %d, expected %d", want.index, want.rating, want.slope, want.par, got, want.handicap)
		}
	}
}

// Strokes go to stroke index 1 first and come back from 18 first; over 18 holes
// they add up to the Course Handicap.
func TestStrokesReceivedAddUpToTheCourseHandicap(t *testing.T) {
	for handicap := -40; handicap <= 60; handicap++ {
		sum := 0
		for index := 1; index <= 18; index++ {
			sum += strokesReceived(handicap, index)
		}
		if sum != handicap {
			t.Errorf("%d strokes come to %d", handicap, sum)
		}
	}
	for _, want := range []struct{ handicap, index, strokes int }{
		{0, 1, 0}, {1, 1, 1}, {1, 2, 0}, {18, 18, 1}, {20, 2, 2}, {20, 3, 1}, {-1, 18, -1}, {-1, 17, 0}, {-3, 16, -1}, {-3, 15, 0},
	} {
		if got := strokesReceived(want.handicap, want.index); got != want.strokes {
			t.Errorf("%d strokes on index %d: %d, expected %d", want.handicap, want.index, got, want.strokes)
		}
	}
}

func handicapsOf(t *testing.T, rounds ...writtenRound) []Handicap {
	t.Helper()
	return addTo(t, newHandicapFigures(testOptions()), writtenLog(rounds...)).Rows()
}

func onDay(day int, gross int) writtenRound {
	date := time.Date(2026, time.April, 1+day, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
	return writtenRound{date: date, rating: "72,113", holes: in(gross)}
}

// Rule 3.1: a hole counts up to par + 5 before there is an index, then up to
// net double bogey.
func TestAHoleCountsUpToItsMaximum(t *testing.T) {
	rounds := []writtenRound{onDay(0, 90), onDay(1, 90), onDay(2, 90), onDay(3, 90)}
	rounds[0].holes[4].score = 12  // par + 8, counts 9
	rounds[3].holes[2].score = 12  // stroke index 3 at a Course Handicap of 16: 4 + 2 + 1 = 7
	rounds[3].holes[16].score = 12 // stroke index 17: 4 + 2 = 6
	rows := handicapsOf(t, rounds...)
	// On 72/113 a differential is the score less 72. 90 + 7 = 97, adjusted 94; the third gives 18.0 - 2.0.
	for i, want := range []struct{ gross, adjusted, differential, before, handicap, after float64 }{
		{97, 94, 22, math.NaN(), math.NaN(), math.NaN()},
		{90, 90, 18, math.NaN(), math.NaN(), math.NaN()},
		{90, 90, 18, math.NaN(), math.NaN(), 16},
		{104, 93, 21, 16, 16, 17},
	} {
		row := rows[i]
		got := []float64{row.Gross, row.AdjustedGross, row.Differential, row.IndexBefore, row.CourseHandicap, row.IndexAfter}
		sameRows(t, fmt.Sprintf("round %d", i+1), []float64{want.gross, want.adjusted, want.differential, want.before, want.handicap, want.after}, got)
		if row.Note != "" || row.Standing != HandicapStanding || row.Scores != int64(i+1) {
			t.Errorf("round %d: %+v", i+1, row)
		}
	}
}

// Two rounds on one day are both played to the index of the days before.
func TestRoundsOfOneDayArePlayedToTheIndexBeforeIt(t *testing.T) {
	rounds := []writtenRound{onDay(0, 90), onDay(1, 90), onDay(2, 90), onDay(3, 80), onDay(3, 80), onDay(4, 90)}
	rounds[3].round, rounds[4].round = "1", "2"
	rows := handicapsOf(t, rounds...)
	if rows[3].IndexBefore != 16 || rows[4].IndexBefore != 16 {
		t.Errorf("before the two rounds: %v and %v", rows[3].IndexBefore, rows[4].IndexBefore)
	}
	// Each is 8.0 better than 16.0 and takes 1 off all so far: 7.0, then 6.0 and 7.0.
	if rows[3].Exceptional != -1 || rows[4].Exceptional != -1 || rows[4].IndexAfter != 6 || rows[5].IndexBefore != 6 {
		t.Errorf("%+v\n%+v\n%+v", rows[3], rows[4], rows[5])
	}
}

func TestRoundsThatDoNotCountAreListedWithTheReason(t *testing.T) {
	nine, incomplete, unrated, unindexed := onDay(3, 90), onDay(4, 90), onDay(5, 90), onDay(6, 90)
	nine.holes = nine.holes[:9]
	incomplete.holes[7].pickedUp = true
	unrated.rating = "72,"
	for i := range unindexed.holes {
		unindexed.holes[i].strokeIndex = 0
	}
	unindexed.holes[0].score = 12 // counts 9, where net double bogey would be 7
	figures := addTo(t, newHandicapFigures(testOptions()),
		writtenLog(onDay(0, 90), onDay(1, 90), onDay(2, 90), nine, incomplete, unrated, unindexed))
	rows := figures.Rows()
	for i, note := range []string{"", "", "", noteHoles, noteIncomplete, noteRating, noteNoStrokeIndex} {
		if rows[i].Note != note {
			t.Errorf("round %d: note %q", i+1, rows[i].Note)
		}
		if left := i >= 3 && i <= 5; left != math.IsNaN(rows[i].Differential) || left != math.IsNaN(rows[i].IndexAfter) && i >= 2 {
			t.Errorf("round %d: %+v", i+1, rows[i])
		}
	}
	if rows[6].Scores != 4 || rows[6].AdjustedGross != 94 {
		t.Errorf("without stroke indexes: %+v", rows[6])
	}
	var texts []string
	for _, warning := range figures.warnings() {
		texts = append(texts, warning.Text)
	}
	want := []string{HandicapStanding}
	for _, note := range []string{noteIncomplete, noteHoles, noteRating, noteNoStrokeIndex} {
		want = append(want, "handicap, "+note+": 1 of 7 rounds")
	}
	if !slices.Equal(texts, want) {
		t.Errorf("warnings %q", texts)
	}
}

// A round begun on hole 10 has its rating on the first line that was written.
func TestTheRatingMayStandOnAnyLineOfARound(t *testing.T) {
	log := "date,course,tees,course_rating,slope_rating,hole,par,stroke_index,score\n"
	for i := range 18 {
		hole := 1 + (i+9)%18
		tees, rating := "", ","
		if i == 0 {
			tees, rating = "white", "71.5,120"
		}
		log += fmt.Sprintf("2026-05-01,Example,%s,%s,%d,4,%d,5\n", tees, rating, hole, hole)
	}
	rows := finished(t, []byte(log)).Handicap
	if len(rows) != 1 || rows[0].CourseRating != 71.5 || rows[0].Tees != "white" || rows[0].Note != "" {
		t.Errorf("%+v", rows)
	}
}
