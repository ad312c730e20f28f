package ingest

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	pqfile "github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"
)

const (
	parquetMark      = "PAR1"
	parquetRows      = 16 << 10 // in a chunk
	maxPackedParquet = 64 << 20 // of a Parquet file in an archive, which is held in memory
)

// A tableColumn is a column of a Parquet file and how its values are written
// out for the parser.
type tableColumn struct {
	at      int
	meaning meaning
	less    int // column to take off, -1 for none
}

// parquetChunks reads a Parquet file batch by batch.
func (f *file) parquetChunks(ctx context.Context, packed *bufio.Reader, at int, mapping Mapping, emit func(chunk) error) (notes []string, err error) {
	damaged := func(what any) error {
		return &fileProblem{text: fmt.Sprintf("a Parquet file that cannot be read: %v", what), hint: "copy the file again, it may be cut or damaged"}
	}
	emitting := false // a panic there is not the file's fault
	defer func() {
		// The library panics on some damage.
		switch panicked := recover(); {
		case panicked != nil && emitting:
			panic(panicked)
		case panicked != nil:
			err = damaged(panicked)
		}
	}()
	source, closer, err := f.seekable(packed)
	if err != nil {
		return nil, err
	}
	defer closer.Close()
	length, err := source.Seek(0, io.SeekEnd)
	if err != nil {
		return nil, err
	}
	opened, err := pqfile.NewParquetReader(source, pqfile.WithReadProps(parquet.NewReaderProperties(memory.DefaultAllocator)))
	if err != nil {
		return nil, damaged(err)
	}
	// An Arrow schema stored beside that of Parquet says nothing that is needed,
	// and the library trusts its sizes: damaged, it may ask for any memory.
	opened.MetaData().FileMetaData.KeyValueMetadata = nil
	for group := range opened.NumRowGroups() {
		size := opened.MetaData().RowGroups[group].TotalByteSize
		if size < 0 || size > maxUnpacked {
			return nil, damaged(fmt.Sprintf("a row group of %d bytes", size))
		}
		for _, column := range opened.MetaData().RowGroups[group].Columns {
			// The library asks for as much memory as the footer claims.
			if claimed := column.MetaData.TotalCompressedSize; claimed < 0 || claimed > length {
				return nil, damaged(fmt.Sprintf("a column of %d bytes in a file of %d", claimed, length))
			}
		}
	}
	tables, err := pqarrow.NewFileReader(opened, pqarrow.ArrowReadProperties{BatchSize: parquetRows}, memory.DefaultAllocator)
	if err != nil {
		return nil, damaged(err)
	}
	schema, err := tables.Schema()
	if err != nil {
		return nil, damaged(err)
	}
	if len(schema.Fields()) > maxColumns {
		return nil, &fileProblem{text: fmt.Sprintf("more than %d columns", maxColumns)}
	}
	if notes, err = f.parquetHeader(schema, mapping); err != nil {
		return nil, &fileProblem{text: err.Error()}
	}
	batches, err := tables.GetRecordReader(ctx, nil, nil)
	if err != nil {
		return nil, damaged(err)
	}
	defer batches.Release()
	row := 1
	for batches.Next() {
		batch := batches.RecordBatch()
		batch.Retain()
		emitting = true
		if err := emit(chunk{file: f, at: at, table: batch, line: row, records: int(batch.NumRows())}); err != nil {
			return nil, err
		}
		emitting = false
		row += int(batch.NumRows())
	}
	if err := batches.Err(); err != nil && !errors.Is(err, io.EOF) {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		return notes, damaged(err)
	}
	return notes, nil
}

// seekable opens the file for reading at any place; what comes out of an
// archive is held in memory.
func (f *file) seekable(packed *bufio.Reader) (parquet.ReaderAtSeeker, io.Closer, error) {
	if f.path != "" && packed == nil {
		file, err := os.Open(f.path)
		return file, file, err
	}
	text := f.text
	if packed != nil {
		var err error
		if text, err = io.ReadAll(io.LimitReader(packed, maxPackedParquet+1)); err != nil {
			return nil, nil, err
		}
		if len(text) > maxPackedParquet {
			return nil, nil, &fileProblem{text: fmt.Sprintf("a packed Parquet file of more than %d MiB", maxPackedParquet>>20), hint: "unpack it first"}
		}
	}
	return bytes.NewReader(text), io.NopCloser(nil), nil
}

// What a table of shots that the program wrote has beside the log, and what of
// the log stands in it under another name.
var (
	derivedColumns = []string{
		"season", "lie_category", "finish_category", "proximity_ft", "shot_class", "at_green", "band_from_yd", "expected_before",
		"expected_after", "strokes_gained", "plays_like_yd", "short_sided", SourceFile, SourceLine,
	}
	renamedColumns = map[string]struct {
		field field
		less  string // the column that was added to it
	}{
		"finish_yd": {left, ""}, "long_yd": {longShort, "aim_long_short_yd"}, "right_yd": {leftRight, "aim_left_right_yd"},
	}
)

