package ingest

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"os"
	"sync/atomic"
	"time"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// A file is one input and how it is read.
type file struct {
	name       string   // as the user knows it
	path       string   // "" for a log that is in memory
	text       []byte   // its content
	archive    *archive // that it is a member of, by its place there
	member     int
	unreadable *fileProblem // known before it is opened
	dates      dateOrder
	form       string // what kind of file it is, in words; "" until that is known
	encoding   string // of its text
	puttUnit   string // in which distances on the green are read that name none

	// Of a CSV.
	dialect      dialect
	decimalComma bool // some number can be nothing else
	header       []byte
	names        []string
	meanings     []meaning // of the columns
	firstLine    int       // below the header
	foreign      bool      // some text is not UTF-8, first on line foreignLine
	foreignLine  int

	// Of a Parquet file.
	columns []tableColumn
	own     *ownColumns // of a table that the program wrote

	onDisk   int64 // size when it was listed
	modified time.Time
	size     int64 // bytes read
	sum      []byte
	passed   *atomic.Int64 // bytes read of all files
}

// FileInfo describes an input file after it was read.
type FileInfo struct {
	Name   string `json:"name"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"` // of the bytes as they are on disk, or as they come out of the archive
	// ArchiveSHA256 is of the archive on disk, when the file is a member of one.
	ArchiveSHA256 string `json:"archive_sha256,omitempty"`
}

func (f *file) info() FileInfo {
	info := FileInfo{Name: f.name, Bytes: f.size, SHA256: hex.EncodeToString(f.sum)}
	if f.archive != nil {
		info.ArchiveSHA256 = hex.EncodeToString(f.archive.sum)
	}
	return info
}

// A content is an open file: its text decoded, its bytes hashed and counted as
// they pass.
type content struct {
	*bufio.Reader // of headBytes
	closer        io.Closer
	raw           io.Reader
	file          *file
	hash          hash.Hash
	packing       string // what it is unpacked from, "" for nothing
	stream        *unpacked
}

// openBytes opens the bytes of the file, as they are on disk or come out of its
// archive.
func (f *file) openBytes() (io.ReadCloser, error) {
	switch {
	case f.archive != nil:
		return f.archive.openMember(f.member)
	case f.path != "":
		return os.Open(f.path)
	}
	return io.NopCloser(bytes.NewReader(f.text)), nil
}

// open opens the file as text. Reading it ends when ctx does.
func (f *file) open(ctx context.Context) (*content, error) {
	opened, err := f.openBytes()
	if err != nil {
		return nil, err
	}
	c := &content{closer: opened, file: f, hash: sha256.New()}
	if f.archive != nil {
		c.packing = "zip"
	}
	f.size, f.encoding = 0, "UTF-8"
	c.raw = io.TeeReader(contextReader{ctx, opened}, io.MultiWriter(c.hash, f))
	c.Reader = bufio.NewReaderSize(c.raw, headBytes)
	start, _ := c.Peek(packingBytes) // an error comes again with the next read
	if kind := packingOf(start); kind != "" {
		c.stream, err = unpack(kind, c.Reader, func() int64 { return f.size })
		if err != nil {
			opened.Close()
			return nil, err
		}
		c.packing = kind
		c.Reader = bufio.NewReaderSize(c.stream, headBytes)
	}
	decode := func(encoding string, by transform.Transformer) {
		f.encoding = encoding
		c.Reader = bufio.NewReaderSize(transform.NewReader(c.Reader, by), headBytes)
	}
	switch mark, _ := c.Peek(3); { // an error of Peek comes again with the next read
	case bytes.HasPrefix(mark, []byte("\ufeff")):
		c.Discard(len("\ufeff"))
	case bytes.HasPrefix(mark, []byte{0xFE, 0xFF}):
		decode("UTF-16 (big-endian)", unicode.BOMOverride(transform.Nop))
	case bytes.HasPrefix(mark, []byte{0xFF, 0xFE}):
		decode("UTF-16 (little-endian)", unicode.BOMOverride(transform.Nop))
	default:
		start, _ := c.Peek(unmarkedBytes)
		if endianness, name := unmarkedUTF16(start); name != "" {
			decode(name, unicode.UTF16(endianness, unicode.IgnoreBOM).NewDecoder())
		}
	}
	return c, nil
}

type contextReader struct {
	ctx    context.Context
	source io.Reader
}

func (r contextReader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.source.Read(p)
}

const packingBytes = 4

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

// count takes the size and hash of a file of which nothing else can be known,
// as far as it can be read: what is wrong with it is told elsewhere.
func (f *file) count() {
	opened, err := f.openBytes()
	if err != nil {
		return
	}
	defer opened.Close()
	f.size = 0
	hash := sha256.New()
	io.Copy(io.MultiWriter(hash, f), opened)
	f.sum = hash.Sum(nil)
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
// the hash is of the whole, and must be as it was when it was listed.
func (c *content) close(counts bool) (err error) {
	if counts {
		_, err = io.Copy(io.Discard, c.raw)
		c.file.sum = c.hash.Sum(nil)
		if err == nil {
			err = c.file.unchanged(c.closer)
		}
	}
	if c.stream != nil {
		c.stream.Close()
	}
	if closing := c.closer.Close(); err == nil {
		err = closing
	}
	return err
}

const tarMark = 257 // where the header of a tar archive says so

// sniff decides what the first bytes of a file are.
func (f *file) sniff(head []byte) (isJSON bool, err error) {
	text := bytes.TrimSpace(head)
	switch {
	case len(text) == 0:
		return false, fmt.Errorf("the file is empty: expected a header and one line a shot, or JSON")
	case bytes.HasPrefix(text, []byte("PK")) && len(text) > 3 && text[2] < ' ':
		return false, fmt.Errorf("a zip archive inside another, a damaged one or a workbook: save the sheet as CSV, or unpack it")
	case packingOf(text) != "":
		return false, fmt.Errorf("packed twice: unpack it first")
	case bytes.HasPrefix(text, []byte("BZh")), bytes.HasPrefix(text, []byte("\xfd7zXZ")), bytes.HasPrefix(text, []byte("7z\xbc\xaf")), bytes.HasPrefix(text, []byte("Rar!")),
		len(head) > tarMark && bytes.HasPrefix(head[tarMark:], []byte("ustar")):
		return false, fmt.Errorf("packed in a way that is not read: gzip, zstd and zip are")
	case bytes.IndexByte(text, 0) >= 0:
		return false, fmt.Errorf("not text: expected CSV or JSON")
	}
	inside := bytes.TrimSpace(text[1:])
	isList := text[0] == '[' && (len(inside) == 0 || bytes.IndexByte([]byte(`{["-]tfn0123456789`), inside[0]) >= 0) // and no title in brackets
	return text[0] == '{' || isList, nil
}
