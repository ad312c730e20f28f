package baseline_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roundmill/ingest"
	"roundmill/transform/baseline"
)

// curve draws rows at rising distances, some close together, some far apart.
func curve(t *rapid.T) (rows []baseline.Row) {
	yards := rapid.Float64Range(0, 50).Draw(t, "first distance")
	value := rapid.Float64Range(1, 3).Draw(t, "first value")
	for range rapid.IntRange(1, 12).Draw(t, "rows") {
		rows = append(rows, baseline.Row{Yd: yards, Value: value})
		yards += rapid.OneOf(rapid.Float64Range(0.01, 1), rapid.Float64Range(1, 80)).Draw(t, "step")
		value += rapid.Float64Range(0, 0.6).Draw(t, "rise")
	}
	return rows
}

func tableOf(rows []baseline.Row) *baseline.Table {
	var strokes [ingest.CategoryCount][]baseline.Row
	strokes[ingest.Fairway] = rows
	return baseline.New("drawn", "this test", strokes, nil)
}

func TestATableEqualsItsRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := curve(t)
		table := tableOf(rows)
		for _, row := range rows {
			if got := table.Strokes(ingest.Fairway, row.Yd); got != row.Value {
				t.Fatalf("%v at %v yd, expected %v", got, row.Yd, row.Value)
			}
		}
	})
}

func TestStrokesAreNeverUnderOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := tableOf(curve(t))
		if got := table.Strokes(ingest.Fairway, rapid.Float64Range(0, 900).Draw(t, "yards")); got < 1 || math.IsNaN(got) {
			t.Fatalf("%v strokes", got)
		}
	})
}

// A step of the distance moves the strokes by no more than the steepest segment
// allows.
func TestStrokesAreContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := curve(t)
		table, steepest := tableOf(rows), 0.0
		for i := range rows[1:] {
			steepest = max(steepest, (rows[i+1].Value-rows[i].Value)/(rows[i+1].Yd-rows[i].Yd))
		}
		last := rows[len(rows)-1].Yd
		yards := rapid.Float64Range(0, last+100).Draw(t, "yards")
		if rapid.Bool().Draw(t, "at a row") {
			yards = rapid.SampledFrom(rows).Draw(t, "row").Yd
		}
		const step = 1e-7
		a, b := table.Strokes(ingest.Fairway, yards-step), table.Strokes(ingest.Fairway, yards+step)
		if math.Abs(a-b) > 2*step*steepest+1e-9 {
			t.Fatalf("%v before and %v behind %v yd", a, b, yards)
		}
	})
}

// Between two rows the value is the one of a plain scan through the table.
func TestALookUpAgreesWithAPlainScan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := curve(t)
		table := tableOf(rows)
		yards := rapid.Float64Range(0, 900).Draw(t, "yards")
		want := rows[0].Value
		for i := range rows[1:] {
			a, b := rows[i], rows[i+1]
			if i == 0 || yards > a.Yd {
				want = a.Value + (yards-a.Yd)/(b.Yd-a.Yd)*(b.Value-a.Value)
			}
		}
		want = max(1, want)
		if got := table.Strokes(ingest.Fairway, yards); math.Abs(got-want) > 1e-9*max(1, want) {
			t.Fatalf("%v at %v yd, a scan finds %v", got, yards, want)
		}
	})
}

func TestAWrittenTableReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := curve(t)
		var text strings.Builder
		text.WriteString("# drawn\ndistance_yd,fairway\n")
		for _, row := range rows {
			fmt.Fprintf(&text, "%v,%v\n", row.Yd, row.Value)
		}
		read, err := baseline.Read("drawn.csv", strings.NewReader(text.String()))
		if err != nil {
			t.Fatal(err)
		}
		table := tableOf(rows)
		for range 10 {
			yards := rapid.Float64Range(0, 900).Draw(t, "yards")
			if got, want := read.Strokes(ingest.Fairway, yards), table.Strokes(ingest.Fairway, yards); got != want {
				t.Fatalf("%v at %v yd, expected %v", got, yards, want)
			}
		}
	})
}
