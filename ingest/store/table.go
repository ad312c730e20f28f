// Package store puts Arrow record batches into Parquet files, reads them back
// with a second implementation, and publishes a folder of results whole or not
// at all. It does not know what the columns mean.
package store

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"

	"roundmill/ingest/disk"
)

// RowGroupRows is the length of a row group.
const RowGroupRows = 122_880

// pieceRows is how many rows of groups that are written as they come are packed together.
const pieceRows = 8192

// Options says what goes into the metadata of a file.
type Options struct {
	Version  string            // of the program
	Metadata map[string]string // key-value metadata
	SortedBy []string          // columns by which the rows are in order, if they are
	Varied   []string          // columns of numbers that seldom repeat
	Rising   []string          // columns of numbers that mostly rise by little from row to row
}

// A Group is rows [From, To) of a batch that stay together, and the key by
// which groups are put in order.
type Group struct {
	Key      string
	From, To int
}

// A Table collects groups of rows for one Parquet file, or for several that follow
// each other. It holds them, packed, until CloseAndVerify and writes them in the
// order of their keys, or, once Settle was called, writes them as they come.
type Table struct {
	folder    *Folder
	name      func(file int) string
	rowGroups int // of a file, at most; 0 for any number
	schema    *arrow.Schema
	options   Options
	pile      *Pile
	held      []part
	keys      keys // of what is held, unless settled
	rows      int64
	settled   bool
	names     []string  // of the files begun
	file      disk.File //  nil when the last of them is finished
	encoder   *encoder
	sums      *sums // of the file
}

// NewTable starts a table that will be the file of that name in a folder.
func NewTable(folder *Folder, name string, schema *arrow.Schema, options Options) *Table {
	return NewLongTable(folder, func(int) string { return name }, 0, schema, options)
}

// NewLongTable starts a table whose files, named by their number from 0, have so
// many row groups at most. Until a file is closed, one or two kilobytes are kept of
// every column of a row group.
func NewLongTable(folder *Folder, name func(file int) string, rowGroups int, schema *arrow.Schema, options Options) *Table {
	return &Table{
		folder: folder, name: name, rowGroups: rowGroups, schema: schema, options: options,
		pile: NewPile(schema, folder.Scratch()),
	}
}

// Names are the names of the files begun.
func (t *Table) Names() []string { return t.names }

// Rows is the number of rows added.
func (t *Table) Rows() int64 { return t.rows }

// Add adds groups of a batch of the schema. What is packed may not be used afterwards.
func (t *Table) Add(packed *Packed) error {
	if !t.settled {
		for _, key := range packed.Keys() {
			t.keys.add(key)
		}
	}
	kept, err := t.pile.Add(packed)
	if err != nil {
		return t.failed(err)
	}
	for _, k := range kept {
		t.held = append(t.held, part{k, 0, int(k.Rows)})
		t.rows += int64(k.Rows)
	}
	if !t.settled {
		return nil
	}
	return t.failed(t.flush(false))
}

// Joined are groups of which those that follow each other are one, up to so many
// rows that a piece is not too large: for a settled table, which needs no keys.
func Joined(groups []Group) (fewer []Group) {
	for _, g := range groups {
		if last := len(fewer) - 1; last >= 0 && fewer[last].To == g.From && g.To-fewer[last].From <= pieceRows {
			fewer[last].To = g.To
		} else {
			fewer = append(fewer, g)
		}
	}
	return fewer
}

// Held is the number of rows that are not written yet.
func (t *Table) Held() (rows int) {
	for _, p := range t.held {
		rows += p.to - p.from
	}
	return rows
}

// Flush writes what a settled table holds, though it fill no row group.
func (t *Table) Flush() error { return t.failed(t.flush(true)) }

// Settle gives the order of keys up: rows are written in the order they come.
func (t *Table) Settle() error {
	t.settled = true
	t.keys = keys{}
	t.options.SortedBy = nil
	return t.failed(t.flush(false))
}

// CloseAndVerify writes what is held and the footer, syncs the file and reads
// it back with the second Parquet implementation. The file exists though the table
// be empty.
func (t *Table) CloseAndVerify() error {
	if !t.settled {
		t.held = t.keys.inOrder(t.held)
	}
	err := t.flush(true)
	if err == nil && len(t.names) == 0 {
		err = t.open()
	}
	if err == nil && t.file != nil {
		err = t.finish()
	}
	if err == nil {
		err = t.pile.Close()
	}
	return t.failed(err)
}

// Abandon closes the file of a table that will not be finished.
func (t *Table) Abandon() error {
	var err error
	if t.file != nil {
		err = t.file.Close()
		t.file = nil
	}
	return errors.Join(err, t.pile.Close())
}

// failed says of an error which file it is of.
func (t *Table) failed(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", t.name(max(0, len(t.names)-1)), err)
}

// flush writes full row groups, and with all also what is left.
func (t *Table) flush(all bool) error {
	wrote := false
	for {
		count, n := 0, 0
		for n < len(t.held) && count < RowGroupRows {
			count += t.held[n].to - t.held[n].from
			n++
		}
		if count == 0 || count < RowGroupRows && !all {
			break
		}
		parts := slices.Clone(t.held[:n])
		if extra := count - RowGroupRows; extra > 0 {
			parts[n-1].to -= extra
			n--
			t.held[n].from = parts[n].to
		}
		t.held = t.held[n:]
		if err := t.rowGroup(parts); err != nil {
			return err
		}
		wrote = true
	}
	if wrote && t.settled {
		t.held = slices.Clone(t.held)
		return t.pile.renew(t.held)
	}
	return nil
}

// rowGroup writes rows as a row group, and finishes the file if it has as many as
// it may.
func (t *Table) rowGroup(parts []part) error {
	if t.file == nil {
		if err := t.open(); err != nil {
			return err
		}
	}
	rows, err := t.pile.open(parts)
	if err != nil {
		return err
	}
	if err := t.encoder.rowGroup(rows, t.sums); err != nil {
		return err
	}
	if int(t.encoder.groups) == t.rowGroups {
		return t.finish()
	}
	return nil
}

// open begins the next file.
func (t *Table) open() (err error) {
	t.names = append(t.names, t.name(len(t.names)))
	if t.file, err = t.folder.Create(t.names[len(t.names)-1]); err != nil {
		return err
	}
	t.sums = newSums(t.schema)
	t.encoder, err = newEncoder(t.file, t.schema, t.options)
	return err
}

// finish closes the file at hand and reads it back.
func (t *Table) finish() error {
	if err := t.encoder.close(); err != nil {
		return err
	}
	err := errors.Join(t.file.Sync(), t.file.Close())
	t.file, t.encoder = nil, nil
	if err != nil {
		return err
	}
	if err := verifyFile(t.folder.path(t.names[len(t.names)-1]), t.sums); err != nil {
		return fmt.Errorf("what was written does not read back: %w", err)
	}
	return nil
}

// keys are the keys of groups, one after the other.
type keys struct {
	text []byte
	ends []int
}

func (k *keys) add(key string) {
	k.text = append(k.text, key...)
	k.ends = append(k.ends, len(k.text))
}

func (k *keys) of(i int) []byte {
	if i == 0 {
		return k.text[:k.ends[0]]
	}
	return k.text[k.ends[i-1]:k.ends[i]]
}

// inOrder are the parts that have these keys, in their order.
func (k *keys) inOrder(parts []part) []part {
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return bytes.Compare(k.of(a), k.of(b)) })
	sorted := make([]part, len(parts))
	for i, from := range order {
		sorted[i] = parts[from]
	}
	return sorted
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
