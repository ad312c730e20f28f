package baseline

import (
	"fmt"

	"roundmill/ingest"
)

// A Row is one row of a curve: the value at a distance in yards.
type Row struct{ Yd, Value float64 }

// New makes a table of rows at rising distances: the strokes to hole out for
// each lie category, and the share of putts made. A category without rows is
// missing from the table. Distances that do not rise are a mistake of the
// caller and panic.
func New(name, source string, strokes [ingest.CategoryCount][]Row, made []Row) *Table {
	t := &Table{Name: name, Source: source, made: curveOf(made)}
	for category, rows := range strokes {
		t.curves[category] = curveOf(rows)
	}
	return t
}

func curveOf(rows []Row) (c curve) {
	for i, row := range rows {
		if i > 0 && !(row.Yd > rows[i-1].Yd) {
			panic(fmt.Sprintf("baseline: the distance %v does not rise from %v", row.Yd, rows[i-1].Yd))
		}
		c.append(row.Yd, row.Value)
	}
	return c
}
