package ingest

// A border is what there is to know of the record before a place in a file.
type border struct {
	file  int
	rows  *rows // nil: no record of the file stands before
	row   int
	idle  bool // it is a stray without a shot number
	doubt bool // what comes next may belong to a hole that lost a record
}

// placeStrays puts the strays of a chunk where they belong, as if the file had
// not been cut before it, and moves on to its end. A stray goes with the record
// before it, and throws doubt on the one after it. At the start of a file there
// is none before, and nothing is kept of a stray. Of several on end one says as
// much as all, so that a file of rubbish takes no room. What a malformed record
// says of another round is not believed.
func (b *border) placeStrays(p *parsed) {
	if b.file != p.at {
		*b = border{file: p.at}
	}
	r, next := p.rows, 0
	var dropped []int
	for _, row := range p.strays {
		b.pass(r, next, row)
		next = row + 1
		unplaced := r.unplaced(row)
		switch {
		case !unplaced && (b.rows == nil || r.roundKey(row) == b.rows.roundKey(b.row)):
			b.pass(r, row, next)
			continue
		case b.rows == nil:
			dropped = append(dropped, row)
			b.doubt = true
			continue
		}
		r.inheritKey(row, b.rows, b.row)
		switch numbered := !isMissing(r.number(shot, row)); {
		case b.idle && !numbered:
			dropped = append(dropped, row)
		default:
			b.pass(r, row, next)
			b.idle, b.doubt = !numbered, true
		}
	}
	b.pass(r, next, r.n)
	p.rows = r.without(dropped)
}

// pass moves on over the records [from, to), which stand where they say.
func (b *border) pass(r *rows, from, to int) {
	if from == to {
		return
	}
	if b.doubt {
		r.doubt[from] = true
	}
	*b = border{file: b.file, rows: r, row: to - 1}
}
