package ingest

import (
	"context"
	"iter"
)

// Rounds are whole rounds, parsed but not yet checked. Check may be called from
// any goroutine.
type Rounds struct {
	reader *Reader
	rows   *rows
	starts []int // first record of each round
	batch  Batch
}

// Rounds reads the files and yields whole rounds in input order. The error ends
// the sequence: ErrScattered, or what is wrong with the world.
func (r *Reader) Rounds(ctx context.Context) iter.Seq2[*Rounds, error] {
	if r.options.Gather {
		return r.gathered(ctx)
	}
	return r.inSequence(ctx)
}

// smallBatch is how many records are gathered from small files before they are
// handed on, because a batch costs something of its own.
const smallBatch = 8192

// inSequence joins the rounds that a chunk border cut, gathers small chunks,
// and remembers the rounds it has met by their hashes. Where two rounds share
// one, it takes the input for scattered, which is then read by the slower way,
// with the same result.
func (r *Reader) inSequence(ctx context.Context) iter.Seq2[*Rounds, error] {
	return func(yield func(*Rounds, error) bool) {
		met := map[uint64]struct{}{}
		var key []byte
		waiting := &Rounds{reader: r, rows: &rows{}} // the last round may go on
		for p, err := range r.parse(ctx) {
			if err != nil {
				yield(nil, err)
				return
			}
			if !yield(&Rounds{reader: r, batch: p.batch}, nil) {
				return
			}
			if p.rows == nil || p.rows.n == 0 {
				continue
			}
			starts := p.rows.roundStarts()
			if waiting.rows.n > 0 && waiting.rows.roundKey(waiting.rows.n-1) == p.rows.roundKey(0) {
				end := p.rows.n
				if len(starts) > 1 {
					end = starts[1]
				}
				waiting.rows.append(p.rows.slice(0, end))
				starts = starts[1:]
			}
			for _, start := range starts {
				key = p.rows.appendRoundKey(key[:0], start)
				hash := r.hash(key)
				if _, again := met[hash]; again {
					yield(nil, ErrScattered)
					return
				}
				met[hash] = struct{}{}
			}
			if len(starts) == 0 {
				continue
			}
			if waiting.rows.n+p.rows.n <= smallBatch {
				waiting.add(p.rows, starts)
				continue
			}
			if waiting.rows.n > 0 && !yield(waiting, nil) {
				return
			}
			first, last := starts[0], starts[len(starts)-1]
			whole := &Rounds{reader: r, rows: p.rows.slice(first, last)}
			for _, start := range starts[:len(starts)-1] {
				whole.starts = append(whole.starts, start-first)
			}
			if last > first && !yield(whole, nil) {
				return
			}
			waiting = &Rounds{reader: r, rows: &rows{}}
			waiting.add(p.rows, starts[len(starts)-1:])
		}
		if waiting.rows.n > 0 {
			yield(waiting, nil)
		}
	}
}

// add copies the rounds from the first of the given starts on.
func (r *Rounds) add(from *rows, starts []int) {
	for _, start := range starts {
		r.starts = append(r.starts, r.rows.n+start-starts[0])
	}
	r.rows.append(from.slice(starts[0], from.n))
}

// Check puts the records in order, judges them and returns the batch.
func (r *Rounds) Check() *Batch {
	if r.rows == nil || r.rows.n == 0 {
		return &r.batch
	}
	c := newChecker(r.reader, r.rows, &r.batch)
	var strokeRows []int
	for i, start := range r.starts {
		end := r.rows.n
		if i+1 < len(r.starts) {
			end = r.starts[i+1]
		}
		before, cards := len(c.order), len(c.cards)
		c.round(start, end)
		if kept := len(c.order) - before; kept > 0 {
			r.batch.RoundRows = append(r.batch.RoundRows, kept)
			if strokes := kept - (len(c.cards) - cards); strokes > 0 {
				strokeRows = append(strokeRows, strokes)
			}
			if r.batch.Rounds == nil {
				r.batch.Rounds = map[int]int{}
			}
			r.batch.Rounds[int(r.rows.file[c.order[before]])]++
		}
	}
	if len(c.order) > 0 {
		kept := c.inOrder()
		r.batch.Record = kept.record(r.reader.files, c.states)
		if len(c.cards) > 0 {
			r.batch.Strokes = &Batch{Record: c.strokesOf(kept), RoundRows: strokeRows}
		}
	}
	return &r.batch
}
