package plots

import (
	"math"
	"strings"
	"testing"
	"time"

	"roundmill/metrics"
)

// posted is a round that counts; noted is one that does not.
func posted(date string, scores, of int64, differential, index, low float64) metrics.Handicap {
	played, err := time.Parse(time.DateOnly, date)
	if err != nil {
		panic(err)
	}
	return metrics.Handicap{
		Player: "A", Date: played, Holes: 18, CourseRating: 71, SlopeRating: 120, Scores: scores, Counted: of,
		Differential: differential, IndexAfter: index, LowIndex: low,
	}
}

func noted(note string, courseRating float64) metrics.Handicap {
	nan := math.NaN()
	return metrics.Handicap{
		Player: "A", Date: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC), Note: note, CourseRating: courseRating, SlopeRating: courseRating,
		Differential: nan, IndexAfter: nan, LowIndex: nan,
	}
}

func TestTheHandicapTitleSaysThatItIsAnEstimate(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what string
		last metrics.Handicap
		want string
	}{
		{"a full record", posted("2026-06-01", 44, 8, 12.1, 11.34, 10.2), "Estimated Handicap Index: 11.3, from the best 8 of the last 20 rounds"},
		{"twenty scores", posted("2026-06-01", 20, 8, 12.1, 11.3, 10.2), "Estimated Handicap Index: 11.3, from the best 8 of 20 rounds"},
		{"twelve scores", posted("2026-06-01", 12, 4, 12.1, 11.3, nan), "Estimated Handicap Index: 11.3, from the best 4 of 12 rounds"},
		{"three scores", posted("2026-06-01", 3, 1, 12.1, 11.3, nan), "Estimated Handicap Index: 11.3, from the best of 3 rounds"},
		{"a plus index", posted("2026-06-01", 44, 8, 0.4, -0.9, -1.4), "Estimated Handicap Index: +0.9, from the best 8 of the last 20 rounds"},
		{"scratch", posted("2026-06-01", 44, 8, 0.4, -0.04, -1.4), "Estimated Handicap Index: 0.0, from the best 8 of the last 20 rounds"},
	} {
		chart, missing := HandicapChart(Season{Player: "A"}, []metrics.Handicap{posted("2026-05-01", 2, 0, 13, nan, nan), test.last})
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
		said := ""
		for _, label := range labelsOf(chart) {
			said += label.text + " "
		}
		if want := "only an authorised association issues a Handicap Index."; !strings.Contains(said, want) || !strings.Contains(chart.Alt, want) {
			t.Errorf("%s: picture and alt text do not say that %s", test.what, want)
		}
	}
}

func TestRoundsThatDoNotCountAreCountedByReason(t *testing.T) {
	rows := []metrics.Handicap{
		noted("left out, a hole is not complete", 71), noted("left out, not a round of 18 holes", 71), noted("left out, not a round of 18 holes", 71),
		noted("no stroke_index from 1 to 18, a hole counts up to par + 5", 71),
	}
	if got, want := spaced(leftOutOf(rows)), "Left out: 1 round (a hole is not complete), 2 rounds (not a round of 18 holes)."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := leftOutOf(rows[3:]); got != "" {
		t.Errorf("a round that counts is left out: %q", got)
	}
	words := handicapWords{rows: rows, last: posted("2026-06-01", 44, 8, 1, 1, 1)}
	if got := spaced(words.source()[0]); !strings.Contains(got, "In 1 round a hole counts up to par + 5, for want of stroke_index.") {
		t.Errorf("the foot says %q", got)
	}
}

func TestWithoutAnIndexTheReasonNamesWhatIsMissing(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what string
		rows []metrics.Handicap
		want string
	}{
		{"no round", nil, "No round is logged."},
		{"no ratings", []metrics.Handicap{noted("left out, no course_rating or no slope_rating", nan)},
			"No round is rated: the columns course_rating and slope_rating of the log are needed."},
		{"one score", []metrics.Handicap{posted("2026-05-01", 1, 0, 13, nan, nan)},
			"One complete, rated round of 18 holes; an estimated index takes 3."},
		{"two scores and others", []metrics.Handicap{posted("2026-05-01", 1, 0, 13, nan, nan), posted("2026-05-02", 2, 0, 13, nan, nan), noted("left out, no course_rating or no slope_rating", nan)},
			"Two complete, rated rounds of 18 holes; an estimated index takes 3. Left out: 1 round (no course_rating or no slope_rating)."},
		{"nine-hole rounds", []metrics.Handicap{noted("left out, not a round of 18 holes", 71)},
			"No complete, rated rounds of 18 holes; an estimated index takes 3. Left out: 1 round (not a round of 18 holes)."},
	} {
		chart, missing := HandicapChart(Season{Player: "A"}, test.rows)
		if chart != nil || missing == nil || spaced(missing.Reason) != test.want {
			t.Errorf("%s: %v, %v", test.what, chart, missing)
		}
	}
}

func TestTheHandicapAltTextGivesTheFigures(t *testing.T) {
	nan := math.NaN()
	chart, _ := HandicapChart(Season{Player: "A"}, []metrics.Handicap{
		posted("2026-05-01", 3, 1, 13, 2.1, nan), posted("2026-06-01", 20, 8, 13, 3.4, nan), posted("2026-07-01", 21, 8, 13, 1.2, -0.3),
	})
	want := "Estimated Handicap Index: 1.2, from the best 8 of the last 20 rounds. After each round, first 2.1, lowest 1.2, highest 3.4, last 1.2; " +
		"Low Handicap Index +0.3; 21 scores. Estimate: only an authorised association issues a Handicap Index."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestTheNamesOfTheLinesKeepApart(t *testing.T) {
	for _, low := range []float64{1, 1.1, 1.2, 1.3, 1.4, 9} {
		chart, missing := HandicapChart(Season{Player: "A"}, []metrics.Handicap{
			posted("2026-05-01", 30, 8, 1, 1.2, low), posted("2026-05-02", 31, 8, 1.3, 1.2, low),
		})
		if missing != nil {
			t.Fatal(missing.Reason)
		}
		assertLabelsHaveTheirPlace(t, chart)
	}
}

func TestMonthTicksAreAsManyAsFit(t *testing.T) {
	day := func(year int, month time.Month, day int) time.Time {
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	}
	for _, test := range []struct {
		first, last time.Time
		want        string
	}{
		{day(2026, 3, 7), day(2026, 3, 22), ""},
		{day(2026, 3, 7), day(2026, 5, 2), "2026-04 2026-05"},
		{day(2026, 3, 7), day(2027, 2, 27), "2026-05 2026-07 2026-09 2026-11 2027-01"},
		{day(2026, 3, 7), day(2032, 7, 3), "2027-01 2028-01 2029-01 2030-01 2031-01 2032-01"},
	} {
		var got []string
		for _, month := range monthTicks(test.first, test.last, 9) {
			got = append(got, month.Format("2006-01"))
		}
		if joined := strings.Join(got, " "); joined != test.want {
			t.Errorf("%v to %v: %s, want %s", test.first, test.last, joined, test.want)
		}
	}
}
