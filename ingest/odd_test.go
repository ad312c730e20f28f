package ingest

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"roundmill/ingest/disk"
)

// oddFile is a line of testdata/odd/expected.txt: what a careful person would
// understand of a file, and what must be said.
type oddFile struct {
	name                   string
	kept, refused, skipped int64
	sound                  int // kept records in holes that lack nothing
	rounds                 int // 0: any
	repeated               int64
	rejects, notes, read   []string
}

func oddFiles(t *testing.T) (files []oddFile) {
	t.Helper()
	expected, err := os.Open("testdata/odd/expected.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer expected.Close()
	for lines := bufio.NewScanner(expected); lines.Scan(); {
		line := lines.Text()
		key, text, found := strings.Cut(strings.TrimSpace(line), ": ")
		switch {
		case strings.HasPrefix(line, "#"):
		case !found:
			t.Fatalf("%q: expected a name or key, then a colon", line)
		case line[0] != '\t':
			f := oddFile{name: key}
			if _, err := fmt.Sscanf(text, "%d kept, %d refused, %d skipped, %d sound", &f.kept, &f.refused, &f.skipped, &f.sound); err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			files = append(files, f)
		default:
			f := &files[len(files)-1]
			switch key {
			case "reject":
				f.rejects = append(f.rejects, text)
			case "note":
				f.notes = append(f.notes, text)
			case "as":
				f.read = append(f.read, text)
			case "rounds":
				fmt.Sscan(text, &f.rounds)
			case "repeated":
				fmt.Sscan(text, &f.repeated)
			default:
				t.Fatalf("%q: no such key", line)
			}
		}
	}
	return files
}

// Every odd file comes to what is expected of it, whole and in pieces.
func TestOddFiles(t *testing.T) {
	files := oddFiles(t)
	listed := map[string]bool{"expected.txt": true}
	for _, f := range files {
		listed[f.name] = true
	}
	entries, err := os.ReadDir("testdata/odd")
	if err != nil || len(files) < 150 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, entry := range entries {
		if !listed[entry.Name()] {
			t.Errorf("nothing is expected of %s", entry.Name())
		}
	}
	t.Chdir("testdata/odd")
	scratch := t.TempDir()
	for _, f := range files {
		t.Run(f.name, func(t *testing.T) {
			for _, pieces := range []int{defaultChunkBytes, 1} {
				reader, err := Open(t.Context(), []string{f.name}, nil, Options{Workers: 1, Gather: true, Scratch: disk.Scratch{Folder: scratch}})
				if err != nil {
					t.Fatal(err)
				}
				reader.chunkBytes = pieces
				o := readAll(t, reader)
				sound := 0
				for _, state := range o.column(HoleState) {
					if state == "0" {
						sound++
					}
				}
				got := oddFile{name: f.name, kept: o.tally.Kept, refused: o.tally.Refused, skipped: o.tally.Skipped, repeated: o.tally.Repeated, sound: sound}
				if got.kept != f.kept || got.refused != f.refused || got.skipped != f.skipped || got.repeated != f.repeated || got.sound != f.sound || f.rounds > 0 && f.rounds != o.rounds {
					t.Errorf("%+v, %d rounds; expected %+v", got, o.rounds, f)
				}
				if len(f.rejects) == 0 && len(o.rejects) > 0 {
					t.Errorf("rejects %q, expected none", o.rejects)
				}
				for _, want := range []struct {
					what           string
					said, expected []string
				}{
					{"rejects", o.rejects, f.rejects}, {"notes", o.notes, f.notes}, {"read as", slices.Concat(reader.ReadAs()...), f.read},
				} {
					for _, text := range want.expected {
						if !slices.ContainsFunc(want.said, func(line string) bool { return strings.Contains(line, text) }) {
							t.Errorf("%s %q, expected one with %q", want.what, want.said, text)
						}
					}
				}
			}
		})
	}
}

// The fast way through a line and the careful one agree on every odd file.
func TestOddFilesOnTheFastAndTheCarefulWay(t *testing.T) {
	compared := 0
	for _, odd := range oddFiles(t) {
		text, err := os.ReadFile("testdata/odd/" + odd.name)
		if err != nil {
			t.Fatal(err)
		}
		f := &file{name: odd.name, text: text, dates: unsettled}
		if isZip(odd.name) {
			continue
		}
		var chunks []chunk
		_, err = f.chunks(context.Background(), 0, defaultChunkBytes, nil, func(c chunk) error {
			chunks = append(chunks, c)
			if f.dates == unsettled {
				return f.settleDates(context.Background(), c, nil)
			}
			return nil
		})
		var problem *fileProblem
		if err != nil && !errors.As(err, &problem) {
			t.Fatal(err)
		}
		for _, c := range chunks {
			if c.data == nil {
				continue
			}
			parse := func(feed func(to sink)) string {
				p := newRecordParser(f, 0, DefaultLies(), NoUnit)
				p.commas, p.unguard = true, isListOfRejects(f.names)
				feed(p)
				p.rows.trim()
				said := fmt.Sprintf("%+v %q", p.tally, p.rejects)
				for row := range p.rows.n {
					for at := range fieldCount {
						switch {
						case p.rows.refused[row]:
						case at.isText():
							said += "|" + p.rows.text(at, row)
						default:
							said += fmt.Sprint("|", p.rows.number(at, row))
						}
					}
				}
				return said
			}
			fast := parse(func(to sink) { f.feed(c.data, c.line, to) })
			careful := parse(func(to sink) {
				feeder := csvFeeder{dialect: f.dialect, meanings: f.meanings, header: f.header, names: f.names, to: to}
				for data, line := c.data, c.line; len(data) > 0; {
					end, _ := f.dialect.recordEnd(data, true)
					if !isBlank(data[:end], f.dialect.delimiter) {
						feeder.careful(data[:end], line)
					}
					line += f.dialect.lines(data, end)
					data = data[end:]
				}
			})
			if fast != careful {
				t.Errorf("%s:\nfast    %.600s\ncareful %.600s", odd.name, fast, careful)
			}
			compared++
		}
	}
	if compared < 80 {
		t.Errorf("%d files compared", compared)
	}
}
