//go:build linux

package main

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
)

// inputNames are the ways in which the rows of the log can come, and but for the first the job that writes each.
var inputNames = []string{"csv", "files", "gzip", "json", "scattered"}

// inputFiles are what these jobs write.
var inputFiles = map[string]string{"files": "files", "gzip": "log.csv.gz", "json": "log.jsonl", "scattered": "scattered.csv"}

// logSize is how much is in a log.
type logSize struct {
	shots int
	bytes int64
}

func measureLog(log string) (size logSize, err error) {
	size.shots = -1 // for the header
	err = eachLine(log, func(line []byte) error {
		size.shots++
		size.bytes += int64(len(line))
		return nil
	})
	return size, err
}

// files are into how many a log is split, at most.
const files = 2000

// splitIntoFiles writes a log as many files of about the same size, header first, each of whole rounds.
func splitIntoFiles(log, folder string) error {
	info, err := os.Stat(log)
	if err != nil {
		return err
	}
	if err := os.Mkdir(folder, 0o755); err != nil {
		return err
	}
	var (
		header, round []byte
		file          *os.File
		written       int64
		count         int
	)
	out := bufio.NewWriterSize(nil, 1<<16)
	finish := func() error {
		if file == nil {
			return nil
		}
		return errors.Join(out.Flush(), file.Close())
	}
	err = eachLine(log, func(line []byte) error {
		if header == nil {
			header = bytes.Clone(line)
			return nil
		}
		if another := roundOf(line); !bytes.Equal(another, round) {
			round = append(round[:0], another...)
			if due := info.Size() * int64(count) / files; written >= due {
				if err := finish(); err != nil {
					return err
				}
				count++
				var err error
				if file, err = os.Create(filepath.Join(folder, fmt.Sprintf("rounds-%04d.csv", count))); err != nil {
					return err
				}
				out.Reset(file)
				out.Write(header) // an error comes again with Flush
			}
		}
		written += int64(len(line))
		_, err := out.Write(line)
		return err
	})
	return errors.Join(err, finish())
}

// roundOf is the part of a line that all shots of a round share and no other round of the log has: up to the number of
// the round.
func roundOf(line []byte) []byte {
	end := 0
	for range 7 {
		end += bytes.IndexByte(line[end:], ',') + 1
	}
	return line[:end]
}

// pack writes a log through gzip.
func pack(log, to string) error {
	return write(to, func(out io.Writer) error {
		in, err := os.Open(log)
		if err != nil {
			return err
		}
		defer in.Close()
		packed := gzip.NewWriter(out)
		_, err = io.Copy(packed, in)
		return errors.Join(err, packed.Close())
	})
}

// writeJSONLines writes a log as one JSON object a line, without what a shot does not say.
func writeJSONLines(log, to string) error {
	return write(to, func(out io.Writer) error {
		in, err := os.Open(log)
		if err != nil {
			return err
		}
		defer in.Close()
		records := csv.NewReader(bufio.NewReaderSize(in, 1<<16))
		records.ReuseRecord = true
		if _, err := records.Read(); err != nil { // the header
			return err
		}
		var line []byte
		for {
			record, err := records.Read()
			if err == io.EOF {
				return nil
			}
			if err != nil {
				return err
			}
			line = append(line[:0], '{')
			for i, value := range record {
				if value == "" {
					continue
				}
				if len(line) > 1 {
					line = append(line, ',')
				}
				line = append(strconv.AppendQuote(line, columns[i].name), ':')
				if columns[i].isText() {
					line = strconv.AppendQuote(line, value) // a generated log has no sign that JSON quotes in another way
				} else {
					line = append(line, value...)
				}
			}
			if _, err := out.Write(append(line, '}', '\n')); err != nil {
				return err
			}
		}
	})
}

// write makes a file of what a function writes.
func write(name string, fill func(io.Writer) error) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(file, 1<<20)
	return errors.Join(fill(out), out.Flush(), file.Close())
}

// eachLine hands over the lines of a file, each with its end, until one is refused.
func eachLine(name string, take func(line []byte) error) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	lines := bufio.NewReaderSize(file, 1<<20)
	for {
		line, err := lines.ReadSlice('\n')
		if err == io.EOF && len(line) == 0 {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: a line without an end: %w", name, err)
		}
		if err := take(line); err != nil {
			return err
		}
	}
}
