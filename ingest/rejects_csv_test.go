package ingest

import (
	"bytes"
	"strings"
	"testing"

	"roundmill/ingest/disk"
)

func newRejectWriter(t *testing.T) *RejectWriter {
	t.Helper()
	w := NewRejectWriter(disk.Scratch{Folder: t.TempDir(), Memory: 1})
	t.Cleanup(func() { w.Close() })
	return w
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

// A list of rejects has the columns of all logs, however late they are met.
func TestEveryRejectHasTheColumnsOfAllLogs(t *testing.T) {
	w := newRejectWriter(t)
	column := func(name string) writtenColumn { return writtenColumn{name, meaning{field: noField}} }
	for _, record := range []writtenRecord{
		{},
		{[]writtenColumn{column("a"), column("b")}, []string{"1"}},
		{[]writtenColumn{column("b"), column("c")}, []string{"two\nlines", "=3"}},
		{[]writtenColumn{column("a"), column("b")}, []string{"4", "5"}},
	} {
		if err := w.Write(Reject{Scope: RecordScope, File: "f", Expected: "x", record: record}); err != nil {
			t.Fatal(err)
		}
	}
	const want = `scope,file,line,path,field,value,expected,hint,a,b,c
record,f,,,,,x,,,,
record,f,,,,,x,,1,,
record,f,,,,,x,,,"two
lines",'=3
record,f,,,,,x,,4,5,
`
	if got := finished(t, w); got != want {
		t.Errorf("%s\nexpected\n%s", got, want)
	}
}

// Lines of next to nothing come in chunks that take no more memory to refuse
// than others, and none is lost.
func TestAFileOfNothingButRejectsIsCutIntoSmallChunks(t *testing.T) {
	const lines = 3*mostLines + 5
	for name, text := range map[string]string{
		"plain": plainHeader + strings.Repeat("x\n", lines), "quoted": plainHeader + "\"x\"\n" + strings.Repeat("x\n", lines-1), "json": plainLine + "\n" + strings.Repeat("5\n", lines),
	} {
		f := &file{name: name, text: []byte(text), onDisk: int64(len(text)), dates: yearFirst}
		next, chunks := 2, 0
		if name == "json" {
			next = 1
		}
		if _, err := f.chunks(t.Context(), 0, defaultChunkBytes, nil, func(c chunk) error {
			if c.line != next || c.records > mostLines+2 {
				t.Errorf("%s: %d records from line %d, expected at most %d from %d", name, c.records, c.line, mostLines, next)
			}
			next += newlines(c.data) + newlines(c.lines)
			chunks++
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		if chunks != 4 {
			t.Errorf("%s: %d chunks, expected 4", name, chunks)
		}
		if o := readLog(t, name, text, Options{}); o.tally.Refused != lines || len(o.rejects) != lines {
			t.Errorf("%s: %+v, %d rejects", name, o.tally, len(o.rejects))
		}
	}
}
