package transform_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
)

// compareCells holds columns of a record against rows of cells.
func compareCells(t *testing.T, record arrow.RecordBatch, columns, rows string) {
	t.Helper()
	names, lines := strings.Fields(columns), strings.Split(strings.TrimSpace(rows), "\n")
	if int(record.NumRows()) != len(lines) {
		t.Fatalf("%d rows, expected %d", record.NumRows(), len(lines))
	}
	for row, line := range lines {
		cells := strings.Fields(line)
		if len(cells) != len(names) {
			t.Fatalf("row %d has %d cells for %d columns", row+1, len(cells), len(names))
		}
		for i, name := range names {
			if got, ok := holdsCell(column(t, record, name), row, cells[i]); !ok {
				t.Errorf("row %d: %s is %s, expected %s", row+1, name, got, cells[i])
			}
		}
	}
}

func column(t *testing.T, record arrow.RecordBatch, name string) arrow.Array {
	t.Helper()
	at := record.Schema().FieldIndices(name)
	if len(at) != 1 {
		t.Fatalf("%d columns named %s", len(at), name)
	}
	return record.Column(at[0])
}

// holdsCell reports whether a value of a column is what the cell says: words
// with _ for a space, numbers to 1e-9.
func holdsCell(values arrow.Array, row int, cell string) (got string, ok bool) {
	if values.IsNull(row) {
		return "-", cell == "-"
	}
	switch values := values.(type) {
	case *array.Dictionary:
		word := values.Dictionary().(*array.String).Value(values.GetValueIndex(row))
		got = strings.ReplaceAll(word, " ", "_")
	case *array.Boolean:
		got = map[bool]string{false: "no", true: "yes"}[values.Value(row)]
	case *array.Int32:
		got = strconv.Itoa(int(values.Value(row)))
	case *array.Float64:
		number := values.Value(row)
		feet, inFeet := strings.CutSuffix(cell, "ft")
		want, err := strconv.ParseFloat(feet, 64)
		if inFeet {
			want /= 3
		}
		return strconv.FormatFloat(number, 'g', -1, 64), err == nil && math.Abs(number-want) < 1e-9
	}
	return got, got == cell
}
