package ingest

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// ResultMarker is the file by which a result folder of the program is known;
// such folders are not read as logs.
const ResultMarker = "run.json"

// A file is one input and how it is read.
type file struct {
	name     string // as the user knows it
	path     string
	text     []byte // the content itself, for a log that is in memory
	dates    dateOrder
	dialect  dialect
	meanings []meaning // of the columns of a CSV
	onDisk   int64     // size when it was listed
	size     int64     // bytes read
	sum      []byte
	passed   *atomic.Int64 // bytes read of all files
}

// FileInfo describes an input file after it was read.
type FileInfo struct {
	Name   string `json:"name"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"` // of the bytes as they are on disk
}

func (f *file) info() FileInfo {
	return FileInfo{Name: f.name, Bytes: f.size, SHA256: hex.EncodeToString(f.sum)}
}

// findFiles lists the files under the given paths, folders in path order. What
// is no regular file, or is the program's own result folder, is passed over
// with a note. Standard input ("-") is copied to a file in scratch, so that it
// can be read twice.
func findFiles(paths []string, stdin io.Reader, scratch string) (files []*file, notes []Note, err error) {
	seen := map[string]bool{}
	add := func(name, path string, info fs.FileInfo) {
		if clean := filepath.Clean(path); !seen[clean] {
			seen[clean] = true
			files = append(files, &file{name: filepath.ToSlash(name), path: path, onDisk: info.Size(), dates: unsettled})
		}
	}
	for _, path := range paths {
		if path == "-" {
			copied, err := spool(stdin, scratch)
			if err != nil {
				return nil, nil, fmt.Errorf("standard input: %w", err)
			}
			info, err := os.Stat(copied)
			if err != nil {
				return nil, nil, err
			}
			add("standard input", copied, info)
			continue
		}
		info, err := os.Stat(path)
		if err != nil {
			return nil, nil, err
		}
		if info.Mode().IsRegular() {
			add(path, path, info)
			continue
		}
		if !info.IsDir() {
			return nil, nil, fmt.Errorf("%s: neither a file nor a folder", path)
		}
		// A trailing separator makes WalkDir follow a link given by name.
		err = filepath.WalkDir(path+string(filepath.Separator), func(path string, entry fs.DirEntry, err error) error {
			switch {
			case err != nil:
				notes = append(notes, Note{File: path, Text: "passed over: " + reason(err)})
				if entry != nil && entry.IsDir() {
					return fs.SkipDir
				}
			case entry.IsDir():
				if _, err := os.Stat(filepath.Join(path, ResultMarker)); err == nil {
					notes = append(notes, Note{File: path, Text: "passed over: results of an earlier run"})
					return fs.SkipDir
				}
			case strings.HasPrefix(entry.Name(), "."):
			case !entry.Type().IsRegular():
				notes = append(notes, Note{File: path, Text: "passed over: not a regular file"})
			default:
				info, err := entry.Info()
				if err != nil {
					return err
				}
				add(filepath.Clean(path), path, info)
			}
			return nil
		})
		if err != nil {
			return nil, nil, err
		}
	}
	return files, notes, nil
}

func reason(err error) string {
	var pathError *fs.PathError
	if errors.As(err, &pathError) {
		return pathError.Err.Error()
	}
	return err.Error()
}

func spool(from io.Reader, scratch string) (string, error) {
	copied, err := os.CreateTemp(scratch, "stdin-")
	if err != nil {
		return "", err
	}
	if _, err := io.Copy(copied, from); err != nil {
		copied.Close()
		return "", err
	}
	return copied.Name(), copied.Close()
}

// A content is an open file: its text decoded, its bytes hashed and counted as
// they pass.
type content struct {
	io.Reader
	closer io.Closer
	raw    io.Reader
	file   *file
	hash   hash.Hash
}

func (f *file) open() (*content, error) {
	var opened io.ReadCloser = io.NopCloser(bytes.NewReader(f.text))
	if f.text == nil {
		var err error
		if opened, err = os.Open(f.path); err != nil {
			return nil, err
		}
	}
	c := &content{closer: opened, file: f, hash: sha256.New()}
	f.size = 0
	c.raw = io.TeeReader(opened, io.MultiWriter(c.hash, f))
	c.Reader = transform.NewReader(c.raw, unicode.BOMOverride(transform.Nop))
	return c, nil
}

// Write counts the bytes that were read.
func (f *file) Write(p []byte) (int, error) {
	f.size += int64(len(p))
	if f.passed != nil {
		f.passed.Add(int64(len(p)))
	}
	return len(p), nil
}

// close reads what is left, so that the hash is of the whole file.
func (c *content) close() error {
	_, err := io.Copy(io.Discard, c.raw)
	c.file.sum = c.hash.Sum(nil)
	if closing := c.closer.Close(); err == nil {
		err = closing
	}
	return err
}

// sniff decides what the first bytes of a file are.
func (f *file) sniff(head []byte) (isJSON bool, err error) {
	text := bytes.TrimSpace(head)
	switch {
	case len(text) == 0:
		return false, fmt.Errorf("the file is empty: expected a header and one line a shot, or JSON")
	case bytes.HasPrefix(text, []byte("PAR1")):
		return false, fmt.Errorf("a Parquet file: expected CSV or JSON")
	case bytes.HasPrefix(text, []byte("PK\x03\x04")):
		return false, fmt.Errorf("a zip archive or a workbook: save the sheet as CSV")
	case bytes.HasPrefix(text, []byte("\x1f\x8b")) || bytes.HasPrefix(text, []byte("\x28\xb5\x2f\xfd")):
		return false, fmt.Errorf("a compressed file: unpack it first")
	case slices.Contains(text, 0):
		return false, fmt.Errorf("not text: expected CSV or JSON")
	}
	return text[0] == '{' || text[0] == '[', nil
}
