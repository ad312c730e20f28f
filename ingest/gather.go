package ingest

import (
	"context"
	"encoding/gob"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"iter"
	"os"
)

const partitions = 64

// A partition gathers the records of some of the rounds, in memory and, past
// the limit, in a temporary file.
type partition struct {
	held    rows
	file    *os.File
	encoder *gob.Encoder
}

// gathered reads everything once, sorts the records into partitions by their
// round, and yields the rounds of one partition after another. Records of a
// round keep their order in the input.
func (r *Reader) gathered(ctx context.Context) iter.Seq2[*Rounds, error] {
	return func(yield func(*Rounds, error) bool) {
		var parts [partitions]partition
		defer func() {
			for i := range parts {
				parts[i].remove()
			}
		}()
		held := 0
		for p, err := range r.parse(ctx) {
			if err != nil {
				yield(nil, err)
				return
			}
			if p.rows != nil {
				for i, places := range p.rows.byPartition() {
					if len(places) > 0 {
						parts[i].held.append(p.rows.reorder(places))
					}
				}
				if held += p.rows.n; held > r.heldRecords {
					held = 0
					for i := range parts {
						if err := parts[i].spill(r.options.Scratch); err != nil {
							yield(nil, err)
							return
						}
					}
				}
			}
			if !yield(&Rounds{reader: r, batch: p.batch}, nil) {
				return
			}
		}
		for i := range parts {
			all, err := parts[i].load()
			if err != nil {
				yield(nil, err)
				return
			}
			if all.n == 0 {
				continue
			}
			together, starts := all.byRound()
			if !yield(&Rounds{reader: r, rows: together, starts: starts}, nil) {
				return
			}
		}
	}
}

// byPartition is which records belong to which partition, by their rounds.
func (r *rows) byPartition() (places [partitions][]int32) {
	var part uint32
	for row := range r.n {
		if row == 0 || !r.sameRound(row, row-1) {
			h := fnv.New32a()
			io.WriteString(h, r.roundKey(row))
			part = h.Sum32() % partitions
		}
		places[part] = append(places[part], int32(row))
	}
	return places
}

// byRound puts the records of each round together, rounds in the order of
// their first record.
func (r *rows) byRound() (together *rows, starts []int) {
	places := map[string]int{}
	var rounds [][]int32
	from := append(r.roundStarts(), r.n)
	for i, start := range from[:len(from)-1] {
		key := r.roundKey(start)
		at, met := places[key]
		if !met {
			at = len(rounds)
			places[key] = at
			rounds = append(rounds, nil)
		}
		for row := start; row < from[i+1]; row++ {
			rounds[at] = append(rounds[at], int32(row))
		}
	}
	order := make([]int32, 0, r.n)
	for _, records := range rounds {
		starts = append(starts, len(order))
		order = append(order, records...)
	}
	return r.reorder(order), starts
}

// spilled is rows as they go to disk.
type spilled struct {
	N                                int
	Codes                            [textCount][]int32
	Lists                            [textCount][]string
	Numbers                          [numberCount][]float64
	Line, File                       []int32
	Refused, Doubt, LeftOpen, Broken []bool
}

func (p *partition) spill(scratch string) error {
	if p.held.n == 0 {
		return nil
	}
	if p.file == nil {
		file, err := os.CreateTemp(scratch, "rounds-")
		if err != nil {
			return fmt.Errorf("gathering scattered rounds: %w", err)
		}
		p.file, p.encoder = file, gob.NewEncoder(file)
	}
	out := spilled{
		N: p.held.n, Numbers: p.held.numbers, Line: p.held.line, File: p.held.file,
		Refused: p.held.refused, Doubt: p.held.doubt, LeftOpen: p.held.leftOpen, Broken: p.held.broken,
	}
	for i, column := range p.held.texts {
		out.Codes[i], out.Lists[i] = column.codes, column.list
	}
	p.held = rows{}
	if err := p.encoder.Encode(&out); err != nil {
		return fmt.Errorf("gathering scattered rounds: %w", err)
	}
	return nil
}

// load returns all records of the partition in the order they were added.
func (p *partition) load() (*rows, error) {
	if p.file == nil {
		return &p.held, nil
	}
	if _, err := p.file.Seek(0, io.SeekStart); err != nil {
		return nil, fmt.Errorf("gathering scattered rounds: %w", err)
	}
	all := &rows{}
	for decoder := gob.NewDecoder(p.file); ; {
		var in spilled
		err := decoder.Decode(&in)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("gathering scattered rounds: %w", err)
		}
		part := &rows{
			n: in.N, numbers: in.Numbers, line: in.Line, file: in.File,
			refused: in.Refused, doubt: in.Doubt, leftOpen: in.LeftOpen, broken: in.Broken,
		}
		for i := range part.texts {
			part.texts[i].codes, part.texts[i].list = in.Codes[i], in.Lists[i]
		}
		all.append(part)
	}
	all.append(&p.held)
	return all, nil
}

func (p *partition) remove() {
	if p.file != nil {
		p.file.Close()
		os.Remove(p.file.Name())
	}
}
