package acceptance

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// spectrum is the folder of csv-spectrum (npm, pinned in package.json): edge
// cases of CSV and the JSON that each must give.
const spectrum = "node_modules/csv-spectrum"

// Text fields of the log that keep what is written.
var textFields = []string{"note", "course", "tees", "player", "round"}

// Every case, with what a shot needs put before each record, comes through the
// program as its JSON says.
func TestCSVSpectrum(t *testing.T) {
	cases, _ := filepath.Glob(filepath.Join(spectrum, "csvs", "*.csv"))
	if len(cases) < 10 {
		lacks(t, "edge cases of CSV", "csv-spectrum is not installed (npm ci --prefix testdata/acceptance)")
	}
	for _, path := range cases {
		name := strings.TrimSuffix(filepath.Base(path), ".csv")
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			records := recordsOf(string(text))
			columns := strings.Split(strings.TrimSpace(records[0]), ",")
			folder := t.TempDir()
			log, mapping := "date,hole,par,shot,lie,to_hole,"+records[0], ""
			for i, column := range columns {
				mapping += column + " = " + textFields[i] + "\n"
			}
			for i, record := range records[1:] {
				log += "2026-05-31," + strconv.Itoa(i+1) + ",3,1,tee,40," + record
			}
			if err := os.WriteFile(filepath.Join(folder, "log.csv"), []byte(log), 0o644); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(folder, "columns.txt"), []byte(mapping), 0o644); err != nil {
				t.Fatal(err)
			}
			command(t, folder, program, "--quiet", "--strict", "--no-charts", "--columns", "columns.txt", "--out", "out", "log.csv")
			db := openDatabase(t)
			rows, err := db.conn.QueryContext(context.Background(), "SELECT "+coalesced(textFields[:len(columns)])+
				" FROM read_parquet('"+filepath.Join(folder, "out", "tables", "shots", "*", "*.parquet")+"') ORDER BY hole")
			if err != nil {
				t.Fatal(err)
			}
			defer rows.Close()
			var got []map[string]string
			for rows.Next() {
				cells, into := make([]string, len(columns)), make([]any, len(columns))
				for i := range cells {
					into[i] = &cells[i]
				}
				if err := rows.Scan(into...); err != nil {
					t.Fatal(err)
				}
				object := map[string]string{}
				for i, column := range columns {
					object[column] = cells[i]
				}
				got = append(got, object)
			}
			if err := rows.Err(); err != nil {
				t.Fatal(err)
			}
			for i, want := range expectedOf(t, name) {
				if i >= len(got) {
					t.Fatalf("%d records, expected more", len(got))
				}
				for key, value := range want {
					if got[i][key] != value {
						t.Errorf("record %d, %s is %q, expected %q", i+1, key, got[i][key], value)
					}
				}
			}
			if len(got) != len(records)-1 {
				t.Errorf("%d records, expected %d", len(got), len(records)-1)
			}
		})
	}
}

func coalesced(fields []string) string {
	var list []string
	for _, field := range fields {
		list = append(list, "coalesce("+field+", '')")
	}
	return strings.Join(list, ", ")
}

// recordsOf cuts a CSV between records: at line breaks outside quotes.
func recordsOf(text string) (records []string) {
	from, quoted := 0, false
	for i, c := range text {
		if c == '"' {
			quoted = !quoted
		}
		if c == '\n' && !quoted {
			records = append(records, text[from:i+1])
			from = i + 1
		}
	}
	return slices.DeleteFunc(append(records, text[from:]), func(record string) bool { return strings.TrimSpace(record) == "" })
}

// expectedOf is the JSON of a case. That of the coordinates is of another
// telephone number, and its degree signs are lost in both files: only the
// others can be held to it.
func expectedOf(t *testing.T, name string) (objects []map[string]string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(spectrum, "json", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	if name == "location_coordinates" {
		text = []byte("[" + strings.TrimSpace(string(text)) + "]")
	}
	if err := json.Unmarshal(text, &objects); err != nil {
		t.Fatal(err)
	}
	if name == "location_coordinates" {
		delete(objects[0], "Contact Phone Number")
		delete(objects[0], "Location Coordinates")
	}
	return objects
}
