package ingest

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// unusualNumber reads what people and spreadsheets write beside plain numbers:
// thousands marks, a unit in the cell, feet and inches, compass letters. The
// unit is that of the cell, else that of the column.
func (p *recordParser) unusualNumber(m *meaning, text []byte) (value float64, unit Unit, ok bool) {
	value, marks, ok := parseMarkedNumber(text, p.file.decimalComma)
	if ok {
		if marks {
			p.seen.meet(thousandsMark, text, p.line)
		}
		if bytes.IndexByte(text, ',') >= 0 && p.file.decimalComma {
			p.seen.meet(decimalComma, text, p.line)
		}
		return value, m.unit, true
	}
	definition := &definitions[m.field]
	switch definition.kind {
	case plainNumber:
		if m.field >= latitude && m.field <= holeLongitude {
			if value, ok = parseBearing(text, m.field == latitude || m.field == holeLatitude); ok {
				p.seen.meet(compassLetter, text, p.line)
			}
			return value, m.unit, ok
		}
	case distance, speed:
		if definition.kind == distance && (m.unit == NoUnit || m.unit == Feet) {
			if value, ok = parseFeetAndInches(text, p.file.decimalComma); ok {
				p.seen.meet(feetAndInches, text, p.line)
				return value, Feet, true
			}
		}
		number, name := cutUnit(text)
		unit = unitNamed(name)
		if unit == NoUnit || units[unit].kind != definition.kind || m.unit != NoUnit && m.unit != unit {
			return 0, NoUnit, false
		}
		if value, _, ok = parseMarkedNumber(number, p.file.decimalComma); ok {
			p.seen.meet(unitInCell, text, p.line)
		}
		return value, unit, ok
	}
	return 0, NoUnit, false
}

// numberHint says what to do about a text that is no number.
func numberHint(m *meaning, text []byte, decimalComma bool) string {
	f := m.field
	if groups := digitGroups(text, ','); groups == 2 {
		return "is the comma a thousands mark or a decimal one? Write 1234 or 1.234"
	}
	if groups := digitGroups(text, '.'); groups == 2 {
		return "is the point a thousands mark or a decimal one? Write 1234 or 1,2340"
	}
	example := "137.5"
	if decimalComma {
		example = "137,5"
	}
	switch {
	case f == penalty:
		return "0, 1 or 2 penalty strokes: out of bounds is 1, and the next stroke is played from the same place"
	case definitions[f].kind == distance && m.unit != NoUnit && bytes.ContainsAny(text, "0123456789"):
		return "such as " + example + "; the header says that the column is in " + m.unit.String() + ", and a cell can be in no other unit"
	case definitions[f].kind == wholeNumber:
		return "a whole number in figures, nothing else in the cell"
	case definitions[f].kind == distance:
		return "such as " + example + ", with yd, m or ft behind it if you like"
	}
	return "such as " + example + ", nothing else in the cell"
}

// hasDecimalComma tells a number with a comma that can be no thousands mark.
func hasDecimalComma(text []byte) bool {
	if bytes.Count(text, []byte{','}) != 1 || digitGroups(text, ',') == 2 || bytes.LastIndexByte(text, '.') > bytes.IndexByte(text, ',') {
		return false
	}
	_, _, ok := parseMarkedNumber(text, true)
	return ok
}

// parseMarkedNumber reads a decimal number in which marks may part thousands.
// With both a point and a comma the last is the decimal mark. A single comma
// with three digits behind it is one where the file writes decimal commas, and
// a single point with three digits is then refused, because it may be either.
func parseMarkedNumber(text []byte, decimalComma bool) (value float64, marks, ok bool) {
	point, comma := bytes.LastIndexByte(text, '.'), bytes.LastIndexByte(text, ',')
	decimal, thousands := byte('.'), byte(',')
	switch {
	case comma > point && point >= 0, point < 0 && bytes.Count(text, []byte{','}) == 1 && (decimalComma || digitGroups(text, ',') != 2):
		decimal, thousands = ',', '.'
	case comma < 0 && bytes.Count(text, []byte{'.'}) > 1:
		decimal, thousands = ',', '.'
	}
	whole, fraction, _ := bytes.Cut(text, []byte{decimal})
	for _, mark := range []string{string(rune(thousands)), "\u202f", "\u00a0", " ", "'", "\u2019"} {
		if bytes.Contains(whole, []byte(mark)) {
			groups := digitGroupsOf(whole, mark)
			if groups < 2 || groups == 2 && fraction == nil && (mark == "," || mark == ".") {
				return 0, false, false
			}
			whole, marks = bytes.ReplaceAll(whole, []byte(mark), nil), true
			break
		}
	}
	if decimalComma && decimal == '.' && !marks && digitGroups(text, '.') == 2 {
		return 0, false, false
	}
	plain := whole
	if len(fraction) > 0 || decimal == '.' && bytes.IndexByte(text, '.') >= 0 {
		plain = append(append(bytes.Clone(whole), '.'), fraction...)
	} else if bytes.IndexByte(text, decimal) >= 0 {
		return 0, false, false // a comma with nothing behind it
	}
	value, ok = parseNumber(plain)
	return value, marks, ok
}

