package store

import (
	"encoding/binary"
	"iter"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/klauspost/compress/s2"
)

// part is rows [from, to) of a piece that is kept.
type part struct {
	Kept
	from, to int
}

// opened is parts of pieces, unpacked. Columns can be made of it, also several at once.
type opened struct {
	schema *arrow.Schema
	parts  []part
	rows   int
	raw    [][]byte // by part: what was packed, and a little more
	starts []int32  // in raw, of the columns of the first part, of the second ...
}

// beyond is how far past the last value a loop may read.
const beyond = 8

// open unpacks pieces.
func (p *Pile) open(parts []part) (*opened, error) {
	o := &opened{schema: p.schema, parts: parts, raw: make([][]byte, len(parts))}
	fields := p.schema.Fields()
	o.starts = make([]int32, 0, len(parts)*len(fields))
	var scratch, room []byte
	for i, part := range parts {
		packed, err := p.bytes(part.Kept, scratch)
		if err != nil {
			return nil, err
		}
		size, err := s2.DecodedLen(packed)
		if err != nil {
			return nil, p.failed(err)
		}
		if len(room) < size+beyond {
			room = make([]byte, max(size+beyond, min(blockBytes, len(parts)*(size+beyond))))
		}
		if _, err := s2.Decode(room[:size], packed); err != nil {
			return nil, p.failed(err)
		}
		o.raw[i], room = room[:size+beyond], room[size:]
		o.rows += part.to - part.from
		rest := unpacker{o.raw[i], int(part.Rows)}
		for _, field := range fields {
			o.starts = append(o.starts, int32(len(o.raw[i])-len(rest.raw)))
			rest.column(field.Type)
		}
		if part.at < p.written {
			scratch = packed
		}
	}
	return o, nil
}

// each is the packed column of every part.
func (o *opened) each(column int) iter.Seq2[part, packedColumn] {
	as := o.schema.Field(column).Type
	return func(yield func(part, packedColumn) bool) {
		for i, part := range o.parts {
			rest := unpacker{o.raw[i][o.starts[i*o.schema.NumFields()+column]:], int(part.Rows)}
			if !yield(part, rest.column(as)) {
				return
			}
		}
	}
}

// levels appends 1 for each row that has a value, and 0 for the others.
func (o *opened) levels(column int, levels []int16) []int16 {
	levels = slices.Grow(levels, o.rows)
	for part, packed := range o.each(column) {
		switch {
		case packed.none:
			levels = append(levels, make([]int16, part.to-part.from)...)
		case packed.all:
			for range part.to - part.from {
				levels = append(levels, 1)
			}
		default:
			for row := part.from; row < part.to; row++ {
				levels = append(levels, int16(packed.bit(row)))
			}
		}
	}
	return levels
}

// values appends the values that are there, so many bytes each.
func (o *opened) values(column int, values []byte, width int) []byte {
	values = slices.Grow(values, width*o.rows)
	for part, packed := range o.each(column) {
		if !packed.none {
			before, within := packed.count(0, part.from), packed.count(part.from, part.to)
			values = append(values, packed.values[before*width:(before+within)*width]...)
		}
	}
	return values
}

// answers appends the answers that are there.
func (o *opened) answers(column int, answers []bool) []bool {
	answers = slices.Grow(answers, o.rows)
	for part, packed := range o.each(column) {
		if packed.none {
			continue
		}
		for row := part.from; row < part.to; row++ {
			if packed.all || packed.bit(row) == 1 {
				answers = append(answers, bitutil.BitIsSet(packed.values, row))
			}
		}
	}
	return answers
}

// column makes a column of all parts, with 0 where there is no value.
func (o *opened) column(column int) arrow.Array {
	present := make([]byte, bitutil.BytesForBits(int64(o.rows)))
	as := o.schema.Field(column).Type
	var values []byte
	var words *recoder
	width := 0
	switch as.ID() {
	case arrow.BOOL:
		values = make([]byte, len(present))
	case arrow.DICTIONARY:
		words = &recoder{places: map[string]int32{}}
		width = 4
	default:
		width = as.(arrow.FixedWidthDataType).Bytes()
	}
	if width > 0 {
		values = make([]byte, width*o.rows)
	}
	at, nulls := 0, 0
	for part, packed := range o.each(column) {
		from, n := part.from, part.to-part.from
		nulls += n - packed.count(from, part.to)
		switch {
		case packed.none:
			at += n
			continue
		case packed.all:
			bitutil.SetBitsTo(present, int64(at), int64(n), true)
		default:
			bitutil.CopyBitmap(packed.bits, from, n, present, at)
		}
		switch {
		case words != nil:
			packed.recode(values[4*at:], from, n, words)
		case width > 0:
			packed.spread(values[width*at:], from, n, width)
		default:
			bitutil.CopyBitmap(packed.values, from, n, values, at)
		}
		at += n
	}
	var validity *memory.Buffer
	if nulls > 0 {
		validity = memory.NewBufferBytes(present)
	}
	data := func(as arrow.DataType) arrow.ArrayData {
		return array.NewData(as, o.rows, []*memory.Buffer{validity, memory.NewBufferBytes(values)}, nil, nulls, 0)
	}
	if words != nil {
		return array.NewDictionaryArray(as, array.NewInt32Data(data(arrow.PrimitiveTypes.Int32)), words.list())
	}
	return array.MakeFromData(data(as))
}

