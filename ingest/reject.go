package ingest

import (
	"fmt"
	"strconv"
	"strings"
)

// A Scope says how much a Reject takes out of the count.
type Scope string

const (
	RecordScope Scope = "record" // one record is left out, its hole is incomplete
	HoleScope   Scope = "hole"   // the records stay, their hole is incomplete
	FileScope   Scope = "file"   // the file, or the rest of it, is not read
)

// A Reject is one thing wrong with the input: where it stands, what was found,
// what was expected and what to do about it.
type Reject struct {
	Scope    Scope
	File     string
	Line     int    // first line of the record, from 1; of a file as a whole, where reading it ended, or 1
	Path     string // place within a JSON document, such as $[3].holes[0]
	Field    string // canonical field name, "" when it is no single field
	Value    string // as written, cut to 60 characters
	Expected string
	Hint     string
	hole     string        // that a Reject of scope hole takes out of the count
	record   writtenRecord // what stood in the record
}

// String is one line of plain words.
func (r Reject) String() string {
	var b strings.Builder
	b.WriteString(place(r.File, r.Line, r.Path))
	b.WriteString(": ")
	found := r.Field
	if r.Value != "" {
		found = strings.TrimSpace(found + " " + strconv.Quote(r.Value))
	}
	if found != "" {
		b.WriteString(found + ": ")
	}
	b.WriteString(r.Expected)
	if r.Hint != "" {
		b.WriteString("; ")
		b.WriteString(r.Hint)
	}
	if r.Scope == HoleScope {
		fmt.Fprintf(&b, " (%s is left out of scores)", r.hole)
	}
	return b.String()
}

// A Note is something that was read but deserves a look, or the way in which
// something was read. It takes nothing out of the count.
type Note struct {
	File string
	Line int // 0 when it speaks of the whole file
	Text string
}

// String is one line of plain words.
func (n Note) String() string { return place(n.File, n.Line, "") + ": " + n.Text }

func place(file string, line int, path string) string {
	if line > 0 {
		file += ":" + strconv.Itoa(line)
	}
	if path != "" {
		file += " (" + path + ")"
	}
	return file
}

// shown cuts a value to a length that fits a message.
func shown(value string) string {
	const most = 60
	runes := []rune(value)
	if len(runes) > most {
		return string(runes[:most-1]) + "…"
	}
	return value
}

// A Tally counts what became of the records. It balances:
// Records = Kept + Refused + Repeated + Narrowed + Skipped.
type Tally struct {
	Records  int64 `json:"records"`  // read
	Kept     int64 `json:"kept"`     // in the tables
	Refused  int64 `json:"refused"`  // rejected one by one
	Repeated int64 `json:"repeated"` // same record of the same round again, kept once
	Narrowed int64 `json:"narrowed"` // left out by --player, --course, --from or --to
	Skipped  int64 `json:"skipped"`  // lines of a table that are no shots: totals, comments, the header again

	LeftOut    int64 `json:"holes_left_out"`  // holes that a refused record may have been of: they count in no score
	Scorecards int64 `json:"scorecard_holes"` // of those kept, holes known by their score alone; the others are in the shots table
}

// Add adds another tally to this one.
func (t *Tally) Add(other Tally) {
	t.Records += other.Records
	t.Kept += other.Kept
	t.Refused += other.Refused
	t.Repeated += other.Repeated
	t.Narrowed += other.Narrowed
	t.Skipped += other.Skipped
	t.LeftOut += other.LeftOut
	t.Scorecards += other.Scorecards
}

// Balances reports whether every record read is accounted for.
func (t Tally) Balances() bool {
	return t.Records == t.Kept+t.Refused+t.Repeated+t.Narrowed+t.Skipped
}
