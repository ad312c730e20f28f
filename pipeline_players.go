package main

import (
	"context"
	"iter"
	"maps"
	"slices"

	"roundmill/ingest"
	"roundmill/ingest/ordered"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/transform"
)

const (
	// recordsTogether is up to how many records the figures of several players
	// are made at once: sums of a round take 15 kB until they are finished.
	recordsTogether = 1 << 16
	// recordsAtOnce is up to how many records of a player are unpacked at once.
	recordsAtOnce = 1 << 14
)

// players are the checked rounds of a log by player, packed, until all have been
// read. Figures are then made of some players after others, so that those of a
// federation take no more memory than those of a club.
type players struct {
	pile     *store.Pile
	rounds   map[string]*playerRounds
	together int // records
}

// playerRounds is where the rounds of a player are: all of them, and without
// scorecards, which is the same to most.
type playerRounds struct {
	all, strokes packedRounds
	scorecards   bool
}

// packedRounds are pieces of whole rounds, in the order of the input. They are
// lists of numbers, because a large log has a million rounds.
type packedRounds struct {
	pieces  []store.Kept
	rounds  []int32 // of each piece
	records []int32 // of each round
}

func newPlayers(pile *store.Pile) *players {
	return &players{pile: pile, rounds: map[string]*playerRounds{}, together: recordsTogether}
}

// playersRounds are the rounds of a batch, packed, those of a player that follow
// each other in one piece: all of them, and, if there are scorecards among them,
// without those.
type playersRounds struct{ all, strokes *packedBatch }

type packedBatch struct {
	pieces  *store.Packed // under the names of the players
	records []int         // of each round
}

// packPlayers packs the rounds of a batch.
func packPlayers(packer *store.Packer, batch *ingest.Batch, s *transform.Shots) playersRounds {
	packed := playersRounds{all: packBatch(packer, batch, s)}
	if batch.Strokes != nil {
		packed.strokes = packBatch(packer, batch.Strokes, s.Strokes())
	}
	return packed
}

func packBatch(packer *store.Packer, batch *ingest.Batch, s *transform.Shots) *packedBatch {
	var groups []store.Group
	row := 0
	for _, records := range batch.RoundRows {
		if last := len(groups) - 1; last >= 0 && s.Player.Codes[row] == s.Player.Codes[groups[last].From] {
			groups[last].To += records
		} else {
			groups = append(groups, store.Group{Key: s.Player.At(row), From: row, To: row + records})
		}
		row += records
	}
	return &packedBatch{packer.Pack(batch.Record, groups...), batch.RoundRows}
}

// add keeps the rounds of a batch.
func (p *players) add(batch playersRounds) error {
	if batch.strokes == nil {
		return p.keep(batch.all, func(of *playerRounds, kept store.Kept, records []int) {
			of.all.add(kept, records)
			if of.scorecards {
				of.strokes.add(kept, records)
			}
		})
	}
	err := p.keep(batch.all, func(of *playerRounds, kept store.Kept, records []int) {
		if !of.scorecards {
			of.scorecards, of.strokes = true, of.all.clone()
		}
		of.all.add(kept, records)
	})
	if err != nil {
		return err
	}
	return p.keep(batch.strokes, func(of *playerRounds, kept store.Kept, records []int) {
		of.strokes.add(kept, records)
	})
}

func (p *players) keep(batch *packedBatch, add func(of *playerRounds, kept store.Kept, records []int)) error {
	names := batch.pieces.Keys()
	pieces, err := p.pile.Add(batch.pieces)
	if err != nil {
		return err
	}
	records := batch.records
	for i, kept := range pieces {
		rounds := 0
		for left := int(kept.Rows); left > 0; rounds++ {
			left -= records[rounds]
		}
		add(p.of(names[i]), kept, records[:rounds])
		records = records[rounds:]
	}
	return nil
}

func (p *players) of(name string) *playerRounds {
	of := p.rounds[name]
	if of == nil {
		of = &playerRounds{}
		p.rounds[name] = of
	}
	return of
}

func (r *packedRounds) add(piece store.Kept, records []int) {
	r.pieces = append(r.pieces, piece)
	r.rounds = append(r.rounds, int32(len(records)))
	for _, n := range records {
		r.records = append(r.records, int32(n))
	}
}

func (r *packedRounds) clone() packedRounds {
	return packedRounds{slices.Clone(r.pieces), slices.Clone(r.rounds), slices.Clone(r.records)}
}

// count is the number of records.
func (r *packedRounds) count() (records int) {
	for _, piece := range r.pieces {
		records += int(piece.Rows)
	}
	return records
}

// figures finishes the figures of all players, in the order of their names, in
// parts of several, and hands part after part to take.
func (p *players) figures(ctx context.Context, s *settings, enrich func(*ingest.Batch) *transform.Shots, take func(*metrics.Results) error) error {
	options := s.figures
	options.Players = len(p.rounds)
	produce := func(_ context.Context, emit func([]string) error) error {
		for names := range p.parts() {
			if err := emit(names); err != nil {
				return err
			}
		}
		return nil
	}
	finish := func(_ int, names []string) (*metrics.Results, error) {
		set := metrics.NewSet(options)
		for _, name := range names {
			for batch, err := range p.batches(p.rounds[name]) {
				if err != nil {
					return nil, err
				}
				set.Add(enrich(batch))
			}
		}
		return set.Finish(), nil
	}
	for part, err := range ordered.Map(ctx, s.workers, s.workers, produce, finish) {
		if err != nil {
			return err
		}
		if err := take(part); err != nil {
			return err
		}
	}
	return nil
}

// parts are the names in order, in lists of players whose figures are made at
// once.
func (p *players) parts() iter.Seq[[]string] {
	return func(yield func([]string) bool) {
		var names []string
		records := 0
		for _, name := range slices.Sorted(maps.Keys(p.rounds)) {
			names = append(names, name)
			if records += p.rounds[name].all.count(); records >= p.together {
				if !yield(names) {
					return
				}
				names, records = nil, 0
			}
		}
		if len(names) > 0 {
			yield(names)
		}
	}
}

// batches unpacks the rounds of a player.
func (p *players) batches(of *playerRounds) iter.Seq2[*ingest.Batch, error] {
	return func(yield func(*ingest.Batch, error) bool) {
		if of.scorecards { // they are few, and stay beside the strokes
			whole, err := p.unpack(of.all.pieces, of.all.records)
			if err == nil {
				whole.Strokes, err = p.unpack(of.strokes.pieces, of.strokes.records)
			}
			yield(whole, err)
			return
		}
		for left := of.all; len(left.pieces) > 0; {
			pieces, rounds, records := 0, 0, 0
			for pieces < len(left.pieces) && records < recordsAtOnce {
				records += int(left.pieces[pieces].Rows)
				rounds += int(left.rounds[pieces])
				pieces++
			}
			if !yield(p.unpack(left.pieces[:pieces], left.records[:rounds])) {
				return
			}
			left = packedRounds{left.pieces[pieces:], left.rounds[pieces:], left.records[rounds:]}
		}
	}
}

func (p *players) unpack(pieces []store.Kept, records []int32) (*ingest.Batch, error) {
	record, err := p.pile.Batch(pieces)
	if err != nil {
		return nil, err
	}
	batch := &ingest.Batch{Record: record}
	for _, n := range records {
		batch.RoundRows = append(batch.RoundRows, int(n))
	}
	return batch, nil
}
