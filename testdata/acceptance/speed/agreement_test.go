//go:build linux

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const quantiles = "player,lie_group,band_from_yd,n,p10,p25,median,p75,p90,strokes_gained\n" +
	"P,rough,100,3,10,20,30,40,50,-0.25\n" +
	"P,sand,75,1,,,,,,-1\n"

// found is a folder with a side's quantiles.
func found(t *testing.T, quantiles string) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "quantiles.csv"), []byte(quantiles), 0o644); err != nil {
		t.Fatal(err)
	}
	return folder
}

func TestSidesThatFindTheSameAgree(t *testing.T) {
	nearly := strings.Replace(quantiles, "30,", "30.0000001,", 1)
	if err := theirsAgrees(found(t, quantiles), found(t, nearly)); err != nil {
		t.Error(err)
	}
}

func TestSidesThatDifferInACountAQuantileOrACellDoNotAgree(t *testing.T) {
	for name, other := range map[string]string{
		"a count":              strings.Replace(quantiles, "100,3,", "100,4,", 1),
		"a quantile":           strings.Replace(quantiles, "30,", "30.001,", 1),
		"strokes gained":       strings.Replace(quantiles, "-0.25", "-0.2501", 1),
		"strokes gained alone": strings.Replace(quantiles, "-1\n", "-2\n", 1),
		"no quantile":          strings.Replace(quantiles, "10,20,30,40,50", ",,,,", 1),
		"a cell twice":         quantiles + "P,sand,75,1,,,,,,-1\n",
		"every cell twice":     quantiles + quantiles[strings.Index(quantiles, "\n")+1:],
		"a cell more":          quantiles + "P,tee,75,1,,,,,,-1\n",
		"no cell":              quantiles[:strings.Index(quantiles, "\n")+1],
	} {
		if err := theirsAgrees(found(t, quantiles), found(t, other)); err == nil || !strings.Contains(err.Error(), "quantiles differ in ") {
			t.Errorf("%s: %v", name, err)
		}
	}
	empty := quantiles[:strings.Index(quantiles, "\n")+1]
	if err := theirsAgrees(found(t, empty), found(t, empty)); err == nil {
		t.Error("sides that found nothing agree")
	}
}

func TestACopyThatLacksARowOrChangesAValueDoesNotAgreeWithTheLog(t *testing.T) {
	folder := t.TempDir()
	lines, other := filepath.Join(folder, "log.jsonl"), filepath.Join(folder, "other.jsonl")
	if err := writeJSONLines(builtIn, lines); err != nil {
		t.Fatal(err)
	}
	text := read(t, lines)
	for name, test := range map[string]struct {
		text   string
		agrees bool
	}{
		"itself":      {text, true},
		"a row less":  {text[:strings.LastIndex(strings.TrimSpace(text), "\n")+1], false},
		"a row twice": {text + text[strings.LastIndex(strings.TrimSpace(text), "\n")+1:], false},
		"a value":     {strings.Replace(text, `"to_hole":377,`, `"to_hole":378,`, 1), false},
	} {
		if err := os.WriteFile(other, []byte(test.text), 0o644); err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(folder, name)
		if err := duckDBCopy(other, out); err != nil {
			t.Fatal(err)
		}
		if err := copyAgrees(builtIn, out); (err == nil) != test.agrees {
			t.Errorf("%s: %v", name, err)
		}
	}
}
