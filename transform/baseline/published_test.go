package baseline_test

import (
	"math"
	"os"
	"strconv"
	"testing"

	"roundmill/ingest"
	"roundmill/testdata/reference"
	"roundmill/transform/baseline"
)

func number(t *testing.T, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// M. Broadie (2012), Interfaces 42(2), and M. Broadie (2014), Every Shot
// Counts, written down from memory; the same file as the embedded one, so that
// this holds reading and looking up, cell by cell, and no value to a printed page.
func TestTheEmbeddedTableIsThatOfTheReferences(t *testing.T) {
	professional := baseline.Professional()
	cells := 0
	for _, table := range []struct {
		name    string
		perYard float64
	}{{"strokes-to-hole-out-2012.csv", 1}, {"putts-to-hole-out-2014.csv", 3}} {
		header, rows := reference.Text(t, table.name)
		for _, row := range rows {
			yards := number(t, row[0]) / table.perYard
			for i, cell := range row[1:] {
				if cell == "" {
					continue
				}
				cells++
				var got float64
				switch column := header[i+1]; column {
				case "putts":
					got = professional.Strokes(ingest.Green, yards)
				case "made_share":
					got = professional.MadeShare(yards)
				default:
					got = professional.Strokes(ingest.CategoryNamed(column), yards)
				}
				if got != number(t, cell) {
					t.Errorf("%s: %s from %s is %v, and %s in the references", table.name, header[i+1], row[0], got, cell)
				}
			}
		}
	}
	if cells != 200 {
		t.Errorf("%d cells compared: 35 rows of 5 lacking 9 off the tee, and 17 rows of 2, are 200", cells)
	}
	if missing := professional.Missing(); missing != nil {
		t.Errorf("%v are missing", missing)
	}
}

// The 2012 table, straight between its rows (M. Broadie 2012): values as they
// are quoted.
func TestTheTableOf2012BetweenItsRows(t *testing.T) {
	for _, quoted := range []struct {
		category ingest.Category
		yards    float64
		strokes  float64
	}{
		{ingest.Tee, 400, 3.99},
		{ingest.Fairway, 160, 2.98},
		{ingest.Fairway, 100, 2.80},
		{ingest.Rough, 80, 2.96},
		{ingest.Rough, 180, 3.31},
		{ingest.Sand, 50, 2.92},
		{ingest.Fairway, 150, (2.91 + 2.98) / 2},
		{ingest.Rough, 25, (2.59 + 2.70) / 2},
		{ingest.Tee, 105, 2.92 + 0.25*0.07},
	} {
		if got := baseline.Professional().Strokes(quoted.category, quoted.yards); math.Abs(got-quoted.strokes) > 1e-12 {
			t.Errorf("%v yd, %s: %v strokes, expected %v", quoted.yards, quoted.category, got, quoted.strokes)
		}
	}
}

// Figures repeated in many places after M. Broadie (2014): one putt of two from
// 8 feet is made, and the average is exactly two putts a little past 30 feet.
func TestPublishedPuttingFigures(t *testing.T) {
	professional := baseline.Professional()
	if made := professional.MadeShare(8.0 / 3); made != 0.5 {
		t.Errorf("%v of the putts of 8 ft are made, expected half", made)
	}
	low, high := 1.0, 90.0
	for range 60 {
		if feet := (low + high) / 2; professional.Strokes(ingest.Green, feet/3) < 2 {
			low = feet
		} else {
			high = feet
		}
	}
	if low <= 30 || low >= 35 {
		t.Errorf("the average is two putts from %.1f ft, expected a little past 30", low)
	}
}

// R. Minton, companion page to Golf By the Numbers (2012): 2.93 - 2.68 = +0.25.
func TestThePublishedExampleOfStrokesGained(t *testing.T) {
	file, err := os.Open("../../testdata/reference/strokes-gained-example-2012.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	table, err := baseline.Read(file.Name(), file)
	if err != nil {
		t.Fatal(err)
	}
	before, after := table.Strokes(ingest.Fairway, 150), table.Strokes(ingest.Green, 10.0/3)
	if gained := before - after - 1; math.Abs(gained-0.25) > 1e-12 {
		t.Errorf("strokes gained %v, printed +0.25", gained)
	}
	if table.Name != "strokes-gained-example-2012.csv" {
		t.Errorf("the table is named %q", table.Name)
	}
}

func TestTheFirstAndLastSegmentsAreCarriedOn(t *testing.T) {
	professional := baseline.Professional()
	for _, beyond := range []struct {
		category ingest.Category
		yards    float64
		strokes  float64
	}{
		{ingest.Fairway, 0, 2.18 - 0.22},     // 10 yd 2.18, 20 yd 2.40
		{ingest.Tee, 60, 2.92 - 2*0.07},      // 100 yd 2.92, 120 yd 2.99
		{ingest.Rough, 640, 5.13 + 2*0.03},   // 580 yd 5.10, 600 yd 5.13
		{ingest.Green, 120.0 / 3, 2.4 + .19}, // 60 ft 2.21, 90 ft 2.40
		{ingest.Green, 0, 1},                 // 1 ft 1.00, 2 ft 1.01: under 1, and held at it
		{ingest.Holed, 0, 0},
	} {
		if got := professional.Strokes(beyond.category, beyond.yards); math.Abs(got-beyond.strokes) > 1e-12 {
			t.Errorf("%v yd, %s: %v strokes, expected %v", beyond.yards, beyond.category, got, beyond.strokes)
		}
	}
}

func TestWhatIsNotKnownIsNotANumber(t *testing.T) {
	professional := baseline.Professional()
	for _, unknown := range []float64{
		professional.Strokes(ingest.NoCategory, 100),
		professional.Strokes(ingest.OutOfPlay, 100),
		professional.Strokes(ingest.Fairway, math.NaN()),
		professional.MadeShare(math.NaN()),
	} {
		if !math.IsNaN(unknown) {
			t.Errorf("%v, expected NaN", unknown)
		}
	}
}
