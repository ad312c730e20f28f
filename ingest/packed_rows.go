package ingest

import (
	"encoding/binary"
	"math"
	"slices"

	"github.com/klauspost/compress/s2"
)

// A rowPacker packs records for the disk, column after column: only values that
// are there, numbers and codes by the fewest bytes that do, every word once, and
// all of it compressed. It keeps its buffers.
type rowPacker struct {
	raw   []byte
	bits  []byte
	ints  []int32
	reals []float64
	local []int32 // by code in a column: the code in the block, plus 1
	used  []int32 // the other way round
}

// How a packed column says which records have a value.
const (
	nonePresent byte = iota
	allPresent
	somePresent // a bitmap follows
)

// pack appends records to out, packed: those from one place to another.
func (p *rowPacker) pack(out []byte, r *rows, from, to int) []byte {
	p.raw = binary.AppendUvarint(p.raw[:0], uint64(to-from))
	for i := range r.texts {
		if codes := r.texts[i].codes; codes == nil {
			p.raw = append(p.raw, nonePresent)
		} else {
			p.words(codes[from:to], r.texts[i].list)
		}
	}
	for i := range r.numbers {
		if column := r.numbers[i]; column == nil {
			p.raw = append(p.raw, nonePresent)
		} else {
			p.numbers(column[from:to])
		}
	}
	p.ints = p.ints[:0]
	before := int32(0)
	for _, line := range r.line[from:to] {
		p.ints = append(p.ints, line-before)
		before = line
	}
	p.wholes()
	p.ints = append(p.ints[:0], r.file[from:to]...)
	p.wholes()
	for _, flags := range r.flags() {
		p.clear(to - from)
		set := 0
		for i, yes := range (*flags)[from:to] {
			if yes {
				p.bits[i>>3] |= 1 << (i & 7)
				set++
			}
		}
		p.presence(to-from, set)
	}
	out = slices.Grow(out, s2.MaxEncodedLen(len(p.raw)))
	return out[:len(out)+len(s2.Encode(out[len(out):cap(out)], p.raw))]
}

// flags are the columns that say yes or no of every record.
func (r *rows) flags() [4]*[]bool {
	return [...]*[]bool{&r.refused, &r.doubt, &r.broken, &r.leftOpen}
}

func (p *rowPacker) clear(n int) {
	p.bits = append(p.bits[:0], make([]byte, (n+7)/8)...)
}

func (p *rowPacker) presence(n, present int) {
	switch present {
	case 0:
		p.raw = append(p.raw, nonePresent)
	case n:
		p.raw = append(p.raw, allPresent)
	default:
		p.raw = append(append(p.raw, somePresent), p.bits...)
	}
}

func (p *rowPacker) words(codes []int32, list []string) {
	if missing := len(list) - len(p.local); missing > 0 {
		p.local = append(p.local, make([]int32, missing)...)
	}
	p.clear(len(codes))
	p.ints, p.used = p.ints[:0], p.used[:0]
	for i, code := range codes {
		if code < 0 {
			continue
		}
		p.bits[i>>3] |= 1 << (i & 7)
		if p.local[code] == 0 {
			p.used = append(p.used, code)
			p.local[code] = int32(len(p.used))
		}
		p.ints = append(p.ints, p.local[code]-1)
	}
	p.presence(len(codes), len(p.ints))
	if len(p.ints) == 0 {
		return
	}
	p.raw = binary.AppendUvarint(p.raw, uint64(len(p.used)))
	for _, code := range p.used {
		p.raw = binary.AppendUvarint(p.raw, uint64(len(list[code])))
		p.raw = append(p.raw, list[code]...)
		p.local[code] = 0
	}
	p.wholes()
}

func (p *rowPacker) numbers(column []float64) {
	p.clear(len(column))
	p.reals, p.ints = p.reals[:0], p.ints[:0]
	for i, number := range column {
		if !isMissing(number) {
			p.bits[i>>3] |= 1 << (i & 7)
			p.reals = append(p.reals, number)
		}
	}
	p.presence(len(column), len(p.reals))
	if len(p.reals) == 0 {
		return
	}
	for _, number := range p.reals {
		whole := int32(number)
		if math.Float64bits(float64(whole)) != math.Float64bits(number) {
			break
		}
		p.ints = append(p.ints, whole)
	}
	if len(p.ints) == len(p.reals) {
		p.wholes()
		return
	}
	p.raw = append(p.raw, 8)
	for _, number := range p.reals {
		p.raw = binary.LittleEndian.AppendUint64(p.raw, math.Float64bits(number))
	}
}

// wholes packs p.ints: the bytes that each takes, then all of them.
func (p *rowPacker) wholes() {
	least, greatest := slices.Min(p.ints), slices.Max(p.ints)
	switch {
	case least >= math.MinInt8 && greatest <= math.MaxInt8:
		p.raw = append(p.raw, 1)
		for _, v := range p.ints {
			p.raw = append(p.raw, byte(v))
		}
	case least >= math.MinInt16 && greatest <= math.MaxInt16:
		p.raw = append(p.raw, 2)
		for _, v := range p.ints {
			p.raw = binary.LittleEndian.AppendUint16(p.raw, uint16(v))
		}
	default:
		p.raw = append(p.raw, 4)
		for _, v := range p.ints {
			p.raw = binary.LittleEndian.AppendUint32(p.raw, uint32(v))
		}
	}
}