// An unpacker takes a piece of so many rows apart, column after column.
type unpacker struct {
	raw  []byte
	rows int
}

// packedColumn is a column of a piece.
type packedColumn struct {
	presence
	values    []byte // those that are there, or codes, and beyond; answers as bits
	words     []byte // each after its length
	wordCount int
}

// column takes the next column off.
func (u *unpacker) column(as arrow.DataType) (c packedColumn) {
	there := u.rows
	switch u.take(1)[0] {
	case allPresent:
		c.all = true
	case nonePresent:
		c.none = true
		return c
	default:
		c.bits = u.take(int(bitutil.BytesForBits(int64(u.rows))))
		there = bitutil.CountSetBits(c.bits, 0, u.rows)
	}
	switch as := as.(type) {
	case *arrow.BooleanType:
		c.values = u.take(int(bitutil.BytesForBits(int64(u.rows))))
	case *arrow.DictionaryType:
		c.wordCount = u.number()
		c.words = u.raw
		for range c.wordCount {
			u.take(u.number())
		}
		c.values = u.take(there * codeWidth(c.wordCount))
	case arrow.FixedWidthDataType:
		c.values = u.take(there * as.Bytes())
	}
	return c
}

// take takes bytes off; those beyond can be read.
func (u *unpacker) take(n int) []byte {
	taken := u.raw[:n+beyond]
	u.raw = u.raw[n:]
	return taken
}

func (u *unpacker) number() int {
	n, size := binary.Uvarint(u.raw)
	u.raw = u.raw[size:]
	return int(n)
}

// count is how many of rows [from, to) have a value.
func (p presence) count(from, to int) int {
	switch {
	case p.all:
		return to - from
	case p.none:
		return 0
	}
	return bitutil.CountSetBits(p.bits, from, to-from)
}

// spread puts the values of n rows, so many bytes each, where they belong.
func (c *packedColumn) spread(into []byte, from, n, width int) {
	values := c.values[c.count(0, from)*width:]
	if c.all {
		copy(into[:n*width], values)
		return
	}
	at := 0
	switch width {
	case 4:
		for row := range n {
			there := c.bit(from + row)
			binary.NativeEndian.PutUint32(into[4*row:], binary.NativeEndian.Uint32(values[at:])&-uint32(there))
			at += 4 * there
		}
	case 8:
		for row := range n {
			there := c.bit(from + row)
			binary.NativeEndian.PutUint64(into[8*row:], binary.NativeEndian.Uint64(values[at:])&-uint64(there))
			at += 8 * there
		}
	default:
		for row := range n {
			if c.bit(from+row) == 1 {
				copy(into[width*row:], values[at:at+width])
				at += width
			}
		}
	}
}

// recode puts the codes of n rows where they belong, as places among all words met.
func (c *packedColumn) recode(into []byte, from, n int, words *recoder) {
	width := codeWidth(c.wordCount)
	values := c.values[c.count(0, from)*width:]
	words.open(c)
	for row := range n {
		if !c.all && c.bit(from+row) == 0 {
			continue
		}
		code := 0
		switch width {
		case 1:
			code = int(values[0])
		case 2:
			code = int(binary.NativeEndian.Uint16(values))
		case 4:
			code = int(binary.NativeEndian.Uint32(values))
		}
		values = values[width:]
		binary.NativeEndian.PutUint32(into[4*row:], uint32(words.place(code)))
	}
}

// A recoder joins the words of pieces: it gives every word the place at which it was first met.
type recoder struct {
	met    []string
	places map[string]int32
	words  [][]byte // of the piece at hand
	known  []int32  // their places, -1 where not met
}

// open turns to the words of another piece.
func (r *recoder) open(c *packedColumn) {
	r.words, r.known = r.words[:0], r.known[:0]
	rest := unpacker{raw: c.words}
	for range c.wordCount {
		n := rest.number()
		r.words = append(r.words, rest.take(n)[:n])
		r.known = append(r.known, -1)
	}
}

// place is the place of a word of the piece at hand.
func (r *recoder) place(code int) int32 {
	if r.known[code] >= 0 {
		return r.known[code]
	}
	place, met := r.places[string(r.words[code])]
	if !met {
		place = int32(len(r.met))
		word := string(r.words[code])
		r.places[word] = place
		r.met = append(r.met, word)
	}
	r.known[code] = place
	return place
}

func (r *recoder) list() arrow.Array {
	builder := array.NewStringBuilder(memory.DefaultAllocator)
	if r.met == nil {
		builder.Append("") // a null's code must stand for something
	}
	builder.AppendValues(r.met, nil)
	return builder.NewStringArray()
}
