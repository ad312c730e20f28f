package ingest

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A recordParser turns the texts of one record after another into rows. For
// each record: begin, set for every field that has a text, end.
type recordParser struct {
	file     *file
	fileAt   int // its place among the reader's files
	lies     Lies
	puttUnit Unit // NoUnit unless the user settled it
	rows     *rows
	rejects  []Reject
	tally    Tally

	row         int
	line        int
	path        string
	bad         bool
	texts       [fieldCount][]byte // as written, of this record
	units       [fieldCount]Unit   // named by the header or key that held the text
	leaveDoubt  bool               // the next record may belong to a hole that lost one
	lastText    [textCount][]byte
	lastCode    [textCount]int32
	lastDate    []byte
	lastDays    float64
	canonicalOf [textCount]func(string) (string, bool)
}

func newRecordParser(f *file, at int, lies Lies, puttUnit Unit) *recordParser {
	p := &recordParser{file: f, fileAt: at, lies: lies, puttUnit: puttUnit, rows: &rows{}}
	for f := range firstNumber {
		p.canonicalOf[f] = canonical(f, lies)
	}
	return p
}

// canonical says how the spelling of a text field is brought to the stored word.
func canonical(f field, lies Lies) func(string) (string, bool) {
	definition := &definitions[f]
	switch {
	case f == finishLie:
		return func(text string) (string, bool) {
			if _, known := finishWords[plainForm(text)]; known {
				return plainForm(text), true
			}
			return lies.word(text)
		}
	case f == lie:
		return lies.word
	case definition.kind == clubName:
		return func(text string) (string, bool) { return clubSpelling(text), true }
	case definition.kind == closedSet:
		return func(text string) (string, bool) {
			word, known := definition.words[plainForm(text)]
			return word, known
		}
	}
	return func(text string) (string, bool) { return text, true }
}

func (p *recordParser) begin(line int, path string) {
	p.row, p.line, p.path, p.bad = p.rows.n, line, path, false
	p.texts = [fieldCount][]byte{}
	p.rows.next(p.fileAt, line)
	p.tally.Records++
}

// set reads the text of one field. A blank text is an absent value. The text
// must stay unchanged until the batch is built.
func (p *recordParser) set(m *meaning, text []byte) {
	text = bytes.TrimSpace(text)
	if len(text) == 0 {
		return
	}
	f := m.field
	p.texts[f], p.units[f] = text, m.unit
	if f.isText() {
		p.setText(f, text)
		return
	}
	if f == date {
		if !bytes.Equal(text, p.lastDate) {
			order := m.order
			if order == unsettled {
				order = p.file.dates
			}
			days, ok := parseDate(text, order)
			if !ok {
				p.refuse(date, "expected a date such as 2026-05-31", "write the year with four digits, year first")
				return
			}
			p.lastDate, p.lastDays = text, days
		}
		p.rows.setNumber(date, p.row, p.lastDays)
		return
	}
	definition := &definitions[f]
	value, ok := parseNumber(text)
	switch {
	case definition.kind == yesNo:
		word, known := yesNoWords[plainForm(string(text))]
		if !known {
			p.refuse(f, "expected yes or no", "")
			return
		}
		value = 0
		if word == "yes" {
			value = 1
		}
	case !ok:
		p.refuse(f, "expected a number", "digits with a decimal point, nothing else in the cell")
		return
	case definition.kind == wholeNumber && value != math.Trunc(value):
		p.refuse(f, "expected a whole number", "")
		return
	}
	if m.unit != NoUnit {
		value /= units[m.unit].perBase
	}
	if f != toHole && f != left && f != puttLength && (value < definition.min || value > definition.max) {
		p.refuse(f, "expected "+definition.limits(), "")
		return
	}
	p.rows.setNumber(f, p.row, value)
}

func (p *recordParser) setText(f field, text []byte) {
	code := p.lastCode[f]
	if p.lastText[f] == nil || !bytes.Equal(text, p.lastText[f]) {
		code = p.rows.texts[f].code(text, p.canonicalOf[f])
		p.lastText[f], p.lastCode[f] = text, code
	}
	if code == badWord {
		known := definitions[f].words.meanings()
		spellings := known
		hint := ""
		if definitions[f].kind == lieWord {
			known = []string{"tee", "fairway", "rough", "bunker", "recovery", "green"}
			spellings = p.lies.words()
			hint = "a word of your own can be added with --lies (`word = category`)"
		}
		if guess := didYouMean(plainForm(string(text)), spellings); guess != "" {
			hint = guess
		}
		p.refuse(f, "expected a known word, such as "+strings.Join(known, ", "), hint)
		return
	}
	p.rows.setText(f, p.row, code)
}

