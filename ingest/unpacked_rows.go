package ingest

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/bits"
	"slices"

	"github.com/klauspost/compress/s2"

	"roundmill/ingest/disk"
)

// takeBack unpacks pieces, one after another.
func takeBack(aside *disk.Spool, pieces []piece) (*rows, error) {
	all := 0
	for _, p := range pieces {
		all += int(p.records)
	}
	loaded := &rows{}
	loaded.reserve(all)
	var u rowUnpacker
	var packed []byte
	for _, p := range pieces {
		packed = slices.Grow(packed[:0], int(p.length))[:p.length]
		_, err := aside.ReadAt(packed, p.at)
		if err == nil {
			err = u.unpack(packed, loaded)
		}
		if err != nil {
			return nil, err
		}
	}
	return loaded, nil
}

// A rowUnpacker unpacks into rows that have room. It keeps its buffers.
type rowUnpacker struct {
	raw     []byte
	rest    []byte  // of raw
	ints    []int32 // the values read last
	recoded []int32
}

// unpack adds the records of a packed piece to rows that have room for them.
func (u *rowUnpacker) unpack(packed []byte, r *rows) error {
	raw, err := s2.Decode(u.raw[:cap(u.raw)], packed)
	if err != nil {
		return fmt.Errorf("scattered rounds did not come back as they were put aside: %w", err)
	}
	u.raw, u.rest = raw, raw
	n := int(u.uvarint())
	for i := range r.texts {
		u.words(&r.texts[i], r, n)
	}
	for i := range r.numbers {
		u.numbers(&r.numbers[i], r, n)
	}
	u.wholes(n)
	line := int32(0)
	for i, more := range u.ints {
		line += more
		r.line[r.n+i] = line
	}
	u.wholes(n)
	copy(r.file[r.n:], u.ints)
	for _, flags := range r.flags() {
		present := u.presence(n)
		for i := range n {
			(*flags)[r.n+i] = present.at(i)
		}
	}
	r.n += n
	return nil
}

func (u *rowUnpacker) uvarint() uint64 {
	value, length := binary.Uvarint(u.rest)
	u.rest = u.rest[length:]
	return value
}

func (u *rowUnpacker) next(length int) []byte {
	bytes := u.rest[:length]
	u.rest = u.rest[length:]
	return bytes
}

// A presence says which records have a value.
type presence struct {
	kind byte
	bits []byte
}

func (u *rowUnpacker) presence(n int) presence {
	p := presence{kind: u.next(1)[0]}
	if p.kind == somePresent {
		p.bits = u.next((n + 7) / 8)
	}
	return p
}

func (p presence) at(i int) bool {
	return p.kind == allPresent || p.kind == somePresent && p.bits[i>>3]>>(i&7)&1 == 1
}

// count is how many of n records have a value.
func (p presence) count(n int) (present int) {
	if p.kind == allPresent {
		return n
	}
	for _, eight := range p.bits {
		present += bits.OnesCount8(eight)
	}
	return present
}

func (u *rowUnpacker) words(column *words, r *rows, n int) {
	present := u.presence(n)
	if present.kind == nonePresent {
		return
	}
	u.recoded = u.recoded[:0]
	asItIs := func(word string) (string, bool) { return word, true }
	for range u.uvarint() {
		u.recoded = append(u.recoded, column.code(u.next(int(u.uvarint())), asItIs))
	}
	u.wholes(present.count(n))
	if column.codes == nil {
		column.codes = missingWords(len(r.line))
	}
	scatter(column.codes[r.n:r.n+n], present, func(i int) int32 { return u.recoded[u.ints[i]] })
}

func (u *rowUnpacker) numbers(column *[]float64, r *rows, n int) {
	present := u.presence(n)
	if present.kind == nonePresent {
		return
	}
	if *column == nil {
		*column = missingNumbers(len(r.line))
	}
	into := (*column)[r.n : r.n+n]
	if u.rest[0] == 8 {
		reals := u.rest[1:]
		u.next(1 + 8*present.count(n))
		scatter(into, present, func(i int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(reals[8*i:])) })
		return
	}
	u.wholes(present.count(n))
	scatter(into, present, func(i int) float64 { return float64(u.ints[i]) })
}

// scatter puts the values that are there in their places.
func scatter[V any](into []V, present presence, value func(i int) V) {
	if present.kind == allPresent {
		for i := range into {
			into[i] = value(i)
		}
		return
	}
	next := 0
	for at, eight := range present.bits {
		for ; eight != 0; eight &= eight - 1 {
			into[8*at+bits.TrailingZeros8(eight)] = value(next)
			next++
		}
	}
}

// wholes reads n values into u.ints.
func (u *rowUnpacker) wholes(n int) {
	width := int(u.next(1)[0])
	bytes := u.next(n * width)
	u.ints = slices.Grow(u.ints[:0], n)[:n]
	switch width {
	case 1:
		for i := range u.ints {
			u.ints[i] = int32(int8(bytes[i]))
		}
	case 2:
		for i := range u.ints {
			u.ints[i] = int32(int16(binary.LittleEndian.Uint16(bytes[2*i:])))
		}
	default:
		for i := range u.ints {
			u.ints[i] = int32(binary.LittleEndian.Uint32(bytes[4*i:]))
		}
	}
}
