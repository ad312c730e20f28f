package main

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// One season in the habits of different people gives the same figures, within
// the precision that each writes.
func TestOneSeasonInManyHabits(t *testing.T) {
	shots := habitSeason(t, 9)
	yards, metres, feet := inUnit("", 1), inUnit("_m", 0.9144), inUnit("_ft", 3)
	commas := habit{metres.names, func(s *habitShot) []string {
		cells := metres.cells(s)
		for i, cell := range cells {
			if strings.HasSuffix(metres.names[i], "_m") {
				cells[i] = strings.Replace(cell, ".", ",", 1)
			}
		}
		cells[0] = cells[0][8:] + "." + cells[0][5:7] + "." + cells[0][:4]
		return cells
	}}
	inCells := habit{yards.names, func(s *habitShot) []string {
		cells := feet.cells(s)
		for _, i := range []int{6, 10, 11} {
			if cells[i] != "" {
				cells[i] += " ft"
			}
		}
		return cells
	}}
	rounds := yards.byRound(shots)
	folder := t.TempDir()
	write := func(name, text string) string { return writeFile(t, folder, name, text) }
	for i, round := range rounds {
		write(fmt.Sprintf("rounds/%02d.json", i), round)
	}
	plain := write("plain.csv", yards.csv(shots, ','))
	plainOut := filepath.Join(folder, "out of plain")
	mustRun(t, "--no-charts", "-o", plainOut, plain)
	lines := strings.SplitAfter(yards.csv(shots, ';'), "\n")
	for name, path := range map[string]string{
		"semicolons and decimal commas":      write("commas.csv", commas.csv(shots, ';')),
		"metres":                             write("metres.csv", metres.csv(shots, '\t')),
		"UTF-16":                             write("utf-16.csv", utf16Text(yards.csv(shots, ','))),
		"positions only":                     write("positions.csv", byPosition().csv(shots, ',')),
		"nested JSON":                        write("nested.json", `{"rounds": [`+strings.Join(rounds, ",\n")+"]}"),
		"JSON lines":                         write("lines.jsonl", strings.Join(metres.objects(shots), "\n")),
		"a file a round":                     filepath.Join(folder, "rounds"),
		"feet for everything":                write("feet.csv", feet.csv(shots, '|')),
		"units in the cells":                 write("cells.csv", inCells.csv(shots, ',')),
		"a spreadsheet with titles, totals":  write("sheet.csv", "Season;;\n\nInvented;;;\n"+strings.Join(lines[:200], "")+";;;;;Total;99\n"+strings.Join(lines[200:], "")+"\r\nSum;;;;;;12\n"),
		"packed":                             write("packed.csv.gz", packed(t, yards.csv(shots, ','))),
		"positions as GeoJSON, hole in each": write("positions.geojson", geoJSON(byPosition(), shots)),
		"the program's own tables":           plainOut,
	} {
		t.Run(name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "out")
			mustRun(t, "--no-charts", "--strict", "-o", out, path)
			want, got := figuresOf(t, plainOut), figuresOf(t, out)
			if strings.HasPrefix(name, "positions") {
				// Strokes that cost the same stand in another order: the ninth decimal decides.
				for _, figures := range []map[string]any{want, got} {
					delete(figures["tables"].(map[string]any), "costly_shots")
				}
			}
			if differences := unlike("", want, got); len(differences) > 0 {
				t.Errorf("%d figures differ:\n%s", len(differences), strings.Join(differences[:min(len(differences), 12)], "\n"))
			}
		})
	}
}

// unlike lists where two summaries differ by more than the last digit written
// can explain.
func unlike(path string, a, b any) (differences []string) {
	switch a := a.(type) {
	case map[string]any:
		other, _ := b.(map[string]any)
		for key := range a {
			differences = append(differences, unlike(path+"."+key, a[key], other[key])...)
		}
		if len(other) != len(a) {
			differences = append(differences, fmt.Sprintf("%s: %d keys and %d", path, len(a), len(other)))
		}
	case []any:
		other, _ := b.([]any)
		if len(other) != len(a) {
			return []string{fmt.Sprintf("%s: %d and %d", path, len(a), len(other))}
		}
		for i := range a {
			differences = append(differences, unlike(fmt.Sprintf("%s[%d]", path, i), a[i], other[i])...)
		}
	case float64:
		const tolerance = 0.002
		other, ok := b.(float64)
		if !ok || math.Abs(a-other) > tolerance*max(1, math.Abs(a)) {
			differences = append(differences, fmt.Sprintf("%s: %v and %v", path, a, b))
		}
	default:
		if a != b {
			differences = append(differences, fmt.Sprintf("%s: %v and %v", path, a, b))
		}
	}
	return differences
}
