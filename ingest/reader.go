// Package ingest reads shot logs: it finds and opens files, matches their
// headers to the fields of a shot log, parses values with their units, gathers
// records into whole rounds and says of every record that it refuses what is
// wrong with it. It knows words and ranges, but nothing of golf beyond them.
package ingest

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"runtime"
	"sync/atomic"

	"roundmill/ingest/ordered"
)

// Options says how logs are read. The zero value reads with the built-in words
// and on all cores.
type Options struct {
	Columns  Mapping // the user's own column names
	Lies     Lies    // nil: DefaultLies
	PuttUnit Unit    // NoUnit: by header, else feet
	Narrow   Narrow
	Workers  int    // 0: the cores
	Scratch  string // folder for temporary files
	Gather   bool   // rounds may lie scattered over the input
}

// ErrScattered is the error of Rounds when the records of a round do not stand
// together. A Reader with Options.Gather reads such input.
var ErrScattered = errors.New("the records of a round do not stand together")

// A Reader reads the logs under some paths. It is used once.
type Reader struct {
	options Options
	files   []*file
	found   []Note
	passed  atomic.Int64
	total   int64
}

// Open lists the files under the paths ("-" is stdin), without reading them.
// The error names a path that cannot be used.
func Open(paths []string, stdin io.Reader, options Options) (*Reader, error) {
	if options.Workers <= 0 {
		options.Workers = runtime.GOMAXPROCS(0)
	}
	if options.Lies == nil {
		options.Lies = DefaultLies()
	}
	files, notes, err := findFiles(paths, stdin, options.Scratch)
	if err != nil {
		return nil, err
	}
	r := &Reader{options: options, files: files, found: notes}
	for _, f := range files {
		r.total += f.onDisk
	}
	return r, nil
}

// Progress is how many bytes have been read, of how many; callable from any
// goroutine while Rounds runs.
func (r *Reader) Progress() (read, total int64) { return r.passed.Load(), r.total }

// OpenText reads a log that is in memory, such as the built-in season.
func OpenText(name string, text []byte, options Options) (*Reader, error) {
	r, err := Open(nil, nil, options)
	if err == nil {
		r.files = []*file{{name: name, text: text, onDisk: int64(len(text)), dates: unsettled}}
	}
	return r, err
}

// Again is a reader of the same input that gathers scattered rounds.
func (r *Reader) Again() *Reader {
	again := &Reader{options: r.options, found: r.found, total: r.total}
	again.options.Gather = true
	for _, f := range r.files {
		again.files = append(again.files, &file{name: f.name, path: f.path, text: f.text, onDisk: f.onDisk, dates: unsettled})
	}
	return again
}

// Files describes the input files in the order in which they are read; sizes
// and hashes are known once Rounds has ended.
func (r *Reader) Files() []FileInfo {
	infos := make([]FileInfo, len(r.files))
	for i, f := range r.files {
		infos[i] = f.info()
	}
	return infos
}

// Rounds are whole rounds, parsed but not yet checked. Check may be called from
// any goroutine.
type Rounds struct {
	reader *Reader
	rows   *rows
	starts []int // first record of each round
	batch  Batch
}

// Check puts the records in order, judges them and returns the batch.
func (r *Rounds) Check() *Batch {
	if r.rows == nil || r.rows.n == 0 {
		return &r.batch
	}
	c := &checker{
		files: r.reader.files, lies: r.reader.options.Lies, puttUnit: r.reader.options.PuttUnit,
		narrow: r.reader.options.Narrow, rows: r.rows, batch: &r.batch,
		order: make([]int32, 0, r.rows.n), states: make([]holeState, 0, r.rows.n),
	}
	for i, start := range r.starts {
		end := r.rows.n
		if i+1 < len(r.starts) {
			end = r.starts[i+1]
		}
		before := len(c.order)
		c.round(start, end)
		if kept := len(c.order) - before; kept > 0 {
			r.batch.RoundRows = append(r.batch.RoundRows, kept)
			if r.batch.Rounds == nil {
				r.batch.Rounds = map[int]int{}
			}
			r.batch.Rounds[int(r.rows.file[c.order[before]])]++
		}
	}
	if len(c.order) > 0 {
		r.batch.Record = c.inOrder().record(r.reader.files, c.states)
	}
	return &r.batch
}

