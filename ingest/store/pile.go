package store

import (
	"errors"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"

	"roundmill/ingest/disk"
)

// A Pile keeps rows of record batches of one schema, packed, in a spool, so that its memory stays bounded. What is kept
// refers to nothing of the batches it came from.
type Pile struct {
	schema  *arrow.Schema
	scratch disk.Scratch
	spool   *disk.Spool
}

// Kept says where a pile keeps a piece, and how many rows it has. It is small, for a log of many rounds has many.
type Kept struct {
	at    int64
	bytes int32
	Rows  int32
}

// NewPile starts a pile.
func NewPile(schema *arrow.Schema, scratch disk.Scratch) *Pile {
	return &Pile{schema: schema, scratch: scratch, spool: scratch.Spool("rows")}
}

// Add keeps pieces of batches of the schema. They may not be used afterwards.
func (p *Pile) Add(packed *Packed) ([]Kept, error) {
	at, err := p.spool.Put(packed.bytes)
	kept := make([]Kept, len(packed.pieces))
	from := 0
	for i, piece := range packed.pieces {
		kept[i] = Kept{at + int64(from), int32(piece.end - from), int32(piece.rows)}
		from = piece.end
	}
	spent.Put(packed)
	return kept, err
}

// bytes are those of a piece; scratch is used for them.
func (p *Pile) bytes(kept Kept, scratch []byte) ([]byte, error) {
	scratch = slices.Grow(scratch[:0], int(kept.bytes))[:kept.bytes]
	_, err := p.spool.ReadAt(scratch, kept.at)
	return scratch, err
}

// Batch is the rows of pieces one after the other. A dictionary of it holds the words in use, in the order they first
// appear. It may be called from several goroutines at once.
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
	next := p.scratch.Spool("rows")
	var piece []byte
	for i := range parts {
		var err error
		if piece, err = p.bytes(parts[i].Kept, piece); err == nil {
			parts[i].at, err = next.Put(piece)
		}
		if err != nil {
			return errors.Join(err, next.Close())
		}
	}
	err := p.spool.Close()
	p.spool = next
	return err
}

// Close lets go of everything and removes the temporary file.
func (p *Pile) Close() error {
	return p.spool.Close()
}
