package ingest

import (
	"context"
	"iter"
	"slices"

	"roundmill/ingest/disk"
	"roundmill/ingest/ordered"
)

// The bits of a hash that tell a partition.
const partitionBits = 8

type partitions [1 << partitionBits]partition

// A partition is the records of some of the rounds, in the order of the input.
type partition struct {
	pieces  []piece
	records int
}

// gathered reads everything once, spreads the records over partitions by their
// round, and yields the rounds of one partition after another. Records of a
// round keep their order in the input. What is in memory does not grow with the
// input: a partition with too many records is spread again.
func (r *Reader) gathered(ctx context.Context) iter.Seq2[*Rounds, error] {
	return func(yield func(*Rounds, error) bool) {
		aside := r.options.Scratch.Spool("rounds")
		defer aside.Close()
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
			all, err := takeBack(aside, pieces)
			if err != nil {
				return nil, err
			}
			together, starts := all.byRound()
			return &Rounds{reader: r, rows: together, starts: starts}, nil
		}
		for rounds, err := range ordered.Map(ctx, r.options.Workers, r.options.Workers, produce, load) {
			if !yield(rounds, err) || err != nil {
				return
			}
		}
		if err := aside.Close(); err != nil {
			yield(nil, err)
		}
	}
}

// A piece is a run of packed records that were put aside.
type piece struct {
	at      int64
	length  int32
	records int32
}

// A run is records as they come, in memory or put aside, and what there is
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
func (r *Reader) spread(ctx context.Context, aside *disk.Spool, level int, produce func(context.Context, func(run) error) error, parts *partitions) iter.Seq2[Batch, error] {
	type spreading struct {
		batch  Batch
		packed []byte
		pieces [1 << partitionBits]piece
	}
	packers := make([]rowPacker, r.options.Workers)
	pack := func(worker int, from run) (*spreading, error) {
		if from.pieces != nil {
			var err error
			if from.rows, err = takeBack(aside, from.pieces); err != nil {
				return nil, err
			}
		}
		s := &spreading{batch: from.batch}
		if from.rows == nil {
			return s, nil
		}
		together, records := from.rows.byPartition(r.hash, level)
		first := 0
		for part, n := range records {
			if n > 0 {
				at := len(s.packed)
				s.packed = packers[worker].pack(s.packed, together, first, first+n)
				s.pieces[part] = piece{int64(at), int32(len(s.packed) - at), int32(n)}
				first += n
			}
		}
		return s, nil
	}
	return func(yield func(Batch, error) bool) {
		for s, err := range ordered.Map(ctx, r.options.Workers, r.options.Workers, produce, pack) {
			var at int64
			if err == nil && s.packed != nil {
				at, err = aside.Put(s.packed)
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
func (r *Reader) whole(ctx context.Context, aside *disk.Spool, parts *partitions, level int, some *partition, emit func([]piece) error) error {
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

// byPartition puts the records of each partition together, in their order, and
// says how many there are: the bits of the hash of a record's round at the given
// level tell where it belongs.
func (r *rows) byPartition(hash roundHash, level int) (together *rows, records []int) {
	part := make([]int32, r.n)
	records = make([]int, 1<<partitionBits)
	var key []byte
	for row := range part {
		if row > 0 && r.sameRound(row, row-1) {
			part[row] = part[row-1]
		} else {
			key = r.appendRoundKey(key[:0], row)
			part[row] = int32(uint8(hash(key) >> (level * partitionBits)))
		}
		records[part[row]]++
	}
	return r.reorder(byPart(part, startsOf(records))), records
}

// byRound puts the records of each round together, rounds in the order of
// their first record.
func (r *rows) byRound() (together *rows, starts []int) {
	met := map[roundCodes]int32{}
	round := make([]int32, r.n)
	var records []int
	for row := range round {
		if row > 0 && r.sameRound(row, row-1) {
			round[row] = round[row-1]
		} else {
			codes := r.roundCodes(row)
			at, again := met[codes]
			if !again {
				at = int32(len(records))
				met[codes] = at
				records = append(records, 0)
			}
			round[row] = at
		}
		records[round[row]]++
	}
	starts = startsOf(records)
	return r.reorder(byPart(round, starts)), starts
}

// startsOf is where each of some parts with so many records begins.
func startsOf(records []int) []int {
	starts, end := make([]int, len(records)), 0
	for part, n := range records {
		starts[part] = end
		end += n
	}
	return starts
}

// byPart is the places of records sorted by the part that each belongs to.
func byPart(part []int32, starts []int) []int32 {
	places, next := make([]int32, len(part)), slices.Clone(starts)
	for row, p := range part {
		places[next[p]] = int32(row)
		next[p]++
	}
	return places
}
