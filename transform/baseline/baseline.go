// Package baseline holds what strokes gained are measured against: the average
// strokes to hole out from a distance and a lie.
package baseline

import (
	"bytes"
	"embed"
	"sync"

	"roundmill/ingest"
)

// The embedded tables. Their first lines name the source and say that the
// values were written down from memory.
//
//go:embed strokes-to-hole-out-2012.csv putts-to-hole-out-2014.csv
var tables embed.FS

// A Table is one baseline: for each lie category a curve of strokes to hole
// out over distance.
type Table struct {
	Name   string // short, stands beside every figure
	Source string // where the values come from, in a sentence
	curves [ingest.CategoryCount]curve
	made   curve
}

// Professional is the embedded published table: men's professional tour,
// M. Broadie (2012), Interfaces 42(2), and (2014), Every Shot Counts; values
// from memory.
func Professional() *Table { return professional() }

var professional = sync.OnceValue(func() *Table {
	t := &Table{
		Name: "men's professional tour (Broadie 2012, 2014; from memory)",
		Source: "Men's professional tour: M. Broadie (2012), Assessing Golfer Performance on the PGA TOUR, Interfaces 42(2), " +
			"and M. Broadie (2014), Every Shot Counts, Gotham Books. The values were written down from memory of the printed tables.",
	}
	for _, name := range []string{"strokes-to-hole-out-2012.csv", "putts-to-hole-out-2014.csv"} {
		text, err := tables.ReadFile(name)
		if err == nil {
			err = t.read(name, bytes.NewReader(text))
		}
		if err != nil {
			panic(err)
		}
	}
	return t
})

// Missing lists the lie categories for which the table has no values.
func (t *Table) Missing() (names []string) {
	for c := ingest.Tee; c <= ingest.Green; c++ {
		if len(t.curves[c].yards) == 0 {
			names = append(names, c.String())
		}
	}
	return names
}

// Strokes is the average number of strokes to hole out from a category and a
// distance in yards: straight between the rows of the table, the first and last
// segments carried on, never under 1, and 0 when holed. It is NaN where the
// table has no values or the distance is not known.
func (t *Table) Strokes(c ingest.Category, yards float64) float64 {
	if c == ingest.Holed {
		return 0
	}
	strokes := t.curves[c].at(yards)
	if strokes < 1 {
		return 1
	}
	return strokes
}

// MadeShare is the share of putts from a distance in yards that are holed, as
// far as the table says; NaN where it does not.
func (t *Table) MadeShare(yards float64) float64 {
	return min(1, max(0, t.made.at(yards)))
}
