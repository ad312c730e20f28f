package store

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/parquet-go/parquet-go"
)

// sums is what a file must hold: its rows, and of every column the nulls and,
// of numbers, the sum, least and greatest value, added up in the order of the
// rows.
type sums struct {
	rows    int64
	columns []columnSum
}

type columnSum struct {
	name          string
	numeric       bool
	nulls         int64
	sum, min, max float64
}

func newSums(schema *arrow.Schema) *sums {
	s := &sums{columns: make([]columnSum, schema.NumFields())}
	for i, field := range schema.Fields() {
		numeric := field.Type.ID() == arrow.FLOAT64 || field.Type.ID() == arrow.INT32 || field.Type.ID() == arrow.INT64
		s.columns[i] = columnSum{name: field.Name, numeric: numeric}
	}
	return s
}

func (c *columnSum) add(v float64, first bool) {
	if first || v < c.min {
		c.min = v
	}
	if first || v > c.max {
		c.max = v
	}
	c.sum += v
}

func (s *sums) add(batch arrow.RecordBatch) {
	for i := range s.columns {
		c := &s.columns[i]
		values := batch.Column(i)
		seen := s.rows - c.nulls
		c.nulls += int64(values.NullN())
		switch values := values.(type) {
		case *array.Float64:
			addValues(c, values, values.Float64Values(), seen)
		case *array.Int32:
			addValues(c, values, values.Int32Values(), seen)
		case *array.Int64:
			addValues(c, values, values.Int64Values(), seen)
		}
	}
	s.rows += batch.NumRows()
}

func addValues[V float64 | int32 | int64](c *columnSum, column arrow.Array, values []V, seen int64) {
	whole := column.NullN() == 0
	for row, v := range values {
		if whole || column.IsValid(row) {
			c.add(float64(v), seen == 0)
			seen++
		}
	}
}

// verifyFile reads a Parquet file with the second implementation, column by column,
// and compares it with what was written.
func verifyFile(path string, want *sums) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return err
	}
	return verify(file, info.Size(), want)
}

func verify(r io.ReaderAt, size int64, want *sums) (err error) {
	// The reader panics on some damage (v0.32.0, page index out of bounds).
	defer func() {
		if panicked := recover(); panicked != nil {
			err = fmt.Errorf("the reader gave up: %v", panicked)
		}
	}()
	file, err := parquet.OpenFile(r, size)
	if err != nil {
		return err
	}
	if file.NumRows() != want.rows {
		return fmt.Errorf("%d rows, expected %d", file.NumRows(), want.rows)
	}
	fields := file.Schema().Fields()
	if len(fields) != len(want.columns) {
		return fmt.Errorf("%d columns, expected %d", len(fields), len(want.columns))
	}
	for i := range want.columns {
		expected := &want.columns[i]
		if fields[i].Name() != expected.name {
			return fmt.Errorf("column %d is %q, expected %q", i, fields[i].Name(), expected.name)
		}
		found := columnSum{name: expected.name, numeric: expected.numeric}
		if err := sumColumn(file, i, &found); err != nil {
			return fmt.Errorf("column %s: %w", expected.name, err)
		}
		if found != *expected {
			return fmt.Errorf("column %s: found %+v, expected %+v", expected.name, found, *expected)
		}
	}
	return nil
}

func sumColumn(file *parquet.File, column int, sum *columnSum) error {
	var values [1024]parquet.Value
	var seen int64
	for _, group := range file.RowGroups() {
		pages := group.ColumnChunks()[column].Pages()
		for {
			page, err := pages.ReadPage()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				pages.Close()
				return err
			}
			sum.nulls += page.NumNulls()
			if sum.numeric {
				seen, err = sumPage(page, values[:], sum, seen)
			}
			parquet.Release(page)
			if err != nil {
				pages.Close()
				return err
			}
		}
		if err := pages.Close(); err != nil {
			return err
		}
	}
	return nil
}

func sumPage(page parquet.Page, values []parquet.Value, sum *columnSum, seen int64) (int64, error) {
	reader := page.Values()
	for {
		n, err := reader.ReadValues(values)
		for _, v := range values[:n] {
			if v.IsNull() {
				continue
			}
			switch v.Kind() {
			case parquet.Double:
				sum.add(v.Double(), seen == 0)
			case parquet.Int32:
				sum.add(float64(v.Int32()), seen == 0)
			case parquet.Int64:
				sum.add(float64(v.Int64()), seen == 0)
			}
			seen++
		}
		if errors.Is(err, io.EOF) {
			return seen, nil
		}
		if err != nil {
			return seen, err
		}
	}
}
