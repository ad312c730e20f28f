package ingest

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// Limits on what a packed file may grow to.
const (
	maxUnpacked = 1 << 30
	maxRatio    = 200
	freeOfRatio = 10 << 20  // what may unpack at any ratio
	maxWindow   = 128 << 20 // of zstd, in memory
)

// An unpacked is a stream that is bounded in size and in how much it grows.
type unpacked struct {
	io.Reader
	kind   string
	packed func() int64 // bytes taken in so far, or in all
	grown  int64
	close  func() error
}

func (u *unpacked) Read(p []byte) (int, error) {
	n, err := u.Reader.Read(p)
	switch u.grown += int64(n); {
	case u.grown > maxUnpacked:
		return n, &fileProblem{text: fmt.Sprintf("unpacks to more than %d GiB", maxUnpacked>>30), hint: "unpack it yourself if you trust it"}
	case u.grown > freeOfRatio && u.grown > maxRatio*u.packed():
		return n, &fileProblem{text: fmt.Sprintf("unpacks to more than %d times its size", maxRatio), hint: "unpack it yourself if you trust it"}
	case err != nil:
		err = unpackingProblem(u.kind, err)
	}
	return n, err
}

func (u *unpacked) Close() error { return u.close() }

// packingOf tells a packed stream by its first bytes.
func packingOf(start []byte) string {
	switch {
	case bytes.HasPrefix(start, []byte("\x1f\x8b")):
		return "gzip"
	case bytes.HasPrefix(start, []byte("\x28\xb5\x2f\xfd")):
		return "zstd"
	}
	return ""
}

// unpack opens a packed stream; taken counts what was read of it.
func unpack(kind string, from *bufio.Reader, taken func() int64) (*unpacked, error) {
	u := &unpacked{kind: kind, packed: taken}
	if kind == "gzip" {
		stream, err := gzip.NewReader(from)
		if err != nil {
			return nil, unpackingProblem(kind, notEnd(err))
		}
		u.Reader, u.close = stream, stream.Close
		return u, nil
	}
	stream, err := zstd.NewReader(from, zstd.WithDecoderConcurrency(1), zstd.WithDecoderMaxMemory(maxUnpacked), zstd.WithDecoderMaxWindow(maxWindow))
	if err != nil {
		return nil, unpackingProblem(kind, err)
	}
	u.Reader, u.close = stream, func() error { stream.Close(); return nil }
	return u, nil
}

// notEnd takes an end for one that came too early.
func notEnd(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

// whole reads a packed file to its end, so that one that is cut, damaged or
// beyond the limits is refused before anything of it counts.
func (f *file) whole(ctx context.Context) error {
	again := *f
	again.passed = nil
	opened, err := again.open(ctx)
	if err != nil {
		return err
	}
	_, err = io.Copy(io.Discard, opened.Reader)
	if closing := opened.close(false); err == nil {
		err = closing
	}
	return err
}
