package metrics

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
)

// A day is a day in every table, so that other tools can count with it.
func TestColumnsOfDaysHoldDays(t *testing.T) {
	days := 0
	for table := range (&Results{}).Tables() {
		for _, column := range table.Columns {
			if column.Name == "date" || strings.HasSuffix(column.Name, "_date") {
				days++
				if _, ok := column.Values.([]time.Time); !ok {
					t.Errorf("%s.%s holds %T", table.Name, column.Name, column.Values)
				}
			}
		}
	}
	if days < 7 {
		t.Errorf("found only %d columns of days", days)
	}
}

func TestWhatIsAbsentIsNull(t *testing.T) {
	type row struct {
		Day   time.Time `col:"day"`
		Word  string    `col:"word"`
		Share float64   `col:"share"`
	}
	table := TableOf("t", "A test.", []row{{time.Date(1969, 12, 30, 0, 0, 0, 0, time.UTC), "x", 0.5}, {Share: math.NaN()}})
	record := table.Record()
	if day := record.Column(0).(*array.Date32); day.Value(0) != arrow.Date32(-2) {
		t.Errorf("two days before the first of January 1970 is day %d", day.Value(0))
	}
	rows := objects(t, &table)
	for i, column := range table.Columns {
		if record.Column(i).IsNull(0) || record.Column(i).IsValid(1) || rows[0][column.Name] == nil || rows[1][column.Name] != nil {
			t.Errorf("%s: %v and %v", column.Name, record.Column(i), rows)
		}
	}
}
