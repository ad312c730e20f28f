package ingest

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

func newRejectWriter(t *testing.T) *RejectWriter {
	t.Helper()
	body, err := os.CreateTemp(t.TempDir(), "rejects-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { body.Close() })
	return NewRejectWriter(body)
}

func finished(t *testing.T, w *RejectWriter) string {
	t.Helper()
	var out bytes.Buffer
	if err := w.Finish(&out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// OWASP, "CSV injection": no cell may start like a formula.
func TestNoCellOfTheRejectsStartsAFormula(t *testing.T) {
	w := newRejectWriter(t)
	for _, start := range []string{"=", "+", "-", "@", "\t", "\r", "\x00"} {
		if err := w.Write(Reject{Scope: RecordScope, File: start + "f", Line: 3, Path: "$[1]", Field: "lie", Value: start + "1", Expected: "x", Hint: start}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Write(Reject{Scope: FileScope, File: "a,b", Expected: "say \"x\""}); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(finished(t, w), "\n")
	if lines[0] != "scope,file,line,path,field,value,expected,hint" || lines[1] != "record,'=f,3,$[1],lie,'=1,x,'=" || lines[8] != `file,"a,b",,,,,"say ""x""",` {
		t.Errorf("%q", lines)
	}
	for _, line := range lines[1:8] {
		for cell := range strings.SplitSeq(line, ",") {
			if cell = strings.Trim(cell, `"`); cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r\x00") {
				t.Errorf("%q starts a formula", cell)
			}
		}
	}
}

func TestALongValueIsCutInTheMessage(t *testing.T) {
	o := readLog(t, "log.csv", plainHeader+"2026-05-31,1,3,1,"+strings.Repeat("é", 100)+",150,,,,,,\n", Options{})
	if len(o.rejects) != 1 || !strings.HasPrefix(o.rejects[0], `log.csv:2: lie "`+strings.Repeat("é", 59)+`…": expected`) {
		t.Errorf("%q", o.rejects)
	}
}
