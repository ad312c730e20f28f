package ingest

// The fields whose unit and range hang on the lie stand together in the list of
// fields: to_hole, putt_length and left.
const distanceCount = int(left-toHole) + 1

func (f field) hangsOnLie() bool { return f >= toHole && f <= left }

// A writtenDistance is one of them as the record has it.
type writtenDistance struct {
	text   []byte
	unit   Unit // named by the header or key, or by the cell
	inCell bool // it was the cell
}

// settleDistances brings to_hole, left and putt_length to yards. Where no
// header names a unit, off the green they are yards and on it feet.
func (p *recordParser) settleDistances() {
	r, row := p.rows, p.row
	onGreen := p.onLie.at(&r.texts[lie], row) == Green
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
	ends := p.onFinish.at(&r.texts[finishLie], row)
	finishUnknown := ends == NoCategory
	if finishUnknown && onGreen {
		ends = Green
	}
	r.leftOpen[row] = finishUnknown && !onGreen && p.distances[left-toHole].unit == NoUnit
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
	text := p.distances[f-toHole].text
	switch {
	case yards < 0:
		p.refuse(f, text, "expected a distance, not a negative number", "")
	case onGreen && yards > definitions[puttLength].max:
		p.refuse(f, text, "expected a putt of at most 200 ft", "putts are read in feet unless the header or --putt-unit says otherwise")
	case yards > definitions[f].max:
		p.refuse(f, text, "expected "+definitions[f].limits(), "")
	default:
		return true
	}
	return false
}

// puttYards turns a distance on the green as read so far into yards: by
// the unit in its cell first, then by --putt-unit, then by the unit in its header,
// else as feet.
func (p *recordParser) puttYards(f field, value float64) float64 {
	switch unit := p.distances[f-toHole].unit; {
	case p.distances[f-toHole].inCell:
		return value
	case p.puttUnit != NoUnit:
		return value * units[unit].perBase / units[p.puttUnit].perBase
	case unit == NoUnit:
		return value / feetPerYard
	}
	return value
}
