package ingest

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"golang.org/x/text/encoding/charmap"
)

func utf16Bytes(text string, bigEndian bool) string {
	var out []byte
	for _, unit := range append([]uint16{0xFEFF}, utf16.Encode([]rune(text))...) {
		if bigEndian {
			out = append(out, byte(unit>>8), byte(unit))
		} else {
			out = append(out, byte(unit), byte(unit>>8))
		}
	}
	return string(out)
}

// One hole, written in every way that means the same.
func TestOneHoleInEveryShape(t *testing.T) {
	plain := "date,course,hole,par,shot,lie,to_hole,club\n" +
		"2026-05-31,Café,1,4,1,tee,402,driver\n2026-05-31,Café,1,4,2,rough,148.5,8i\n2026-05-31,Café,1,4,3,green,24,putter\n2026-05-31,Café,1,4,4,green,3,putter\n"
	semicolons := strings.ReplaceAll(strings.ReplaceAll(plain, ",", ";"), "148.5", "148,5")
	windows1252, err := charmap.Windows1252.NewEncoder().String(plain)
	if err != nil {
		t.Fatal(err)
	}
	object := func(shot int, lie, toHole, club string) string {
		return fmt.Sprintf(`{"date": "2026-05-31", "course": "Café", "hole": 1, "par": 4, "shot": %d, "lie": %q, "to_hole": %s, "club": %q}`, shot, lie, toHole, club)
	}
	objects := []string{object(1, "tee", "402", "driver"), object(2, "rough", "148.5", "8i"), object(3, "green", "24", "putter"), object(4, "green", `"3"`, "putter")}
	for name, text := range map[string]string{
		"plain":                  plain,
		"semicolons and commas":  semicolons,
		"tabs":                   strings.ReplaceAll(plain, ",", "\t"),
		"bars":                   strings.ReplaceAll(plain, ",", "|"),
		"CRLF":                   strings.ReplaceAll(plain, "\n", "\r\n"),
		"CR":                     strings.ReplaceAll(plain, "\n", "\r"),
		"no last line break":     strings.TrimSuffix(plain, "\n"),
		"BOM":                    "\ufeff" + plain,
		"UTF-16LE":               utf16Bytes(plain, false),
		"UTF-16BE":               utf16Bytes(plain, true),
		"Windows-1252":           windows1252,
		"quoted":                 `"` + strings.ReplaceAll(strings.ReplaceAll(strings.TrimSuffix(plain, "\n"), ",", `","`), "\n", "\"\n\"") + "\"\n",
		"spaces":                 strings.ReplaceAll(plain, ",", " , "),
		"blank lines":            "\n\n" + strings.ReplaceAll(plain, "\n", "\n\n,,,,\n"),
		"comments above":         "# my log\n# since May\n" + plain,
		"header in other words":  strings.Replace(plain, "date,course,hole,par,shot,lie,to_hole,club", "Date Played,COURSE,Hole no.,Par,Shot Number,Lie,Distance to Hole,Club used", 1),
		"lies in other words":    strings.NewReplacer(",tee,", ",Tee,", ",rough,", ",ROUGH,", ",green,", ",Greens,").Replace(plain),
		"clubs in other words":   strings.NewReplacer("driver", "D", "8i", "Iron 8", "putter", "Putter").Replace(plain),
		"other columns":          strings.NewReplacer("club\n", "club,mood\n", "putter\n", "putter,calm\n").Replace(plain),
		"array":                  "[" + strings.Join(objects, ",\n") + "]",
		"one a line":             strings.Join(objects, "\n"),
		"pretty":                 strings.Join(objects, "\n\n"),
		"rounds that hold shots": `{"rounds": [{"holes": [{"shots": [` + strings.Join(objects, ",") + `], "par": 4}]}]}`,
		"values after the array": `[{"shots": [{"lie":"tee","to_hole":402,"club":"driver"},{"lie":"rough","to_hole":148.5,"club":"8i"},{"lie":"green","to_hole":24,"club":"putter"},{"lie":"green","to_hole":3,"club":"putter"}], "hole":1, "par":4, "date":"2026-05-31", "course":"Café"}]`,
	} {
		t.Run(name, func(t *testing.T) {
			o := readLog(t, "log", text, Options{})
			if len(o.rejects) > 0 || o.tally.Kept != 4 || o.rounds != 1 {
				t.Fatalf("%+v: %v", o.tally, o.rejects)
			}
			for column, want := range map[string]string{
				"date": "2026-05-31 2026-05-31 2026-05-31 2026-05-31", "course": "Café Café Café Café", "hole": "1 1 1 1", "par": "4 4 4 4", "shot": "1 2 3 4",
				"to_hole_yd": "402 148.5 8 1", "club": "driver 8i putter putter", HoleState: "0 0 0 0",
			} {
				if got := strings.Join(o.column(column), " "); got != want {
					t.Errorf("%s: %s, expected %s", column, got, want)
				}
			}
			if lies := strings.Join(o.column("lie"), " "); lies != "tee rough green green" && name != "lies in other words" {
				t.Errorf("lies %s", lies)
			}
		})
	}
}
