// Package metrics adds enriched shots up into the figures that a season can
// answer. Each group of figures is an accumulator over batches (Figures) that
// ends as typed rows; TableOf turns rows into a Table for files and scripts.
package metrics

import (
	"fmt"
	"math"
	"reflect"
	"time"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"

	"roundmill/transform"
)

// Table is a finished group of figures in long form: columns of equal length,
// in the order of the row type's fields.
type Table struct {
	Name    string // snake case, the file's name without extension
	About   string // one sentence: what a row is
	Rows    int
	Columns []Column
}

// A Rank is a place from 1 on; 0, no place, is null in a table.
type Rank int64

// Column is one column of a Table. Values is a []string ("" is null), []int64,
// []Rank (0 is null), []float64 (NaN is null), []bool or []time.Time (a day;
// zero is null).
type Column struct {
	Name   string // snake case with its unit as suffix
	Unit   string // yd, ft, share, strokes ... or "" for a plain count or name
	About  string // what it means, for datapackage.json
	Values any
}

// TableOf turns rows of a struct type into a Table. A field becomes a column
// through its tags: `col:"name" unit:"yd" about:"meaning"`; a field without a
// col tag is left out. It panics on a field type that no column can hold,
// which is a mistake in the row type and not in the data.
func TableOf[Row any](name, about string, rows []Row) Table {
	table := Table{Name: name, About: about, Rows: len(rows)}
	values := reflect.ValueOf(rows)
	rowType := reflect.TypeFor[Row]()
	for i := range rowType.NumField() {
		field := rowType.Field(i)
		column := field.Tag.Get("col")
		if column == "" {
			continue
		}
		table.Columns = append(table.Columns, Column{
			Name: column, Unit: field.Tag.Get("unit"), About: field.Tag.Get("about"),
			Values: columnValues(values, i, field),
		})
	}
	return table
}

func columnValues(rows reflect.Value, field int, about reflect.StructField) any {
	if about.Type == reflect.TypeFor[Rank]() {
		return gather(rows, field, func(v reflect.Value) Rank { return Rank(v.Int()) })
	}
	switch about.Type.Kind() {
	case reflect.String:
		return gather(rows, field, reflect.Value.String)
	case reflect.Int64, reflect.Int:
		return gather(rows, field, reflect.Value.Int)
	case reflect.Float64:
		return gather(rows, field, reflect.Value.Float)
	case reflect.Bool:
		return gather(rows, field, reflect.Value.Bool)
	case reflect.Struct:
		if about.Type == reflect.TypeFor[time.Time]() {
			return gather(rows, field, func(v reflect.Value) time.Time { return v.Interface().(time.Time) })
		}
	}
	panic(fmt.Sprintf("metrics: a column cannot hold field %s of type %s", about.Name, about.Type))
}

func gather[V any](rows reflect.Value, field int, get func(reflect.Value) V) []V {
	values := make([]V, rows.Len())
	for i := range values {
		values[i] = get(rows.Index(i).Field(field))
	}
	return values
}

// Record is the table as an Arrow record batch; its fields carry unit and
// meaning as metadata.
func (t *Table) Record() arrow.RecordBatch {
	fields, columns := make([]arrow.Field, len(t.Columns)), make([]arrow.Array, len(t.Columns))
	for i, c := range t.Columns {
		columns[i] = c.array()
		fields[i] = arrow.Field{Name: c.Name, Type: columns[i].DataType(), Nullable: true, Metadata: arrow.MetadataFrom(map[string]string{
			transform.UnitKey: c.Unit, transform.AboutKey: c.About,
		})}
	}
	return array.NewRecordBatch(arrow.NewSchema(fields, nil), columns, int64(t.Rows))
}

func (c *Column) array() arrow.Array {
	allocator := memory.DefaultAllocator
	switch values := c.Values.(type) {
	case []int64:
		b := array.NewInt64Builder(allocator)
		b.AppendValues(values, nil)
		return b.NewArray()
	case []Rank:
		b := array.NewInt64Builder(allocator)
		for _, rank := range values {
			if rank == 0 {
				b.AppendNull()
			} else {
				b.Append(int64(rank))
			}
		}
		return b.NewArray()
	case []time.Time:
		b := array.NewDate32Builder(allocator)
		for _, day := range values {
			if day.IsZero() {
				b.AppendNull()
			} else {
				b.Append(arrow.Date32FromTime(day))
			}
		}
		return b.NewArray()
	case []bool:
		b := array.NewBooleanBuilder(allocator)
		b.AppendValues(values, nil)
		return b.NewArray()
	case []float64:
		b := array.NewFloat64Builder(allocator)
		for _, v := range values {
			if math.IsNaN(v) {
				b.AppendNull()
			} else {
				b.Append(v)
			}
		}
		return b.NewArray()
	case []string:
		b := array.NewDictionaryBuilder(allocator, &arrow.DictionaryType{IndexType: arrow.PrimitiveTypes.Int32, ValueType: arrow.BinaryTypes.String}).(*array.BinaryDictionaryBuilder)
		for _, v := range values {
			if v == "" {
				b.AppendNull()
			} else if err := b.AppendString(v); err != nil {
				panic(err) // only an index type too small could fail
			}
		}
		return b.NewArray()
	}
	panic(fmt.Sprintf("metrics: column %s holds a %T", c.Name, c.Values))
}