func (c *checker) inOrder() *rows {
	for i, at := range c.order {
		if int(at) != i || len(c.order) != c.rows.n {
			return c.rows.reorder(c.order)
		}
	}
	return c.rows
}

// parsed is what became of a chunk.
type parsed struct {
	rows   *rows
	batch  Batch
	at     int
	unused map[string]bool
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
// and remembers the rounds it has met.
func (r *Reader) inSequence(ctx context.Context) iter.Seq2[*Rounds, error] {
	return func(yield func(*Rounds, error) bool) {
		met := map[string]bool{}
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
			if waiting.rows.joins(p.rows) {
				end := p.rows.n
				if len(starts) > 1 {
					end = starts[1]
				}
				waiting.rows.append(p.rows.slice(0, end))
				starts = starts[1:]
			}
			for _, start := range starts {
				key := p.rows.roundKey(start)
				if met[key] {
					yield(nil, ErrScattered)
					return
				}
				met[key] = true
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

// roundStarts finds where a round begins: where the key changes.
func (r *rows) roundStarts() []int {
	starts := []int{0}
	for i := 1; i < r.n; i++ {
		if !r.sameRound(i, i-1) {
			starts = append(starts, i)
		}
	}
	return starts
}

// joins reports whether next goes on with the round that ends r. A refused
// record that does not say where it belongs goes with what stands before it.
func (r *rows) joins(next *rows) bool {
	if r.n == 0 {
		return false
	}
	if next.refused[0] && (isMissing(next.number(date, 0)) || isMissing(next.number(hole, 0))) {
		return true
	}
	return r.roundKey(r.n-1) == next.roundKey(0)
}

// parse reads chunk after chunk, parses them on all workers and yields the
// results in input order.
func (r *Reader) parse(ctx context.Context) iter.Seq2[*parsed, error] {
	return func(yield func(*parsed, error) bool) {
		unused := map[string]bool{}
		for _, f := range r.files {
			f.passed = &r.passed
		}
		for p, err := range ordered.Map(ctx, r.options.Workers, r.produce, r.parseChunk) {
			if err == nil {
				for _, key := range sortedKeys(p.unused) {
					if id := fmt.Sprint(p.at, key); !unused[id] {
						unused[id] = true
						p.batch.Notes = append(p.batch.Notes, Note{File: r.files[p.at].name, Text: "not used: " + key})
					}
				}
			}
			if !yield(p, err) {
				return
			}
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
	for at, f := range r.files {
		notes, err := f.chunks(ctx, at, r.options.Columns, func(c chunk) error {
			if f.dates == unsettled {
				if err := f.settleDates(ctx, c, r.options.Columns); err != nil {
					return err
				}
			}
			return emit(task{chunk: c})
		})
		p := &parsed{at: at}
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

func (r *Reader) parseChunk(_ int, t task) (*parsed, error) {
	if t.said != nil {
		return t.said, nil
	}
	c := t.chunk
	p := newRecordParser(c.file, c.at, r.options.Lies, r.options.PuttUnit)
	unused := c.feed(r.options.Columns, p)
	p.rows.trim()
	result := &parsed{rows: p.rows, at: c.at, unused: unused}
	result.batch.Rejects = p.rejects
	*result.batch.tallyOf(c.at) = p.tally
	return result, nil
}

// settleDates decides the order of a file's dates: by its first date when that
// has the year first, else by all of them.
func (f *file) settleDates(ctx context.Context, first chunk, mapping Mapping) error {
	if first.elements == nil {
		end, _ := f.dialect.recordEnd(first.data, true)
		first.data = first.data[:end]
	} else {
		first.elements = first.elements[:1]
	}
	peek := &dateSurvey{}
	first.feed(mapping, peek)
	if peek.yearFirst > 0 {
		f.dates = yearFirst
		return nil
	}
	whole := &dateSurvey{}
	again := *f
	_, err := again.chunks(ctx, 0, mapping, func(c chunk) error {
		c.feed(mapping, whole)
		return nil
	})
	if err != nil {
		return err
	}
	f.dates = whole.order()
	if f.dates == unsettled {
		return &fileProblem{
			text: fmt.Sprintf("date %q: day first or month first? No date in the file settles it", whole.example),
			hint: "write dates as 2026-05-31, or say which in a --columns file: date = date day first",
		}
	}
	return nil
}

func (o dateOrder) String() string {
	return [...]string{"year first", "day first", "month first", "unsettled"}[o]
}
