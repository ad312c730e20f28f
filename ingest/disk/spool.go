package disk

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
)

const (
	spoolMemory = 4 << 20   // what a spool keeps in memory, and past that in its file
	blockBytes  = 256 << 10 // what it holds and writes at a time
)

// A Scratch is where spools have their temporary files.
type Scratch struct {
	Disk   Disk   // nil: that of the operating system
	Folder string // "": that of the operating system
	Memory int    // bytes that a spool keeps in memory; 0: 4 MB
}

// A Spool keeps bytes in memory and, once they are too many, in one temporary
// file. It may be used from several goroutines.
type Spool struct {
	of     string
	disk   Disk
	path   string // of the temporary file
	memory int

	lock   sync.RWMutex
	file   File     // nil until there is one
	onDisk int64    // bytes in the file
	held   [][]byte // what follows them: blocks, all of them full but the last
	end    int64
}

// Spool starts a spool of what the word says, such as rejects.
func (s Scratch) Spool(of string) *Spool {
	path := filepath.Join(cmp.Or(s.Folder, os.TempDir()), fmt.Sprintf("%s-%016x", of, rand.Uint64()))
	return &Spool{of: of, disk: cmp.Or[Disk](s.Disk, OS{}), path: path, memory: cmp.Or(s.Memory, spoolMemory)}
}

// Put keeps bytes and says where they begin. After an error it must be closed.
func (s *Spool) Put(bytes []byte) (at int64, err error) {
	s.lock.Lock()
	defer s.lock.Unlock()
	at = s.end
	s.end += int64(len(bytes))
	for len(bytes) > 0 {
		last := len(s.held) - 1
		if last < 0 || len(s.held[last]) == blockBytes {
			s.held = append(s.held, nil)
			last++
		}
		n := min(len(bytes), blockBytes-len(s.held[last]))
		s.held[last] = append(s.held[last], bytes[:n]...)
		bytes = bytes[n:]
	}
	memory := s.memory
	if s.file != nil {
		memory = min(memory, blockBytes)
	}
	if s.end-s.onDisk > int64(memory) {
		err = s.spill()
	}
	return at, err
}

// spill moves what is in memory to the file.
func (s *Spool) spill() error {
	if s.file == nil {
		file, err := s.disk.Create(s.path)
		if err != nil {
			return s.failed(err)
		}
		s.file = file
	}
	for _, block := range s.held {
		if _, err := s.file.Write(block); err != nil {
			return s.failed(err)
		}
	}
	s.held, s.onDisk = [][]byte{s.held[0][:0]}, s.end
	return nil
}

// ReadAt reads what was put, as io.ReaderAt says.
func (s *Spool) ReadAt(into []byte, at int64) (n int, err error) {
	s.lock.RLock()
	defer s.lock.RUnlock()
	if at < s.onDisk {
		n, err = s.file.ReadAt(into[:min(int64(len(into)), s.onDisk-at)], at)
		if err != nil {
			return n, s.failed(err)
		}
	}
	for n < len(into) && at+int64(n) < s.end {
		from := at + int64(n) - s.onDisk
		n += copy(into[n:], s.held[from/blockBytes][from%blockBytes:])
	}
	if n < len(into) {
		err = io.EOF
	}
	return n, err
}

// Reader reads all that was put, from the start.
func (s *Spool) Reader() io.Reader {
	s.lock.RLock()
	defer s.lock.RUnlock()
	return io.NewSectionReader(s, 0, s.end)
}

// Close empties the spool and removes the temporary file.
func (s *Spool) Close() error {
	s.lock.Lock()
	defer s.lock.Unlock()
	s.held, s.onDisk, s.end = nil, 0, 0
	if s.file == nil {
		return nil
	}
	err := errors.Join(s.file.Close(), s.disk.Remove(s.path))
	s.file = nil
	if err != nil {
		return s.failed(err)
	}
	return nil
}

func (s *Spool) failed(err error) error {
	return fmt.Errorf("%s kept in a temporary file: %w", s.of, err)
}