func digitGroups(text []byte, mark byte) int { return digitGroupsOf(text, string(rune(mark))) }

// digitGroupsOf is into how many groups a mark parts a whole number: one of one
// to three digits, the first not 0, then groups of three; 0 when it does not.
func digitGroupsOf(text []byte, mark string) (groups int) {
	if len(text) > 0 && (text[0] == '-' || text[0] == '+') {
		text = text[1:]
	}
	for group := range bytes.SplitSeq(text, []byte(mark)) {
		n := digitsIn(group)
		if n != len(group) || groups == 0 && (n < 1 || n > 3 || group[0] == '0') || groups > 0 && n != 3 {
			return 0
		}
		groups++
	}
	return groups
}

// cutUnit parts a number from the letters behind it, in normal form.
func cutUnit(text []byte) (number []byte, unit string) {
	end := bytes.LastIndexAny(text, "0123456789") + 1
	return bytes.TrimSpace(text[:end]), normalForm(strings.TrimSuffix(validText(text[end:]), "."))
}

// parseFeetAndInches reads 12', 6'3", 6 ft 3 in and 18".
func parseFeetAndInches(text []byte, decimalComma bool) (feet float64, ok bool) {
	written := strings.NewReplacer("\u2032", "'", "\u2033", `"`, "\u2019", "'", "\u201d", `"`, "''", `"`).Replace(validText(text))
	for _, names := range [...]struct{ feet, inches string }{{"'", `"`}, {"feet", "inches"}, {"foot", "inches"}, {"ft", "in"}} {
		before, after, hasFeet := strings.Cut(written, names.feet)
		if !hasFeet {
			before, after = "", written
		}
		inches, hasInches := strings.CutSuffix(strings.TrimSpace(strings.TrimPrefix(after, ".")), names.inches)
		if !hasFeet && !hasInches || hasFeet && !hasInches && (names.feet != "'" || strings.TrimSpace(after) != "") {
			continue
		}
		sum := 0.0
		for _, part := range [...]struct {
			text    string
			written bool
			perFoot float64
		}{{before, hasFeet, 1}, {inches, hasInches, 12}} {
			if !part.written {
				continue
			}
			value, _, ok := parseMarkedNumber([]byte(strings.TrimSpace(part.text)), decimalComma)
			if !ok || value < 0 || hasFeet && part.perFoot == 12 && value >= 12 {
				return 0, false
			}
			sum += value / part.perFoot
		}
		return sum, true
	}
	return 0, false
}

// parseBearing reads decimal degrees with a degree sign or a compass letter:
// 56.3° N, W 2.8. South and west are negative.
func parseBearing(text []byte, isLatitude bool) (degrees float64, ok bool) {
	written := strings.ToUpper(strings.TrimSpace(validText(text)))
	letter, sign := "", 1.0
	if first, width := utf8.DecodeRuneInString(written); strings.ContainsRune("NSEW", first) {
		letter, written = string(first), written[width:]
	} else if last, width := utf8.DecodeLastRuneInString(written); strings.ContainsRune("NSEW", last) {
		letter, written = string(last), written[:len(written)-width]
	}
	switch {
	case letter == "S", letter == "W":
		sign = -1
	}
	if letter != "" && isLatitude != (letter == "N" || letter == "S") {
		return 0, false
	}
	written = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(written), "°"))
	degrees, ok = parseNumber([]byte(written))
	if letter != "" && (degrees < 0 || strings.HasPrefix(written, "-")) {
		return 0, false
	}
	return 0 + sign*degrees, ok
}
