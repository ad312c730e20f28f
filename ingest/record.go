package ingest

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
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

	strays []int  // refused records that may not say where they belong
	seen   manner // how the records were read

	row       int
	line      int
	path      string
	commas    bool // a cell may hold a comma
	scores    bool // there is a column for scores
	unguard   bool // a quote before what looks like a formula is not part of the text
	bad       bool
	malformed bool    // it cannot be told which text belongs to which field
	onCard    *Reject // what is wrong with it if it is a scorecard's, and not if it is a stroke

	distances [distanceCount]writtenDistance // of this record, until they are settled
	onLie     wordCategories
	onFinish  wordCategories

	canonical [textCount]func(string) (string, bool)
	short     [textCount][shortWords]shortWord
	lastText  [textCount][]byte // of those that are not short
	lastCode  [textCount]int32
	lastDate  []byte
	lastDays  float64
	hints     [textCount]map[string]string // for words that were refused
	columnsOf *string                      // the first of the names that columns are of
	columns   []writtenColumn
}

func newRecordParser(f *file, at int, lies Lies, puttUnit Unit) *recordParser {
	p := &recordParser{file: f, fileAt: at, lies: lies, puttUnit: puttUnit, rows: &rows{}}
	p.scores = header{meanings: f.meanings}.has(holeScore)
	p.onLie.of = lies.Category
	p.onFinish.of = lies.FinishCategory
	for f := range firstNumber {
		p.canonical[f] = canonical(f, lies)
	}
	return p
}

func (p *recordParser) begin(line int, path string) {
	p.forgetBlank()
	p.row, p.line, p.path, p.bad, p.malformed, p.onCard = p.rows.n, line, path, false, false, nil
	p.distances = [distanceCount]writtenDistance{}
	p.rows.next(p.fileAt, line)
	p.tally.Records++
}

// forgetBlank lets go of the record before if, like the one before that, it was
// refused and says neither its day nor its hole: it can belong to no hole that
// the other is not in doubt for, and a file may consist of such lines.
func (p *recordParser) forgetBlank() {
	r := p.rows
	blank := func(row int) bool {
		return r.refused[row] && isMissing(r.number(date, row)) && isMissing(r.number(hole, row))
	}
	if last, n := r.n-1, len(p.strays); p.path == "" && last > 0 && n > 1 && p.strays[n-1] == last && p.strays[n-2] == last-1 && blank(last) && blank(last-1) {
		r.drop()
		p.strays = p.strays[:n-1]
	}
}

// repeat takes the values of some fields from the record before.
func (p *recordParser) repeat(meanings []meaning) {
	r, row := p.rows, p.row
	for i := range meanings {
		switch f := meanings[i].field; {
		case f == noField:
		case f.isText():
			if codes := r.texts[f].codes; codes != nil {
				codes[row] = codes[row-1]
			}
		default:
			if numbers := r.numbers[f.number()]; numbers != nil {
				numbers[row] = numbers[row-1]
			}
		}
	}
}

// set reads the text of one field. A blank text is an absent value. The text
// must stay unchanged until the last record was read.
func (p *recordParser) set(m *meaning, text []byte) {
	text = trimmed(text)
	if len(text) == 0 {
		return
	}
	if text[0] == '\'' && p.unguard && startsFormula(string(text[1:])) {
		p.seen.meet(quoteTakenOff, text, p.line)
		text = text[1:]
	}
	f := m.field
	switch definition := &definitions[f]; definition.kind {
	case freeText, closedSet, lieWord, clubName:
		p.setText(f, text)
	case calendarDate:
		p.setDate(m, text)
	case yesNo:
		word, known := yesNoWords[string(text)] // as it mostly stands there
		if !known {
			word, known = yesNoWords[plainForm(string(text))]
		}
		if !known {
			p.refuse(f, text, "expected yes or no", "")
			return
		}
		value := 0.0
		if word == "yes" {
			value = 1
		}
		p.rows.setNumber(f, p.row, value)
	default:
		unit := m.unit
		value, ok := parseNumber(text)
		if !ok || p.file.decimalComma && bytes.IndexByte(text, '.') >= 0 {
			value, unit, ok = p.unusualNumber(m, text)
		} else if p.commas && bytes.IndexByte(text, ',') >= 0 {
			p.seen.meet(decimalComma, text, p.line)
		}
		switch {
		case !ok:
			p.refuse(f, text, "expected a number", numberHint(m, text, p.file.decimalComma))
			return
		case definition.kind == wholeNumber && value != math.Trunc(value):
			p.refuse(f, text, "expected a whole number", "")
			return
		}
		if unit != NoUnit {
			value /= units[unit].perBase
		}
		if f.hangsOnLie() {
			last := text[len(text)-1]
			p.distances[f-toHole] = writtenDistance{text, unit, unit != NoUnit && (last < '0' || last > '9')}
		} else if value < definition.min || value > definition.max {
			hint := ""
			if (f == latitude || f == holeLatitude) && math.Abs(value) <= definitions[longitude].max {
				hint = "latitude and longitude may have changed places"
			}
			p.refuse(f, text, "expected "+definition.limits(), hint)
			return
		}
		p.rows.setNumber(f, p.row, value)
	}
}

