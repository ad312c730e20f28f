package transform_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"roundmill/transform"
)

// reference reads a table of numbers of testdata/reference, without its header.
func reference(t *testing.T, name string) (rows [][]float64) {
	t.Helper()
	file, err := os.Open("../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	records, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, record := range records[1:] {
		row := make([]float64, len(record))
		for i, cell := range record {
			if row[i], err = strconv.ParseFloat(cell, 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

func playsLike(t *testing.T, toHole, wind string) float64 {
	t.Helper()
	return secondStroke(t, "headwind,crosswind,elevation", "fairway,"+toHole+","+wind, transform.Options{}).PlaysLikeYd[secondRow]
}

// Golf Monthly, "How to calculate distance in the wind".
func TestPlaysLikeDistanceInThePrintedWinds(t *testing.T) {
	rows := reference(t, "plays-like-wind.csv")
	for _, row := range rows {
		toHole, headwind := strconv.FormatFloat(row[0], 'g', -1, 64), strconv.FormatFloat(row[1], 'g', -1, 64)
		if got := playsLike(t, toHole, headwind+",,"); math.Abs(got-row[2]) > 1e-9 {
			t.Errorf("%s yd into %s mph play like %v, printed %v", toHole, headwind, got, row[2])
		}
	}
	if len(rows) != 5 {
		t.Errorf("%d rows, expected 5", len(rows))
	}
}

// One yard longer per yard uphill, one shorter per yard downhill (common
// practice), after the wind.
func TestPlaysLikeDistanceUphillAndDownhill(t *testing.T) {
	for _, shot := range []struct {
		toHole, wind string // headwind, crosswind, elevation
		want         float64
	}{
		{"150", ",,10", 160},
		{"150", ",,-10", 140},
		{"150", ",,0", 150},
		{"150", "0,,", 150},
		{"150", "0,,-5", 145},
		{"200", "10,,10", 230},
		{"200", "-10,,-10", 180},
		{"150", ",,", math.NaN()},
		{"150", ",12,", math.NaN()}, // across the line, it is not known how far it plays
	} {
		if got := playsLike(t, shot.toHole, shot.wind); !same(got, shot.want) {
			t.Errorf("%s yd with %s play like %v, expected %v", shot.toHole, shot.wind, got, shot.want)
		}
	}
}
