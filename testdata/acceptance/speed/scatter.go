//go:build linux

package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
)

// bucketBytes is about what is shuffled at once.
const bucketBytes = 64 << 20

// scatter writes the lines of a log in any order, all orders being as likely, the header first as before. Each line goes
// into a bucket by chance; then bucket after bucket is shuffled in memory, so that memory does not grow with the log.
// The same log gives the same order.
func scatter(log, to string, bucketBytes int64) (err error) {
	info, err := os.Stat(log)
	if err != nil {
		return err
	}
	rng := rand.New(rand.NewPCG(1, 0))
	buckets := make([]bucket, info.Size()/bucketBytes+1)
	for i := range buckets {
		if buckets[i], err = newBucket(fmt.Sprintf("%s-bucket-%d", to, i)); err != nil {
			return err
		}
		defer func() { err = errors.Join(err, buckets[i].remove()) }()
	}
	return write(to, func(out io.Writer) error {
		header := true
		if err := eachLine(log, func(line []byte) error {
			if header {
				header = false
				_, err := out.Write(line)
				return err
			}
			_, err := buckets[rng.IntN(len(buckets))].out.Write(line)
			return err
		}); err != nil {
			return err
		}
		for _, bucket := range buckets {
			if err := bucket.shuffle(rng, out); err != nil {
				return err
			}
		}
		return nil
	})
}

// A bucket is a file of lines that wait to be shuffled.
type bucket struct {
	file *os.File
	out  *bufio.Writer
}

func newBucket(name string) (bucket, error) {
	file, err := os.Create(name)
	return bucket{file, bufio.NewWriterSize(file, 1<<16)}, err
}

func (b bucket) shuffle(rng *rand.Rand, to io.Writer) error {
	if err := b.out.Flush(); err != nil {
		return err
	}
	var (
		text []byte
		ends = []int{0}
	)
	if err := eachLine(b.file.Name(), func(line []byte) error {
		text = append(text, line...)
		ends = append(ends, len(text))
		return nil
	}); err != nil {
		return err
	}
	for _, i := range rng.Perm(len(ends) - 1) {
		if _, err := to.Write(text[ends[i]:ends[i+1]]); err != nil {
			return err
		}
	}
	return nil
}

func (b bucket) remove() error { return errors.Join(b.file.Close(), os.Remove(b.file.Name())) }
