package ingest

import (
	"fmt"
	"os"
	"sync"
)

// A shelf keeps packed records until they are asked for: in memory, and past
// the limit in one temporary file. It may be used from several goroutines.
type shelf struct {
	scratch string
	limit   int // bytes held in memory

	lock   sync.Mutex
	held   []byte // what stands behind the file's content
	file   *os.File
	onDisk int64
}

// A piece is a run of packed records on the shelf.
type piece struct {
	at      int64
	length  int32
	records int32
}

// write adds bytes and returns where they begin.
func (s *shelf) write(packed []byte) (at int64, err error) {
	s.lock.Lock()
	defer s.lock.Unlock()
	at = s.onDisk + int64(len(s.held))
	s.held = append(s.held, packed...)
	if len(s.held) <= s.limit {
		return at, nil
	}
	if s.file == nil {
		if s.file, err = os.CreateTemp(s.scratch, "rounds-"); err != nil {
			return 0, fmt.Errorf("gathering scattered rounds: %w", err)
		}
	}
	if _, err := s.file.Write(s.held); err != nil {
		return 0, fmt.Errorf("gathering scattered rounds: %w", err)
	}
	s.onDisk += int64(len(s.held))
	s.held = s.held[:0]
	return at, nil
}

// read returns a piece as it was written.
func (s *shelf) read(p piece) ([]byte, error) {
	packed := make([]byte, p.length)
	s.lock.Lock()
	inMemory := p.at >= s.onDisk
	if inMemory {
		copy(packed, s.held[p.at-s.onDisk:])
	}
	s.lock.Unlock()
	if inMemory {
		return packed, nil
	}
	if _, err := s.file.ReadAt(packed, p.at); err != nil {
		return nil, fmt.Errorf("gathering scattered rounds: %w", err)
	}
	return packed, nil
}

// load unpacks pieces, one after another.
func (s *shelf) load(pieces []piece) (*rows, error) {
	all := 0
	for _, p := range pieces {
		all += int(p.records)
	}
	loaded := &rows{}
	loaded.reserve(all)
	var u rowUnpacker
	for _, p := range pieces {
		packed, err := s.read(p)
		if err == nil {
			err = u.unpack(packed, loaded)
		}
		if err != nil {
			return nil, err
		}
	}
	return loaded, nil
}

func (s *shelf) remove() {
	if s.file != nil {
		s.file.Close()
		os.Remove(s.file.Name())
	}
}
