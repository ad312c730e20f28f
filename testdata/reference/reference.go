// Package reference holds outside values that tests compare figures with, a file
// a source, which its first lines name.
package reference

import (
	"embed"
	"encoding/csv"
	"strconv"
	"testing"
)

//go:embed *.csv
var files embed.FS

// Text is a file of outside values: its header and its rows.
func Text(t testing.TB, name string) (header []string, rows [][]string) {
	t.Helper()
	file, err := files.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	records, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return records[0], records[1:]
}

// Numbers are the rows of a file that holds nothing else.
func Numbers(t testing.TB, name string) [][]float64 {
	t.Helper()
	_, records := Text(t, name)
	rows := make([][]float64, len(records))
	for i, record := range records {
		for _, cell := range record {
			number, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			rows[i] = append(rows[i], number)
		}
	}
	return rows
}