const completeColumn = "hole_complete"

// parquetHeader finds what the columns mean.
func (f *file) parquetHeader(schema *arrow.Schema, mapping Mapping) (notes []string, err error) {
	names := make([]string, schema.NumFields())
	for i, field := range schema.Fields() {
		names[i] = field.Name
	}
	own := !slices.ContainsFunc([]string{completeColumn, "finish_yd", "proximity_ft", "penalty", "strokes_gained"}, func(name string) bool {
		return !slices.Contains(names, name)
	})
	known := slices.Clone(names)
	if own {
		for i, name := range names {
			if slices.Contains(derivedColumns, name) || name == completeColumn {
				known[i] = ""
			} else if renamed, is := renamedColumns[name]; is {
				known[i] = definitions[renamed.field].columnName()
			}
		}
	}
	h, err := matchHeader(known, mapping)
	if err != nil {
		return nil, err
	}
	f.form = "Parquet"
	if own {
		f.form = "Parquet, shots written by this program; what was derived is derived again"
	}
	f.names, f.meanings, f.columns, f.own = known, h.meanings, nil, nil
	for i, m := range h.meanings {
		if m.field == noField {
			continue
		}
		column := tableColumn{at: i, meaning: m, less: -1}
		if own {
			column.less = slices.Index(names, renamedColumns[names[i]].less)
		}
		f.columns = append(f.columns, column)
	}
	if own {
		at := func(name string) int { return slices.Index(names, name) }
		f.own = &ownColumns{at(completeColumn), at("finish_yd"), at("proximity_ft"), at("penalty")}
	}
	if len(h.unused) > 0 {
		notes = append(notes, "columns not used: "+listed(h.unused))
	}
	return notes, nil
}

// feedTable hands the rows of a batch to a sink, as if they were written out.
func (c *chunk) feedTable(to sink) {
	for row := range int(c.table.NumRows()) {
		to.begin(c.line+row, "")
		c.feedRow(row, to)
	}
}

// feedRow hands over one row, whose record has begun. The library panics on
// some damage.
func (c *chunk) feedRow(row int, to sink) {
	f, table := c.file, c.table
	defer func() {
		if panicked := recover(); panicked != nil {
			to.fault(fmt.Sprintf("expected values that can be read: %v", panicked), "copy the file again, it may be damaged")
			to.end()
		}
	}()
	complete := f.own == nil || isTrue(table.Column(f.own.complete), row)
	if !complete {
		to.incomplete()
	}
	for i := range f.columns {
		column := &f.columns[i]
		if column.meaning.field == holed && !complete && !isTrue(table.Column(column.at), row) && !f.own.pickedUp(table, row) {
			continue // it only says that the hole has no end
		}
		if text := cellText(table, column, row); text != nil {
			to.set(&column.meaning, text)
		}
	}
	if to.end() {
		return
	}
	var names []string
	var meanings []meaning
	var cells [][]byte
	for i := range f.columns {
		column := &f.columns[i]
		if text := cellText(table, column, row); text != nil {
			names, meanings, cells = append(names, f.names[column.at]), append(meanings, column.meaning), append(cells, text)
		}
	}
	to.original(names, meanings, cells)
}

// ownColumns are columns of the program's own table that tell how a hole ended.
type ownColumns struct{ complete, finish, proximity, penalty int }

// pickedUp tells a ball that was picked up from one whose next stroke is not in
// the log: only of the latter is it known how near it came to rest.
func (o *ownColumns) pickedUp(table arrow.RecordBatch, row int) bool {
	penalties, ok := table.Column(o.penalty).(*array.Int32)
	return ok && table.Column(o.finish).IsValid(row) && table.Column(o.proximity).IsNull(row) && penalties.Value(row) == 0
}

func isTrue(column arrow.Array, row int) bool {
	answers, ok := column.(*array.Boolean)
	return ok && answers.IsValid(row) && answers.Value(row)
}

// cellText is a value as text, nil where it is absent.
func cellText(table arrow.RecordBatch, column *tableColumn, row int) []byte {
	values := table.Column(column.at)
	if values.IsNull(row) {
		return nil
	}
	if bytes, ok := values.(*array.Binary); ok { // text of a writer that does not say so
		return slices.Clone(bytes.Value(row))
	}
	number, isFloat := values.(*array.Float64)
	switch {
	case isFloat && isMissing(number.Value(row)), values.DataType().ID() == arrow.FLOAT32 && isMissing(float64(values.(*array.Float32).Value(row))):
		return nil
	case !isFloat:
		return []byte(values.ValueStr(row))
	case column.less >= 0:
		const decimals = 9 // so that a logged decimal comes back as it was
		value := number.Value(row)
		if added, ok := table.Column(column.less).(*array.Float64); ok && added.IsValid(row) {
			value -= added.Value(row)
		}
		return strconv.AppendFloat(nil, value, 'f', decimals, 64)
	}
	return strconv.AppendFloat(nil, number.Value(row), 'g', -1, 64)
}
