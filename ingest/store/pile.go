package store

import (
	"cmp"
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
)

const (
	pileBytes  = 4 << 20 // what a pile keeps in memory, and past that in its file
	blockBytes = 1 << 20 // what it writes at a time
)

// A Pile keeps rows of record batches of one schema, packed, in memory and, once they are more than 4 MB, in a
// temporary file, so that its memory stays bounded. What is kept refers to nothing of the batches it came from. Columns
// are of fixed width, booleans, or dictionaries of strings with codes of 32 bits.
type Pile struct {
	schema  *arrow.Schema
	disk    Disk
	path    string // of the temporary file
	file    File   // nil until there is one
	limit   int    // of bytes in memory
	written int64  // bytes in the file
	blocks  []block
	held    int // bytes in blocks
	packer  packer
}

// block is bytes of a pile from a place on.
type block struct {
	at    int64
	bytes []byte
}

// Kept says where a pile keeps a piece, and how many rows it has. It is small, for a log of many rounds has many.
type Kept struct {
	at    int64
	bytes int32
	Rows  int32
}

// NewPile starts a pile whose temporary file, if it comes to that, is in the folder scratch of a disk.
func NewPile(schema *arrow.Schema, disk Disk, scratch string) *Pile {
	path := filepath.Join(scratch, fmt.Sprintf("pile-%016x", rand.Uint64()))
	return &Pile{schema: schema, disk: disk, path: path, limit: pileBytes}
}

// Add keeps rows [from, to) of a batch. Only one goroutine at a time may call it.
func (p *Pile) Add(batch arrow.RecordBatch, from, to int) (Kept, error) {
	return p.put(p.packer.pack(batch, from, to), to-from)
}

// put keeps a packed piece.
func (p *Pile) put(piece []byte, rows int) (Kept, error) {
	limit := p.limit
	if p.file != nil {
		limit = min(limit, blockBytes)
	}
	if p.held > 0 && p.held+len(piece) > limit {
		if err := p.spill(); err != nil {
			return Kept{}, err
		}
	}
	last := len(p.blocks) - 1
	if last < 0 || len(p.blocks[last].bytes)+len(piece) > cap(p.blocks[last].bytes) {
		size := max(len(piece), min(p.held, blockBytes)) // small at first: most tables are
		p.blocks = append(p.blocks, block{p.written + int64(p.held), make([]byte, 0, size)})
		last++
	}
	kept := Kept{p.written + int64(p.held), int32(len(piece)), int32(rows)}
	p.blocks[last].bytes = append(p.blocks[last].bytes, piece...)
	p.held += len(piece)
	return kept, nil
}

// spill moves what is in memory to the file; from then on only a block is held.
func (p *Pile) spill() error {
	if p.file == nil {
		file, err := p.disk.Create(p.path)
		if err != nil {
			return p.failed(err)
		}
		p.file = file
	}
	for _, block := range p.blocks {
		if _, err := p.file.Write(block.bytes); err != nil {
			return p.failed(err)
		}
	}
	p.written += int64(p.held)
	p.blocks, p.held = nil, 0
	return nil
}

// bytes are those of a piece; scratch may be used for them.
func (p *Pile) bytes(kept Kept, scratch []byte) ([]byte, error) {
	if kept.at < p.written {
		scratch = slices.Grow(scratch[:0], int(kept.bytes))[:kept.bytes]
		if _, err := p.file.ReadAt(scratch, kept.at); err != nil {
			return nil, p.failed(err)
		}
		return scratch, nil
	}
	i, starts := slices.BinarySearchFunc(p.blocks, kept.at, func(b block, at int64) int { return cmp.Compare(b.at, at) })
	if !starts {
		i--
	}
	from := kept.at - p.blocks[i].at
	return p.blocks[i].bytes[from : from+int64(kept.bytes)], nil
}

// Batch is the rows of pieces one after the other. A dictionary of it holds the words in use, in the order they first
// appear. It may be called from several goroutines at once, but not while something is added.
func (p *Pile) Batch(kept []Kept) (arrow.RecordBatch, error) {
	parts := make([]part, len(kept))
	for i, k := range kept {
		parts[i] = part{k, 0, int(k.Rows)}
	}
	return p.batch(parts)
}

func (p *Pile) batch(parts []part) (arrow.RecordBatch, error) {
	open, err := p.open(parts)
	if err != nil {
		return nil, err
	}
	columns := make([]arrow.Array, p.schema.NumFields())
	for i := range columns {
		columns[i] = open.column(i)
	}
	return array.NewRecordBatch(p.schema, columns, int64(open.rows)), nil
}

// renew lets go of everything but some pieces, whose places change.
func (p *Pile) renew(parts []part) error {
	next := NewPile(p.schema, p.disk, filepath.Dir(p.path))
	next.limit, next.packer = p.limit, p.packer
	var scratch []byte
	for i := range parts {
		piece, err := p.bytes(parts[i].Kept, scratch)
		if err == nil {
			parts[i].Kept, err = next.put(piece, int(parts[i].Rows))
		}
		if err != nil {
			return errors.Join(err, next.Close())
		}
	}
	err := p.Close()
	*p = *next
	return err
}

// Close lets go of everything and removes the temporary file.
func (p *Pile) Close() error {
	p.blocks, p.packer = nil, packer{}
	if p.file == nil {
		return nil
	}
	err := errors.Join(p.file.Close(), p.disk.Remove(p.path))
	p.file = nil
	if err != nil {
		return p.failed(err)
	}
	return nil
}

func (p *Pile) failed(err error) error { return fmt.Errorf("rows kept in a temporary file: %w", err) }
