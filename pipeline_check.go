package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"roundmill/ingest"
	"roundmill/ingest/disk"
	"roundmill/plots"
)

// check reads and judges the input and writes nothing.
func check(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) error {
	folder, err := os.MkdirTemp("", "roundmill-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	scratch := disk.Scratch{Disk: s.disk, Folder: folder, Memory: s.memory}
	reader, err := open(ctx, s, stdin, scratch)
	if err != nil {
		return err
	}
	said := scratch.Spool("rejects") // input that is read again is told once
	defer said.Close()
	restart := func() (*reading, error) {
		return &reading{onReject: func(r ingest.Reject) error {
			_, err := said.Put(fmt.Appendln(nil, r))
			return err
		}}, said.Close()
	}
	nothing := func(int, *ingest.Batch) struct{} { return struct{}{} }
	done, err := read(ctx, s, reader, stderr, restart, nothing, func(struct{}) error { return nil })
	if err != nil {
		return err
	}
	_, err = io.Copy(stdout, said.Reader())
	if err = errors.Join(err, said.Close()); err != nil {
		return err
	}
	if !s.quiet {
		if err := plots.WriteCheck(stdout, done.report(s)); err != nil {
			return err
		}
	}
	return done.usable(s)
}
