// Package store puts Arrow record batches into Parquet files, reads them back
// with a second implementation, and publishes a folder of results whole or not
// at all. It does not know what the columns mean.
package store

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/compress"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"
)

// RowGroupRows is the length of a row group.
const RowGroupRows = 122_880

// writeBytes is how much of a file is written at a time.
const writeBytes = 256 << 10

// Options says what goes into the metadata of a file.
type Options struct {
	Version  string            // of the program
	Metadata map[string]string // key-value metadata
	SortedBy []string          // columns by which the rows are in order, if they are
}

// A Group is rows [From, To) of a batch that stay together, and the key by
// which groups are put in order.
type Group struct {
	Key      string
	From, To int
}

// A Table collects groups of rows for one Parquet file. It holds them, packed,
// until CloseAndVerify and writes them in the order of their keys, or, once Settle
// was called, writes them as they come.
type Table struct {
	folder  *Folder
	name    string
	schema  *arrow.Schema
	options Options
	packer  packer
	held    []piece
	rows    int64
	settled bool
	file    File
	buffer  *bufio.Writer
	writer  *pqarrow.FileWriter
	sums    *sums
}

// piece is rows [from, to) of what is packed.
type piece struct {
	packed
	key      string
	from, to int
}

// NewTable starts a table that will be the file of that name in a folder.
func NewTable(folder *Folder, name string, schema *arrow.Schema, options Options) *Table {
	return &Table{folder: folder, name: name, schema: schema, options: options, sums: newSums(schema)}
}

// Rows is the number of rows added.
func (t *Table) Rows() int64 { return t.rows }

// Add adds groups of a batch.
func (t *Table) Add(batch arrow.RecordBatch, groups ...Group) error {
	lists := listsOf(batch)
	for _, g := range groups {
		t.held = append(t.held, piece{t.packer.pack(batch, lists, g.From, g.To), g.Key, 0, g.To - g.From})
		t.rows += int64(g.To - g.From)
	}
	if !t.settled {
		return nil
	}
	return t.flush(false)
}

// Write writes a batch as it stands.
func (t *Table) Write(batch arrow.RecordBatch) error {
	if err := t.Settle(); err != nil {
		return err
	}
	var groups []Group
	rows := int(batch.NumRows())
	for from := 0; from < rows; from += RowGroupRows {
		groups = append(groups, Group{From: from, To: min(from+RowGroupRows, rows)})
	}
	return t.Add(batch, groups...)
}

// Held is the number of rows that are not written yet.
func (t *Table) Held() (rows int) {
	for _, p := range t.held {
		rows += p.to - p.from
	}
	return rows
}

// Flush writes what a settled table holds, though it fill no row group.
func (t *Table) Flush() error { return t.flush(true) }

// Settle gives the order of keys up: rows are written in the order they come.
func (t *Table) Settle() error {
	t.settled = true
	t.options.SortedBy = nil
	return t.flush(false)
}

// CloseAndVerify writes what is held and the footer, syncs the file and reads
// it back with the second Parquet implementation.
func (t *Table) CloseAndVerify() error {
	if !t.settled {
		slices.SortStableFunc(t.held, func(a, b piece) int { return cmp.Compare(a.key, b.key) })
	}
	if err := t.flush(true); err != nil {
		return err
	}
	if err := t.writer.Close(); err != nil {
		return t.failed(err)
	}
	err := errors.Join(t.buffer.Flush(), t.file.Sync(), t.file.Close())
	t.file, t.held = nil, nil
	if err != nil {
		return t.failed(err)
	}
	if err := verifyFile(t.folder.path(t.name), t.sums); err != nil {
		return fmt.Errorf("%s: what was written does not read back: %w", t.name, err)
	}
	return nil
}

// Abandon closes the file of a table that will not be finished.
func (t *Table) Abandon() {
	if t.file != nil {
		t.file.Close()
		t.file = nil
	}
}

func (t *Table) failed(err error) error { return fmt.Errorf("%s: %w", t.name, err) }

// flush writes full row groups, and with all also what is left.
func (t *Table) flush(all bool) error {
	if t.writer == nil {
		if err := t.open(); err != nil {
			return err
		}
	}
	for {
		rows, n := 0, 0
		for n < len(t.held) && rows < RowGroupRows {
			rows += t.held[n].to - t.held[n].from
			n++
		}
		if rows == 0 || rows < RowGroupRows && !all {
			return nil
		}
		pieces := t.held[:n:n]
		t.held = t.held[n:]
		if extra := rows - RowGroupRows; extra > 0 {
			last := pieces[n-1]
			rest := last
			last.to -= extra
			rest.from = last.to
			pieces = append(pieces[:n-1:n-1], last)
			t.held = append([]piece{rest}, t.held...)
		}
		group := assemble(t.schema, pieces)
		t.sums.add(group)
		clear(pieces) // what is written is not held on to
		if err := t.writer.Write(group); err != nil {
			return t.failed(err)
		}
	}
}

func (t *Table) open() error {
	var err error
	if t.file, err = t.folder.Create(t.name); err != nil {
		return t.failed(err)
	}
	t.buffer = bufio.NewWriterSize(t.file, writeBytes)
	properties := []parquet.WriterProperty{
		parquet.WithCompression(compress.Codecs.Zstd),
		parquet.WithCompressionLevel(1),
		parquet.WithMaxRowGroupLength(RowGroupRows),
		parquet.WithPageIndexEnabled(true),
		// parquet-java ignores statistics of a writer whose name is not of this shape.
		parquet.WithCreatedBy(fmt.Sprintf("roundmill version %s (build %s)", t.options.Version, t.options.Version)),
	}
	if len(t.options.SortedBy) > 0 {
		var sorting []parquet.SortingColumn
		for _, name := range t.options.SortedBy {
			sorting = append(sorting, parquet.SortingColumn{ColumnIdx: int32(t.schema.FieldIndices(name)[0]), NullsFirst: true})
		}
		properties = append(properties, parquet.WithSortingColumns(sorting))
	}
	t.writer, err = pqarrow.NewFileWriter(t.schema, t.buffer, parquet.NewWriterProperties(properties...),
		pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		return t.failed(err)
	}
	for _, key := range sortedKeys(t.options.Metadata) {
		if err := t.writer.AppendKeyValueMetadata(key, t.options.Metadata[key]); err != nil {
			return t.failed(err)
		}
	}
	return nil
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
