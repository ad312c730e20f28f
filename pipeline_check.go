package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"roundmill/ingest"
	"roundmill/plots"
)

// check reads and judges the input and writes nothing.
func check(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) error {
	scratch, err := os.MkdirTemp("", "roundmill-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	reader, err := open(s, stdin, scratch)
	if err != nil {
		return err
	}
	said, err := os.CreateTemp(scratch, "rejects-") // input that is read again is told once
	if err != nil {
		return err
	}
	defer said.Close()
	lines := bufio.NewWriter(said)
	restart := func() (*reading, error) {
		lines.Reset(said)
		_, err := said.Seek(0, io.SeekStart)
		return &reading{onReject: func(r ingest.Reject) error {
			_, err := fmt.Fprintln(lines, r)
			return err
		}}, errors.Join(err, said.Truncate(0))
	}
	nothing := func(int, *ingest.Batch) struct{} { return struct{}{} }
	done, err := read(ctx, s, reader, stderr, restart, nothing, func(struct{}) error { return nil })
	if err != nil {
		return err
	}
	if err = lines.Flush(); err == nil {
		_, err = said.Seek(0, io.SeekStart)
	}
	if err == nil {
		_, err = io.Copy(stdout, said)
	}
	if err != nil {
		return err
	}
	if err := plots.WriteCheck(stdout, done.report(s)); err != nil {
		return err
	}
	return done.usable(s)
}
