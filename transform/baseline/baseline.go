// Package baseline holds what strokes gained are measured against: the average
// strokes to hole out from a distance and a lie.
package baseline

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"roundmill/ingest"
)

// The embedded tables. Their first lines name the source and say that the
// values were written down from memory.
//
//go:embed strokes-to-hole-out-2012.csv putts-to-hole-out-2014.csv
var tables embed.FS

// A Table is one baseline: for each lie category a curve of strokes to hole
// out over distance.
type Table struct {
	Name   string // short, stands beside every figure
	Source string // where the values come from, in a sentence
	curves [ingest.CategoryCount]curve
	made   curve
}

// A curve is a table of values at rising distances, straight in between.
type curve struct {
	yards  []float64
	values []float64
}

// Professional is the embedded published table: men's professional tour,
// M. Broadie (2012), Interfaces 42(2), and (2014), Every Shot Counts; values
// from memory.
func Professional() *Table { return professional() }

var professional = sync.OnceValue(func() *Table {
	t := &Table{
		Name: "men's professional tour (Broadie 2012, 2014; from memory)",
		Source: "Men's professional tour: M. Broadie (2012), Assessing Golfer Performance on the PGA TOUR, Interfaces 42(2), " +
			"and M. Broadie (2014), Every Shot Counts, Gotham Books. The values were written down from memory of the printed tables.",
	}
	for _, name := range []string{"strokes-to-hole-out-2012.csv", "putts-to-hole-out-2014.csv"} {
		text, err := tables.ReadFile(name)
		if err == nil {
			err = t.read(name, bytes.NewReader(text))
		}
		if err != nil {
			panic(err)
		}
	}
	return t
})

// Read reads a baseline of the user's own. The file is a CSV of one or two
// tables of the shape of the embedded ones, one below the other: a header that
// starts with distance_yd or distance_ft, then a column of strokes for each lie
// category (tee, fairway, rough, sand, recovery, green; putts is green), cells
// blank where there is no value; # starts a comment. Distances must rise; the
// error names the line.
func Read(name string, r io.Reader) (*Table, error) {
	base := filepath.Base(name)
	t := &Table{Name: base, Source: "the user's own baseline file " + base}
	if err := t.read(name, r); err != nil {
		return nil, err
	}
	return t, nil
}

// Missing lists the lie categories for which the table has no values.
func (t *Table) Missing() (names []string) {
	for c := ingest.Tee; c <= ingest.Green; c++ {
		if len(t.curves[c].yards) == 0 {
			names = append(names, c.String())
		}
	}
	return names
}

// Strokes is the average number of strokes to hole out from a category and a
// distance in yards: straight between the rows of the table, the first and last
// segments carried on, never under 1, and 0 when holed. It is NaN where the
// table has no values or the distance is not known.
func (t *Table) Strokes(c ingest.Category, yards float64) float64 {
	if c == ingest.Holed {
		return 0
	}
	strokes := t.curves[c].at(yards)
	if strokes < 1 {
		return 1
	}
	return strokes
}

// MadeShare is the share of putts from a distance in yards that are holed, as
// far as the table says; NaN where it does not.
func (t *Table) MadeShare(yards float64) float64 {
	return min(1, max(0, t.made.at(yards)))
}

func (c *curve) at(yards float64) float64 {
	switch {
	case len(c.yards) == 0 || yards != yards:
		return math.NaN()
	case len(c.yards) == 1:
		return c.values[0]
	}
	upper, found := slices.BinarySearch(c.yards, yards)
	if found {
		return c.values[upper]
	}
	upper = min(max(upper, 1), len(c.yards)-1)
	x0, x1 := c.yards[upper-1], c.yards[upper]
	y0, y1 := c.values[upper-1], c.values[upper]
	return y0 + (yards-x0)/(x1-x0)*(y1-y0)
}

const madeShare = "made_share"

