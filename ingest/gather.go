package ingest

import (
	"context"
	"iter"
	"slices"

	"roundmill/ingest/ordered"
)

// The bits of a hash that tell a partition.
const partitionBits = 8

type partitions [1 << partitionBits]partition

// A partition is the records of some of the rounds, in the order of the inaside.
type partition struct {
	pieces  []piece
	records int
}

// gathered reads everything once, spreads the records over partitions by their
// round, and yields the rounds of one partition after another. Records of a
// round keep their order in the inaside. What is in memory does not grow with the
// input: a partition with too many records is spread again.
func (r *Reader) gathered(ctx context.Context) iter.Seq2[*Rounds, error] {
	return func(yield func(*Rounds, error) bool) {
		aside := &shelf{scratch: r.options.Scratch, limit: r.heldBytes}
		defer aside.remove()
		var parts partitions
		for batch, err := range r.spread(ctx, aside, 0, r.inRuns, &parts) {
			if err != nil {
				yield(nil, err)
				return
			}
			if !yield(&Rounds{reader: r, batch: batch}, nil) {
				return
			}
		}
		produce := func(ctx context.Context, emit func([]piece) error) error {
			var some partition
			if err := r.whole(ctx, aside, &parts, 0, &some, emit); err != nil || some.records == 0 {
				return err
			}
			return emit(some.pieces)
		}
		load := func(_ int, pieces []piece) (*Rounds, error) {
			all, err := aside.load(pieces)
			if err != nil {
				return nil, err
			}
			together, starts := all.byRound()
			return &Rounds{reader: r, rows: together, starts: starts}, nil
		}
		for rounds, err := range ordered.Map(ctx, r.options.Workers, produce, load) {
			if !yield(rounds, err) || err != nil {
				return
			}
		}
	}
}

// A run is records as they come, in memory or from the shelf, and what there is
// to say beside them.
type run struct {
	rows   *rows
	pieces []piece
	batch  Batch
}

// inRuns reads the input and hands it on in runs that are long enough: of few
// records, too little comes together in a partition.
func (r *Reader) inRuns(ctx context.Context, emit func(run) error) error {
	held := &rows{}
	for p, err := range r.parse(ctx) {
		if err != nil {
			return err
		}
		next := run{batch: p.batch}
		if p.rows != nil {
			if held.n == 0 {
				held = p.rows
			} else {
				held.append(p.rows)
			}
			if held.n >= r.runRecords {
				next.rows, held = held, &rows{}
			}
		}
		if err := emit(next); err != nil {
			return err
		}
	}
	if held.n == 0 {
		return nil
	}
	return emit(run{rows: held})
}

// spread adds records to partitions, on all workers, by the bits of their
// round's hash at the given level. It yields what there is to say beside them.
func (r *Reader) spread(ctx context.Context, aside *shelf, level int, produce func(context.Context, func(run) error) error, parts *partitions) iter.Seq2[Batch, error] {
	type spreading struct {
		batch  Batch
		packed []byte
		pieces [1 << partitionBits]piece
	}
	packers := make([]rowPacker, r.options.Workers)
	pack := func(worker int, from run) (*spreading, error) {
		if from.pieces != nil {
			var err error
			if from.rows, err = aside.load(from.pieces); err != nil {
				return nil, err
			}
		}
		s := &spreading{batch: from.batch}
		if from.rows == nil {
			return s, nil
		}
		for part, places := range from.rows.byPartition(r.hash, level) {
			if len(places) > 0 {
				at := len(s.packed)
				s.packed = packers[worker].pack(s.packed, from.rows, places)
				s.pieces[part] = piece{int64(at), int32(len(s.packed) - at), int32(len(places))}
			}
		}
		return s, nil
	}
	return func(yield func(Batch, error) bool) {
		for s, err := range ordered.Map(ctx, r.options.Workers, produce, pack) {
			var at int64
			if err == nil && s.packed != nil {
				at, err = aside.write(s.packed)
			}
			if err != nil {
				yield(Batch{}, err)
				return
			}
			for i, p := range s.pieces {
				if p.records > 0 {
					p.at += at
					parts[i].pieces = append(parts[i].pieces, p)
					parts[i].records += int(p.records)
				}
			}
			if !yield(s.batch, nil) {
				return
			}
		}
	}
}

// whole emits the pieces of partitions, several together where they are small.
// One that is too large is spread once more, by other bits of the hash, unless
// it is one round, or rounds whose hashes are one.
func (r *Reader) whole(ctx context.Context, aside *shelf, parts *partitions, level int, some *partition, emit func([]piece) error) error {
	for _, part := range parts {
		if part.records > r.partRecords && (level+2)*partitionBits <= 64 {
			var finer partitions
			for _, err := range r.spread(ctx, aside, level+1, part.inRuns(r.runRecords), &finer) {
				if err != nil {
					return err
				}
			}
			if !finer.undivided(part.records) {
				if err := r.whole(ctx, aside, &finer, level+1, some, emit); err != nil {
					return err
				}
				continue
			}
		}
		some.pieces = append(some.pieces, part.pieces...)
		some.records += part.records
		if some.records >= smallBatch {
			if err := emit(some.pieces); err != nil {
				return err
			}
			*some = partition{}
		}
	}
	return nil
}

// inRuns hands on the records in runs of so many, or a few more.
func (p *partition) inRuns(enough int) func(context.Context, func(run) error) error {
	return func(_ context.Context, emit func(run) error) error {
		first, records := 0, 0
		for i, piece := range p.pieces {
			records += int(piece.records)
			if records < enough && i+1 < len(p.pieces) {
				continue
			}
			if err := emit(run{pieces: p.pieces[first : i+1]}); err != nil {
				return err
			}
			first, records = i+1, 0
		}
		return nil
	}
}

// undivided reports whether one partition has all of so many records.
func (p *partitions) undivided(records int) bool {
	return slices.ContainsFunc(p[:], func(part partition) bool { return part.records == records })
}

// byPartition is which records belong to which partition, by the bits of their
// round's hash at the given level.
func (r *rows) byPartition(hash roundHash, level int) (places [1 << partitionBits][]int32) {
	parts := make([]uint8, r.n)
	var counts [1 << partitionBits]int
	var key []byte
	for row := range parts {
		if row > 0 && r.sameRound(row, row-1) {
			parts[row] = parts[row-1]
		} else {
			key = r.appendRoundKey(key[:0], row)
			parts[row] = uint8(hash(key) >> (level * partitionBits))
		}
		counts[parts[row]]++
	}
	room := make([]int32, r.n)
	for part, n := range counts {
		places[part], room = room[:0:n], room[n:]
	}
	for row, part := range parts {
		places[part] = append(places[part], int32(row))
	}
	return places
}

// byRound puts the records of each round together, rounds in the order of
// their first record.
func (r *rows) byRound() (together *rows, starts []int) {
	met := map[roundCodes]int32{}
	rounds := make([]int32, r.n)
	for row := range rounds {
		if row > 0 && r.sameRound(row, row-1) {
			rounds[row] = rounds[row-1]
		} else {
			codes := r.roundCodes(row)
			at, again := met[codes]
			if !again {
				at = int32(len(met))
				met[codes] = at
				starts = append(starts, 0)
			}
			rounds[row] = at
		}
		starts[rounds[row]]++
	}
	end := 0
	for at, records := range starts {
		starts[at] = end
		end += records
	}
	order, next := make([]int32, r.n), slices.Clone(starts)
	for row, at := range rounds {
		order[next[at]] = int32(row)
		next[at]++
	}
	return r.reorder(order), starts
}
