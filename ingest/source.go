package ingest

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"os"
	"slices"
	"sync/atomic"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// A file is one input and how it is read.
type file struct {
	name     string // as the user knows it
	path     string // "" for a log that is in memory
	text     []byte // its content
	dates    dateOrder
	form     string // what kind of file it is, in words; "" until that is known
	encoding string // of its text
	puttUnit string // in which distances on the green are read that name none

	// Of a CSV.
	dialect      dialect
	decimalComma bool // some number can be nothing else
	header       []byte
	names        []string
	meanings     []meaning // of the columns
	firstLine    int       // below the header
	foreign      bool      // some text is not UTF-8, first on line foreignLine
	foreignLine  int

	onDisk int64 // size when it was listed
	size   int64 // bytes read
	sum    []byte
	passed *atomic.Int64 // bytes read of all files
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
	if f.path != "" {
		var err error
		if opened, err = os.Open(f.path); err != nil {
			return nil, err
		}
	}
	c := &content{closer: opened, file: f, hash: sha256.New()}
	f.size, f.encoding = 0, "UTF-8"
	c.raw = io.TeeReader(opened, io.MultiWriter(c.hash, f))
	buffered := bufio.NewReaderSize(c.raw, headBytes)
	c.Reader = buffered
	switch mark, _ := buffered.Peek(3); { // an error of Peek comes again with the next read
	case bytes.HasPrefix(mark, []byte("\ufeff")):
		buffered.Discard(len("\ufeff"))
	case bytes.HasPrefix(mark, []byte{0xFE, 0xFF}):
		f.encoding = "UTF-16 (big-endian)"
		c.Reader = transform.NewReader(buffered, unicode.BOMOverride(transform.Nop))
	case bytes.HasPrefix(mark, []byte{0xFF, 0xFE}):
		f.encoding = "UTF-16 (little-endian)"
		c.Reader = transform.NewReader(buffered, unicode.BOMOverride(transform.Nop))
	default:
		start, _ := buffered.Peek(unmarkedBytes)
		if endianness, name := unmarkedUTF16(start); name != "" {
			f.encoding = name
			c.Reader = transform.NewReader(buffered, unicode.UTF16(endianness, unicode.IgnoreBOM).NewDecoder())
		}
	}
	return c, nil
}

// unmarkedBytes is how much of a text shows whether it is UTF-16.
const unmarkedBytes = 512

// unmarkedUTF16 tells UTF-16 without a byte order mark by its zero bytes: those
// of plain letters stand on one side only. name is "" for any other text.
func unmarkedUTF16(start []byte) (endianness unicode.Endianness, name string) {
	var zeros [2]int
	for i, b := range start {
		if b == 0 {
			zeros[i%2]++
		}
	}
	const mostly = 0.7
	pairs := float64(len(start) / 2)
	switch {
	case pairs < 2:
	case zeros[0] == 0 && float64(zeros[1]) > mostly*pairs:
		return unicode.LittleEndian, "UTF-16 (little-endian), without a byte order mark"
	case zeros[1] == 0 && float64(zeros[0]) > mostly*pairs:
		return unicode.BigEndian, "UTF-16 (big-endian), without a byte order mark"
	}
	return unicode.LittleEndian, ""
}

// Write counts the bytes that were read.
func (f *file) Write(p []byte) (int, error) {
	f.size += int64(len(p))
	if f.passed != nil {
		f.passed.Add(int64(len(p)))
	}
	return len(p), nil
}

// close ends the reading. A file that counts is first read to its end, so that
// the hash is of the whole.
func (c *content) close(counts bool) (err error) {
	if counts {
		_, err = io.Copy(io.Discard, c.raw)
		c.file.sum = c.hash.Sum(nil)
	}
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
