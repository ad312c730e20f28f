package baseline

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"roundmill/ingest"
)

// Read reads a baseline of the user's own. The file is a CSV of one or more
// tables of the shape of the embedded ones, one below the other: a header that
// starts with distance_yd, distance_ft or distance_m, then a column of strokes
// for each lie category (tee, fairway, rough, sand, recovery, green; putts is
// green) or of the share of putts made (made_share), cells blank where there is
// no value; # starts a comment. Distances must rise; the error names the line.
func Read(name string, r io.Reader) (*Table, error) {
	base := filepath.Base(name)
	t := &Table{Name: base, Source: "the user's own baseline file " + base}
	if err := t.read(name, r); err != nil {
		return nil, err
	}
	return t, nil
}

const (
	madeShare = "made_share"
	wanted    = "expected a header that starts with distance_yd, distance_ft or distance_m"
)

// Units of the distances, by the header that names them.
var perYard = map[string]float64{"distance_yd": 1, "distance_ft": 3, "distance_m": ingest.MetresPerYard}

// A file is the tables of a file as far as they are read.
type file struct {
	table   *Table
	perYard float64
	names   []string // of the columns behind the distance in force
	columns []*curve
}

// read adds the tables of a file.
func (t *Table) read(name string, r io.Reader) error {
	text := bufio.NewReader(r)
	if mark, _ := text.Peek(3); string(mark) == "\ufeff" {
		text.Discard(len(mark)) // the BOM: three bytes that are already there
	}
	lines := csv.NewReader(text)
	lines.Comment = '#'
	lines.FieldsPerRecord = -1
	lines.TrimLeadingSpace = true
	f := &file{table: t}
	for {
		cells, err := lines.Read()
		if err == io.EOF {
			break
		}
		if broken := (*csv.ParseError)(nil); errors.As(err, &broken) {
			return fmt.Errorf("%s:%d: %w", name, broken.Line, broken.Err)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if strings.HasPrefix(strings.ToLower(cells[0]), "distance") {
			err = f.header(cells)
		} else {
			err = f.row(cells)
		}
		if err != nil {
			line, _ := lines.FieldPos(0)
			return fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
	if f.columns == nil {
		return fmt.Errorf("%s: no table in it: %s", name, wanted)
	}
	if len(t.Missing()) == int(ingest.Green-ingest.Tee)+1 {
		return fmt.Errorf("%s: no strokes to hole out in it", name)
	}
	return nil
}

// header opens a table: it resolves the columns behind the distance.
func (f *file) header(cells []string) error {
	known := false
	if f.perYard, known = perYard[strings.ToLower(cells[0])]; !known {
		return fmt.Errorf("%q: expected distance_yd, distance_ft or distance_m", cells[0])
	}
	f.names, f.columns = nil, nil
	for _, cell := range cells[1:] {
		name := strings.ToLower(cell)
		target := &f.table.made
		if name != madeShare {
			category := ingest.CategoryNamed(name)
			if name == "putts" {
				category = ingest.Green
			}
			if category == ingest.NoCategory {
				return fmt.Errorf("%q is no lie category: expected tee, fairway, rough, sand, recovery, green, putts or %s", cell, madeShare)
			}
			target = &f.table.curves[category]
		}
		if len(target.yards) > 0 || slices.Contains(f.columns, target) {
			return fmt.Errorf("%s stands in the file twice", name)
		}
		f.names, f.columns = append(f.names, name), append(f.columns, target)
	}
	if len(f.columns) == 0 {
		return errors.New("no column of strokes behind the distance")
	}
	return nil
}

// row reads the values at one distance.
func (f *file) row(cells []string) error {
	if f.columns == nil {
		return fmt.Errorf("%s, found %q", wanted, cells[0])
	}
	if len(cells) > len(f.columns)+1 {
		return fmt.Errorf("expected %d cells as in the header, found %d", len(f.columns)+1, len(cells))
	}
	distance, err := strconv.ParseFloat(cells[0], 64)
	if err != nil || !(distance >= 0 && distance < 1e5) {
		return fmt.Errorf("%q: expected a distance", cells[0])
	}
	for i, cell := range cells[1:] {
		if cell == "" {
			continue
		}
		name := f.names[i]
		value, err := strconv.ParseFloat(cell, 64)
		switch {
		case err != nil || math.IsNaN(value) || math.IsInf(value, 0):
			return fmt.Errorf("%s %q: expected a number", name, cell)
		case name == madeShare && (value < 0 || value > 1):
			return fmt.Errorf("%s %s: expected a share from 0 to 1", name, cell)
		case name != madeShare && (value < 1 || value > 20):
			return fmt.Errorf("%s %s: expected strokes to hole out, from 1 to 20", name, cell)
		}
		if err := f.columns[i].add(distance/f.perYard, value, name == madeShare); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}
