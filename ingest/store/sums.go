package store

import (
	"github.com/apache/arrow-go/v18/arrow"
	"github.com/parquet-go/parquet-go/format"
)

// sums is what a file must hold: its rows, and of every column the name, the
// type, the nulls and, unless it holds words, the sum, least and greatest value,
// added up in the order of the rows. A day counts as its number, yes as 1.
type sums struct {
	rows    int64
	columns []columnSum
}

type columnSum struct {
	name, kind string // the type as Parquet calls it
	codec      string // that its pages are compressed with
	nulls      int64
	extent
}

type extent struct{ sum, min, max float64 }

func newSums(schema *arrow.Schema) *sums {
	s := &sums{columns: make([]columnSum, schema.NumFields())}
	for i, field := range schema.Fields() {
		s.columns[i] = columnSum{name: field.Name, kind: parquetTypes[field.Type.ID()], codec: format.Zstd.String()}
	}
	return s
}

// parquetTypes are the types of columns and what they are in a file.
var parquetTypes = map[arrow.Type]string{
	arrow.FLOAT64: "DOUBLE", arrow.INT32: "INT(32,true)", arrow.INT64: "INT(64,true)",
	arrow.BOOL: "BOOLEAN", arrow.DATE32: "DATE", arrow.DICTIONARY: "STRING",
}

func (c *columnSum) words() bool { return c.kind == "STRING" }

// with is the extent with another value.
func (e extent) with(v float64, first bool) extent {
	if first || v < e.min {
		e.min = v
	}
	if first || v > e.max {
		e.max = v
	}
	e.sum += v
	return e
}

func yesIs1(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// addValues adds values to a sum of as many as were seen.
func addValues[V float64 | int32 | int64](c *columnSum, values []V, seen int64) {
	all := c.extent
	for i, v := range values {
		all = all.with(float64(v), seen+int64(i) == 0)
	}
	c.extent = all
}
