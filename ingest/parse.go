package ingest

import (
	"bytes"
	"context"
	"errors"
	"iter"
	"maps"

	"roundmill/ingest/ordered"
)

// parsed is what became of a chunk, or what there is to say of a file as a
// whole.
type parsed struct {
	at     int // the file's place among the reader's
	rows   *rows
	strays []int // refused records that may not say where they belong
	batch  Batch
	unused map[string]bool // keys of a JSON document that meant nothing
	seen   manner
	ended  bool // this is what there is to say at the end of the file
}

// parse reads chunk after chunk, parses them on all workers and yields the
// results in input order, tied together where a file was cut.
func (r *Reader) parse(ctx context.Context) iter.Seq2[*parsed, error] {
	type key struct {
		file int
		name string
	}
	return func(yield func(*parsed, error) bool) {
		unused := map[key]bool{}
		seen, records := manner{}, int64(0) // of the file at hand
		use, meantNothing := mappedUse{met: map[string]bool{}}, map[string]bool{}
		before := border{file: -1}
		for p, err := range ordered.Map(ctx, r.options.Workers, r.options.Workers, r.produce, r.parseChunk) {
			if err != nil {
				yield(nil, err)
				return
			}
			for _, name := range sortedKeys(p.unused) {
				if k := (key{p.at, name}); !unused[k] {
					unused[k] = true
					p.batch.Notes = append(p.batch.Notes, Note{File: r.files[p.at].name, Text: "not used: " + name})
				}
			}
			seen.add(p.seen)
			maps.Copy(meantNothing, p.unused)
			for _, tally := range p.batch.Tallies {
				records += tally.Records
			}
			if p.ended {
				f := r.files[p.at]
				if records == 0 && len(p.batch.Rejects) == 0 {
					p.batch.Notes = append(p.batch.Notes, Note{File: f.name, Text: "no records in the file"})
				}
				records = 0
				for _, text := range seen.notes() {
					p.batch.Notes = append(p.batch.Notes, Note{File: f.name, Text: text})
				}
				r.readAs[p.at] = f.readAs(&seen)
				use.namesUsed(f, &seen, meantNothing)
				seen, meantNothing = manner{}, map[string]bool{}
			}
			if p.rows != nil {
				before.placeStrays(p)
			}
			if !yield(p, nil) {
				return
			}
		}
		if notes := use.notes(r.options.Columns); len(notes) > 0 {
			yield(&parsed{batch: Batch{Notes: notes}}, nil)
		}
	}
}

// A task is a chunk to parse, or what there is to say of a file as a whole.
type task struct {
	chunk chunk
	said  *parsed
}

// produce cuts all files into chunks; what is wrong with a file as a whole
// comes out in its place.
func (r *Reader) produce(ctx context.Context, emit func(task) error) error {
	if len(r.found) > 0 {
		if err := emit(task{said: &parsed{batch: Batch{Notes: r.found}}}); err != nil {
			return err
		}
	}
	var opened *archive
	defer func() { opened.close() }()
	for at, f := range r.files {
		if f.archive != opened {
			opened.close()
			opened = f.archive
		}
		f.passed, f.puttUnit = &r.passed, r.options.puttUnitName()
		notes, err := f.chunks(ctx, at, r.chunkBytes, r.options.Columns, func(c chunk) error {
			if f.dates == unsettled {
				if err := f.settleDates(ctx, c, r.options.Columns); err != nil {
					return err
				}
			}
			return emit(task{chunk: c})
		})
		p := &parsed{at: at, ended: true}
		var problem *fileProblem
		if errors.As(err, &problem) {
			p.batch.Rejects = []Reject{{Scope: FileScope, File: f.name, Line: max(problem.line, 1), Expected: problem.text, Hint: problem.hint}}
		} else if err != nil {
			return err
		}
		if f.dates == dayFirst || f.dates == monthFirst {
			notes = append(notes, "dates read as "+f.dates.String())
		}
		for _, text := range notes {
			p.batch.Notes = append(p.batch.Notes, Note{File: f.name, Text: text})
		}
		if err := emit(task{said: p}); err != nil {
			return err
		}
	}
	return nil
}

// shortestRecord is the length of a line such as 20260531,1,3,tee,99: room is
// not made for every line of a file full of blank ones.
const shortestRecord = 20

func (r *Reader) parseChunk(_ int, t task) (*parsed, error) {
	if t.said != nil {
		return t.said, nil
	}
	c := t.chunk
	p := newRecordParser(c.file, c.at, r.options.Lies, r.options.PuttUnit)
	p.rows.reserve(min(c.records, (len(c.data)+len(c.lines))/shortestRecord+1))
	p.commas = c.file.dialect.delimiter != ',' || bytes.IndexByte(c.data, '"') >= 0
	p.unguard = isListOfRejects(c.file.names)
	unused, keys := c.feed(r.options.Columns, p)
	p.seen.add(keys)
	p.rows.trim()
	p.seen.learnLies(p.rows, r.options.Lies)
	result := &parsed{at: c.at, rows: p.rows, strays: p.strays, unused: unused, seen: p.seen}
	result.batch.Rejects = p.rejects
	*result.batch.tallyOf(c.at) = p.tally
	return result, nil
}