// read adds the tables of a file.
func (t *Table) read(name string, r io.Reader) error {
	reader := csv.NewReader(r)
	reader.Comment = '#'
	reader.FieldsPerRecord = -1
	reader.TrimLeadingSpace = true
	var columns []*curve
	var names []string
	perYard := 1.0
	for {
		fields, err := reader.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		line, _ := reader.FieldPos(0)
		fail := func(format string, args ...any) error {
			return fmt.Errorf("%s:%d: %s", name, line, fmt.Sprintf(format, args...))
		}
		first := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(fields[0], "\ufeff")))
		if strings.HasPrefix(first, "distance") {
			switch first {
			case "distance_yd":
				perYard = 1
			case "distance_ft":
				perYard = 3
			case "distance_m":
				perYard = 0.9144
			default:
				return fail("%q: expected distance_yd, distance_ft or distance_m", fields[0])
			}
			if names, columns, err = t.header(fields[1:]); err != nil {
				return fail("%v", err)
			}
			continue
		}
		if columns == nil {
			return fail("expected a header that starts with distance_yd or distance_ft, found %q", fields[0])
		}
		if len(fields) > len(columns)+1 {
			return fail("expected %d cells as in the header, found %d", len(columns)+1, len(fields))
		}
		distance, err := strconv.ParseFloat(first, 64)
		if err != nil || !(distance >= 0 && distance < 1e5) {
			return fail("%q: expected a distance", fields[0])
		}
		for i, text := range fields[1:] {
			if text = strings.TrimSpace(text); text == "" {
				continue
			}
			value, err := strconv.ParseFloat(text, 64)
			switch {
			case err != nil || math.IsNaN(value) || math.IsInf(value, 0):
				return fail("%s %q: expected a number", names[i], text)
			case names[i] == madeShare && (value < 0 || value > 1):
				return fail("%s %v: expected a share from 0 to 1", names[i], value)
			case names[i] != madeShare && (value < 1 || value > 20):
				return fail("%s %v: expected strokes to hole out, from 1 to 20", names[i], value)
			}
			if err := columns[i].add(distance/perYard, value, names[i] == madeShare); err != nil {
				return fail("%s: %v", names[i], err)
			}
		}
	}
	if columns == nil {
		return fmt.Errorf("%s: no table in it: expected a header that starts with distance_yd or distance_ft", name)
	}
	return nil
}

// header resolves the columns of a table behind the distance.
func (t *Table) header(fields []string) (names []string, columns []*curve, err error) {
	for _, field := range fields {
		name := strings.ToLower(strings.TrimSpace(field))
		target := &t.made
		if name != madeShare {
			category := ingest.CategoryNamed(name)
			if name == "putts" {
				category = ingest.Green
			}
			if category == ingest.NoCategory {
				return nil, nil, fmt.Errorf("%q is no lie category: expected tee, fairway, rough, sand, recovery, green, putts or %s", field, madeShare)
			}
			target = &t.curves[category]
		}
		if len(target.yards) > 0 || slices.Contains(columns, target) {
			return nil, nil, fmt.Errorf("%s stands in the file twice", name)
		}
		names, columns = append(names, name), append(columns, target)
	}
	if len(columns) == 0 {
		return nil, nil, fmt.Errorf("no column of strokes behind the distance")
	}
	return names, columns, nil
}

// add appends a row. Published averages waver by a few hundredths; a larger
// fall over a longer distance is a slip of the pen.
func (c *curve) add(yards, value float64, falls bool) error {
	const waver = 0.05
	if n := len(c.yards); n > 0 {
		last := c.values[n-1]
		switch {
		case yards <= c.yards[n-1]:
			return fmt.Errorf("distances must rise from row to row")
		case !falls && value < last-waver:
			return fmt.Errorf("strokes fall from %v to %v as the distance grows", last, value)
		}
	}
	c.yards, c.values = append(c.yards, yards), append(c.values, value)
	return nil
}
