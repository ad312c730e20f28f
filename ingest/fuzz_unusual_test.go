package ingest

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"roundmill/ingest/disk"
)

// FuzzMarkedNumber holds numbers with marks to what is left when the marks are
// taken out, and no text to two values.
func FuzzMarkedNumber(f *testing.F) {
	for _, text := range []string{"1.234,5", "1,234.5", "1 234,5", "12'345", "1,234", "1.234", "1.234.567", "-1,234,567.8", "0,5", "1,23,456", "\u00a0", ",", "1\u202f000"} {
		f.Add(text, true)
		f.Add(text, false)
	}
	f.Fuzz(func(t *testing.T, text string, decimalComma bool) {
		value, marks, ok := parseMarkedNumber([]byte(text), decimalComma)
		if !ok {
			return
		}
		if math.IsNaN(value) || math.IsInf(value, 0) || value == 0 && math.Signbit(value) {
			t.Errorf("%q is %v", text, value)
		}
		if plain, isPlain := parseNumber([]byte(text)); isPlain && !decimalComma && plain != value {
			t.Errorf("%q is %v, and %v in plain", text, value, plain)
		}
		for _, mark := range []string{",", ".", " ", "'", "\u00a0", "\u202f", "\u2019"} {
			if whole, isWhole := parseNumber([]byte(strings.ReplaceAll(text, mark, ""))); marks && isWhole && strings.Count(text, mark) > 0 && !strings.ContainsAny(strings.ReplaceAll(text, mark, ""), ".,eE") && math.Abs(whole) < 1e15 && math.Abs(value) > math.Abs(whole) {
				t.Errorf("%q is %v, more than its digits", text, value)
			}
		}
	})
}

func FuzzFeetAndInches(f *testing.F) {
	for _, text := range []string{"12'", "6'3\"", "6 ft 3 in", "18\"", "6'12\"", "6\u20323\u2033", "ft", "'", "6 feet", "1,5 ft"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		feet, ok := parseFeetAndInches([]byte(text), false)
		if ok && (math.IsNaN(feet) || feet < 0) {
			t.Errorf("%q is %v ft", text, feet)
		}
		if ok && !strings.ContainsAny(text, "0123456789") {
			t.Errorf("%q has no digit, and is %v ft", text, feet)
		}
	})
}

// FuzzBearing: a compass letter turns the sign and nothing else, and belongs to
// one of the two.
func FuzzBearing(f *testing.F) {
	for _, text := range []string{"56.3", "56.3 N", "S 56.3", "2.8\u00b0W", "-2.8 W", "E", "56.3 n", "N56.3S", "\xff", "", "0 S", "\xa05E5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		north, isLatitude := parseBearing([]byte(text), true)
		east, isLongitude := parseBearing([]byte(text), false)
		if isLatitude && isLongitude && north != east {
			t.Errorf("%q is %v north and %v east", text, north, east)
		}
		plain, isNumber := parseNumber([]byte(strings.TrimSpace(text)))
		if isNumber && (!isLatitude || plain != north) {
			t.Errorf("%q is %v, read as %v %v", text, plain, north, isLatitude)
		}
		// A point of the compass stands before or behind the number; in it, an E is an exponent.
		inner := strings.TrimFunc(strings.ToUpper(text), func(r rune) bool { return !unicode.IsDigit(r) && !strings.ContainsRune("NSEW", r) })
		if isLatitude && isLongitude && strings.Trim(inner, "NSEW") != inner {
			t.Errorf("%q is both", text)
		}
	})
}

func FuzzNamedDate(f *testing.F) {
	for _, text := range []string{"31 May 2026", "May 31st, 2026", "2026-Sept-01", "Sun 31 May 2026", "31 May 26", "May", "29 Feb 2026", "may may may"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		days, ok := parseNamedDate([]byte(text))
		if !ok {
			return
		}
		if again, ok := parseNamedDate([]byte(dateOf(days).Format("2 January 2006"))); !ok || again != days {
			t.Errorf("%q is %s, which is %v %v", text, dateOf(days), again, ok)
		}
		if _, also := parseDate([]byte(text), dayFirst); also {
			t.Errorf("%q is a date in numbers too", text)
		}
	})
}

// FuzzPacked holds any bytes that may be an archive, or a table, to what holds
// for every log.
func FuzzPacked(f *testing.F) {
	log := plainHeader + goodHole
	for _, text := range []string{gzipped(f, log), zstandard(f, log), zipped(f, "a/b.csv", log, "c.csv.gz", gzipped(f, log)), asParquet(f, readLog(f, "log", log, Options{}).records[0]), foreignParquet(f)} {
		f.Add([]byte(text))
	}
	scratch := f.TempDir()
	f.Fuzz(func(t *testing.T, packed []byte) {
		path := filepath.Join(t.TempDir(), "log")
		if err := os.WriteFile(path, packed, 0o644); err != nil {
			t.Fatal(err)
		}
		reader, err := Open([]string{path}, nil, Options{Workers: 1, Gather: true, Scratch: disk.Scratch{Folder: scratch}})
		if err != nil {
			t.Fatal(err)
		}
		o := readAll(t, reader)
		if o.tally.Refused > int64(len(o.rejects)) || o.tally.Kept != int64(len(o.column("hole"))) {
			t.Errorf("%+v with %d rejects", o.tally, len(o.rejects))
		}
	})
}