// limits says the range of a field in words.
func (d *definition) limits() string {
	unit := ""
	switch d.kind {
	case distance:
		unit = " yd"
	case speed:
		unit = " mph"
	}
	return fmt.Sprintf("%s to %s%s", decimal(d.min), decimal(d.max), unit)
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// refuse rejects the record, once, for the first thing that is wrong with it.
func (p *recordParser) refuse(f field, expected, hint string) {
	if p.bad {
		return
	}
	p.bad = true
	reject := Reject{
		Scope: RecordScope, File: p.file.name, Line: p.line, Path: p.path,
		Field: f.String(), Expected: expected, Hint: hint,
	}
	if f < fieldCount {
		reject.Value = shown(validText(p.texts[f]))
	}
	p.rejects = append(p.rejects, reject)
}

// end closes the record: what one field means can hang on another.
func (p *recordParser) end() {
	r, row := p.rows, p.row
	if p.leaveDoubt {
		r.doubt[row], p.leaveDoubt = true, false
	}
	for _, f := range []field{date, hole, par} {
		if isMissing(r.number(f, row)) {
			p.refuse(f, "expected a value, the cell is empty", "")
		}
	}
	p.settleDistances()
	if isMissing(r.number(toHole, row)) && !p.hasPosition() {
		p.refuse(toHole, "expected a distance, the cell is empty", "every stroke needs the distance to the hole before it")
	}
	if p.bad {
		p.tally.Refused++
		r.refused[row] = true
		p.place()
	}
}

// place puts a refused record that does not say its round and hole beside the
// one before it, and leaves a doubt about the one after.
func (p *recordParser) place() {
	r, row := p.rows, p.row
	if !isMissing(r.number(date, row)) && !isMissing(r.number(hole, row)) {
		return
	}
	p.leaveDoubt = true
	if row > 0 {
		r.inheritKey(row, row-1)
	}
}

func (p *recordParser) hasPosition() bool {
	r, row := p.rows, p.row
	return !isMissing(r.number(latitude, row)+r.number(longitude, row)) || !isMissing(r.number(x, row)+r.number(y, row))
}

// settleDistances brings to_hole, left and putt_length to yards. Where no
// header names a unit, off the green they are yards and on it feet.
func (p *recordParser) settleDistances() {
	r, row := p.rows, p.row
	onGreen := p.lies[r.text(lie, row)] == Green
	if length := r.number(puttLength, row); onGreen && !isMissing(length) {
		if length = p.puttYards(puttLength, length); p.inRange(puttLength, length, true) {
			r.setNumber(toHole, row, length)
		}
	} else if value := r.number(toHole, row); !isMissing(value) {
		if onGreen {
			value = p.puttYards(toHole, value)
		}
		if p.inRange(toHole, value, onGreen) {
			r.setNumber(toHole, row, value)
		}
	}
	value := r.number(left, row)
	if isMissing(value) {
		return
	}
	finish := r.text(finishLie, row)
	ends := p.lies.FinishCategory(finish)
	if finish == "" && onGreen {
		ends = Green
	}
	r.leftOpen[row] = finish == "" && !onGreen && p.units[left] == NoUnit
	if ends == Green {
		value = p.puttYards(left, value)
	}
	if p.inRange(left, value, ends == Green) {
		r.setNumber(left, row, value)
	}
}

// inRange refuses a distance that cannot be. On the green the limit is that of
// a putt.
func (p *recordParser) inRange(f field, yards float64, onGreen bool) bool {
	limit := &definitions[f]
	switch {
	case yards < 0:
		p.refuse(f, "expected a distance, not a negative number", "")
	case onGreen && yards > definitions[puttLength].max:
		p.refuse(f, "expected a putt of at most 200 ft", "putts are read in feet unless the header or --putt-unit says otherwise")
	case yards > limit.max:
		p.refuse(f, "expected "+limit.limits(), "")
	default:
		return true
	}
	return false
}

// puttYards turns a distance on the green as read so far into yards: by
// --putt-unit first, then by the unit in its header, else as feet.
func (p *recordParser) puttYards(f field, value float64) float64 {
	switch unit := p.units[f]; {
	case p.puttUnit != NoUnit && unit != NoUnit:
		return value * units[unit].perBase / units[p.puttUnit].perBase
	case p.puttUnit != NoUnit:
		return value / units[p.puttUnit].perBase
	case unit == NoUnit:
		return value / feetPerYard
	}
	return value
}

// fault refuses a record whose fields cannot be told apart.
func (p *recordParser) fault(expected, hint string) { p.refuse(noField, expected, hint) }
