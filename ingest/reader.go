// Package ingest reads shot logs: it finds and opens files, matches their
// headers to the fields of a shot log, parses values with their units, gathers
// records into whole rounds and says of every record that it refuses what is
// wrong with it. It knows words and ranges, but nothing of golf beyond them.
package ingest

import (
	"context"
	"errors"
	"io"
	"runtime"
	"sync/atomic"

	"roundmill/ingest/disk"
)

// Options says how logs are read. The zero value reads with the built-in words
// and on all cores.
type Options struct {
	Columns  Mapping // the user's own column names
	Lies     Lies    // nil: DefaultLies
	PuttUnit Unit    // NoUnit: by header, else feet
	Narrow   Narrow
	Workers  int // 0: the cores
	Scratch  disk.Scratch
	Gather   bool // rounds may lie scattered over the input
}

// ErrScattered is the error of Rounds when the records of a round do not stand
// together. A Reader with Options.Gather reads such input.
var ErrScattered = errors.New("the records of a round do not stand together")

const defaultChunkBytes = 4 << 20

// limits bound the memory that reading takes. Tests make them small.
type limits struct {
	chunkBytes  int // of text that a worker takes at a time
	runRecords  int // of scattered records that a worker takes at a time, or a few more
	partRecords int // of scattered records that are loaded together, if they are of several rounds
}

var defaultLimits = limits{chunkBytes: defaultChunkBytes, runRecords: 1 << 14, partRecords: 1 << 16}

// A Reader reads the logs under some paths. It is used once.
type Reader struct {
	options Options
	files   []*file
	found   []Note
	readAs  [][]string // how each file was read
	passed  atomic.Int64
	total   int64
	limits
	hash roundHash
}

// Open lists the files under the paths ("-" is stdin, and copied), without reading
// them. The error names a path that cannot be used, or is that of ctx.
func Open(ctx context.Context, paths []string, stdin io.Reader, options Options) (*Reader, error) {
	files, notes, err := findFiles(ctx, paths, stdin, options.Scratch.Folder, maxFiles)
	if err != nil {
		return nil, err
	}
	return newReader(files, notes, options), nil
}

// OpenText reads a log that is in memory, such as the built-in season.
func OpenText(name string, text []byte, options Options) (*Reader, error) {
	log := &file{name: name, text: text, onDisk: int64(len(text)), dates: unsettled}
	return newReader([]*file{log}, nil, options), nil
}

func newReader(files []*file, notes []Note, options Options) *Reader {
	if options.Workers <= 0 {
		options.Workers = runtime.GOMAXPROCS(0)
	}
	if options.Lies == nil {
		options.Lies = DefaultLies()
	}
	r := &Reader{options: options, files: files, found: notes, limits: defaultLimits, hash: hashRound}
	r.readAs = make([][]string, len(files))
	for _, f := range files {
		r.total += f.onDisk
	}
	return r
}

func (o Options) puttUnitName() string {
	if o.PuttUnit == NoUnit {
		return Feet.String()
	}
	return o.PuttUnit.String()
}

// Again is a reader of the same input that gathers scattered rounds.
func (r *Reader) Again() *Reader {
	again := r.Afresh()
	again.options.Gather = true
	return again
}

// Afresh is a reader of the same input, from its start.
func (r *Reader) Afresh() *Reader {
	files := make([]*file, len(r.files))
	for i, f := range r.files {
		files[i] = &file{name: f.name, path: f.path, text: f.text, archive: f.archive, member: f.member, unreadable: f.unreadable, onDisk: f.onDisk, modified: f.modified, dates: unsettled}
	}
	again := newReader(files, r.found, r.options)
	again.limits, again.hash = r.limits, r.hash
	return again
}

// Progress is how many bytes have been read, of how many; callable from any
// goroutine while Rounds runs.
func (r *Reader) Progress() (read, total int64) { return r.passed.Load(), r.total }

// ReadAs says of each of Files, line by line, how it was read: its layout and
// encoding, what its columns were taken for and in which units, and what was
// understood that could have been written plainer. Known once Rounds has ended.
func (r *Reader) ReadAs() [][]string { return r.readAs }

// Files describes the input files in the order in which they are read; sizes
// and hashes are known once Rounds has ended.
func (r *Reader) Files() []FileInfo {
	infos := make([]FileInfo, len(r.files))
	for i, f := range r.files {
		infos[i] = f.info()
	}
	return infos
}
