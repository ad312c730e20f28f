package store

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/encoding"

	"roundmill/ingest/ordered"
)

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

func verify(r io.ReaderAt, size int64, want *sums) error {
	if err := footerFits(r, size); err != nil {
		return err
	}
	var file *parquet.File
	err := unlessItGivesUp(func() (err error) {
		file, err = parquet.OpenFile(r, size)
		return err
	})
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
	failures := make([]error, len(want.columns))
	group := ordered.NewGroup(runtime.GOMAXPROCS(0))
	for i := range failures {
		group.Go(func() error {
			failures[i] = unlessItGivesUp(func() error { return verifyColumn(file, i, fields[i], &want.columns[i]) })
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return err
	}
	return cmp.Or(failures...) // the same one every time
}

// footerFits refuses a file whose last bytes claim a footer longer than the file: the reader makes room for whatever
// they claim, up to 4 GB (v0.32.0).
func footerFits(r io.ReaderAt, size int64) error {
	const magic, length = 4, 4
	var end [length + magic]byte
	if _, err := r.ReadAt(end[:], size-int64(len(end))); err != nil {
		return err
	}
	if claimed := int64(binary.LittleEndian.Uint32(end[:length])); claimed > size-magic-int64(len(end)) {
		return fmt.Errorf("a footer of %d bytes in a file of %d", claimed, size)
	}
	return nil
}

// unlessItGivesUp turns a panic of the reader into an error: it panics on some damage (v0.32.0, page index out of bounds).
func unlessItGivesUp(read func() error) (err error) {
	defer func() {
		if panicked := recover(); panicked != nil {
			err = fmt.Errorf("the reader gave up: %v", panicked)
		}
	}()
	return read()
}

func verifyColumn(file *parquet.File, column int, field parquet.Field, expected *columnSum) error {
	if field.Name() != expected.name {
		return fmt.Errorf("column %d is %q, expected %q", column, field.Name(), expected.name)
	}
	if !field.Leaf() || !field.Optional() {
		return fmt.Errorf("column %s: expected one value a row, or null", expected.name)
	}
	found := columnSum{name: expected.name, kind: field.Type().String(), codec: expected.codec}
	if found.kind != expected.kind {
		return fmt.Errorf("column %s is %s, expected %s", expected.name, found.kind, expected.kind)
	}
	for _, group := range file.Metadata().RowGroups {
		// Pages of another codec may be unpacked to no end (v0.32.0, LZ4).
		if codec := group.Columns[column].MetaData.Codec.String(); codec != expected.codec {
			return fmt.Errorf("column %s is packed by %s, expected %s", expected.name, codec, expected.codec)
		}
	}
	if err := sumColumn(file, column, &found); err != nil {
		return fmt.Errorf("column %s: %w", expected.name, err)
	}
	if found != *expected {
		return fmt.Errorf("column %s: found %+v, expected %+v", expected.name, found, *expected)
	}
	return nil
}

func sumColumn(file *parquet.File, column int, sum *columnSum) error {
	var seen int64
	var bounds extent
	bounded := false
	for _, group := range file.RowGroups() {
		chunk := group.ColumnChunks()[column]
		if least, greatest, ok := chunk.(*parquet.FileColumnChunk).Bounds(); ok && !sum.words() {
			bounds = bounds.with(number(least), !bounded)
			bounds = bounds.with(number(greatest), false)
			bounded = true
		}
		if err := sumPages(chunk.Pages(), sum, &seen); err != nil {
			return err
		}
	}
	// Other tools leave out row groups by these.
	if bounded && (bounds.min != sum.min || bounds.max != sum.max) {
		return fmt.Errorf("the file says %v to %v of itself, and holds %v to %v", bounds.min, bounds.max, sum.min, sum.max)
	}
	return nil
}

func number(v parquet.Value) float64 {
	switch v.Kind() {
	case parquet.Boolean:
		return yesIs1(v.Boolean())
	case parquet.Int32:
		return float64(v.Int32())
	case parquet.Int64:
		return float64(v.Int64())
	}
	return v.Double()
}

func sumPages(pages parquet.Pages, sum *columnSum, seen *int64) (err error) {
	defer func() { err = errors.Join(err, pages.Close()) }()
	for {
		page, err := pages.ReadPage()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		sum.nulls += page.NumNulls()
		if !sum.words() {
			err = sumPage(page, sum, seen)
		}
		parquet.Release(page)
		if err != nil {
			return err
		}
	}
}

// sumPage adds the values of a page; those of one with a dictionary are codes.
func sumPage(page parquet.Page, sum *columnSum, seen *int64) error {
	values, there := page.Data(), page.NumValues()-page.NumNulls()
	var codes *[]int32
	if dictionary := page.Dictionary(); dictionary != nil {
		held := values.Int32()
		codes = &held
		values = dictionary.Page().Data()
	}
	n := there
	switch values.Kind() {
	case encoding.Double:
		n = addPage(sum, values.Double(), codes, *seen)
	case encoding.Int32:
		n = addPage(sum, values.Int32(), codes, *seen)
	case encoding.Int64:
		n = addPage(sum, values.Int64(), codes, *seen)
	default:
		bits := values.Boolean()
		for row := range there {
			sum.extent = sum.with(yesIs1(bits[row>>3]>>(row&7)&1 == 1), *seen+row == 0)
		}
	}
	if n != there {
		return fmt.Errorf("a page of %d values holds %d", there, n)
	}
	*seen += n
	return nil
}

// addPage adds values, or those that codes stand for, and returns how many.
func addPage[V float64 | int32 | int64](sum *columnSum, values []V, codes *[]int32, seen int64) int64 {
	if codes == nil {
		addValues(sum, values, seen)
		return int64(len(values))
	}
	all := sum.extent
	for i, code := range *codes {
		all = all.with(float64(values[code]), seen+int64(i) == 0)
	}
	sum.extent = all
	return int64(len(*codes))
}