// trimmed is bytes.TrimSpace, without the call for the usual cell.
func trimmed(text []byte) []byte {
	if n := len(text); n > 0 && text[0] > ' ' && text[0] < 0x80 && text[n-1] > ' ' && text[n-1] < 0x80 {
		return text
	}
	return bytes.TrimSpace(text)
}

func (p *recordParser) setDate(m *meaning, text []byte) {
	if !bytes.Equal(text, p.lastDate) {
		order := m.order
		if order == unsettled {
			order = p.file.dates
		}
		days, ok := parseDate(text, order)
		if !ok {
			if days, ok = parseNamedDate(text); !ok {
				p.refuse(date, text, "expected a date such as 2026-05-31", dateHint(text, order))
				return
			}
			p.seen.meet(monthByName, text, p.line)
		}
		p.lastDate, p.lastDays = text, days
	}
	p.rows.setNumber(date, p.row, p.lastDays)
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
func (p *recordParser) refuse(f field, text []byte, expected, hint string) {
	if p.bad && !f.ofScorecard() || p.onCard != nil && f.ofScorecard() {
		return
	}
	reject := Reject{
		Scope: RecordScope, File: p.file.name, Line: p.line, Path: p.path,
		Field: f.String(), Value: shown(validText(text)), Expected: expected, Hint: hint,
	}
	if f.ofScorecard() {
		card := reject
		p.onCard = &card
	} else {
		p.reject(reject)
	}
}

func (p *recordParser) reject(reject Reject) {
	if !p.bad {
		p.bad = true
		p.rejects = append(p.rejects, reject)
	}
}

// fault refuses a record whose fields cannot be told apart.
func (p *recordParser) fault(expected, hint string) {
	p.malformed = true
	p.refuse(noField, nil, expected, hint)
}

// end closes the record: what one field means can hang on another. It reports
// whether the record is in order.
func (p *recordParser) end() bool {
	r, row := p.rows, p.row
	for _, f := range [...]field{date, hole, par} {
		if isMissing(r.number(f, row)) {
			p.refuse(f, nil, "expected a value, the cell is empty", "every record needs it; where cells were merged, write it on every line")
		}
	}
	p.settleDistances()
	switch {
	case p.isScorecard():
		p.settleScorecard()
	case isMissing(r.number(toHole, row)) && !p.hasPosition():
		p.refuse(toHole, nil, "expected a distance, the cell is empty", "every stroke needs the distance to the hole before it")
	}
	if p.bad {
		p.tally.Refused++
		r.refused[row] = true
		if p.malformed || r.unplaced(row) {
			p.strays = append(p.strays, row)
		}
	}
	return !p.bad
}

func (p *recordParser) incomplete() { p.rows.broken[p.row] = true }

// withdraw takes back the record that has just been refused.
func (p *recordParser) withdraw(why noShot) {
	p.rows.drop()
	p.rejects = p.rejects[:len(p.rejects)-1]
	if n := len(p.strays); n > 0 && p.strays[n-1] == p.row {
		p.strays = p.strays[:n-1]
	}
	p.tally.Refused--
	p.tally.Skipped++
	p.seen.skip(why, p.line)
}

func (p *recordParser) hasPosition() bool {
	r, row := p.rows, p.row
	return !isMissing(r.number(latitude, row)+r.number(longitude, row)) || !isMissing(r.number(x, row)+r.number(y, row))
}
